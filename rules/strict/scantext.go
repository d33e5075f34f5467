package strict

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// quoted reads a text value in any of the four kinds of quotes and refuses the
// characters that may not reach a terminal, on the line where they stand.
func (s *scanner) quoted(n *node, quote byte) bool {
	s.token = s.pos
	mark := string(quote)
	long := strings.HasPrefix(s.text[s.pos:], strings.Repeat(mark, 3))
	if long {
		mark = strings.Repeat(mark, 3)
	}
	s.str = open{mark, s.lineAt(s.pos)}
	s.pos += len(mark)
	said := false
	for {
		at := s.pos
		r, end, ok := s.char(quote, long)
		if !ok {
			return false
		}
		if end {
			s.str = open{}
			return true
		}
		if !said && r >= 0 && BadRune(r) {
			said = true // once for each text is enough to find it
			s.problems = append(s.problems, Problem{
				File: s.file, Line: s.lineAt(at), Key: keyText(n.path()),
				Found: "the character " + runeName(r) + ", which cannot be seen", Want: "text of visible characters",
			})
		}
	}
}

// quotedKey reads a key in quotes, which is always on one line.
func (s *scanner) quotedKey(quote byte) (string, bool) {
	s.token = s.pos
	s.str = open{string(quote), s.lineAt(s.pos)}
	s.pos++
	var b strings.Builder
	for {
		r, end, ok := s.char(quote, false)
		switch {
		case !ok:
			return "", false
		case end:
			s.str = open{}
			return b.String(), true
		case r >= 0:
			b.WriteRune(r)
		}
	}
}

// char reads one character of a text or its closing marks (end). An escaped
// line end stands for no character: r is -1.
func (s *scanner) char(quote byte, long bool) (r rune, end, ok bool) {
	if s.pos >= len(s.text) {
		return 0, false, false
	}
	switch c := s.text[s.pos]; {
	case c == quote && long:
		return s.marks(quote)
	case c == quote:
		s.pos++
		return 0, true, true
	case c == '\n' && !long:
		return 0, false, false
	case c == '\\' && quote == '"':
		r, ok = s.escape(long)
		return r, false, ok
	}
	r, size := utf8.DecodeRuneInString(s.text[s.pos:])
	s.pos += size
	return r, false, true
}

// marks reads quote marks inside a long text: one or two belong to the text,
// of three to five the last three close it.
func (s *scanner) marks(quote byte) (r rune, end, ok bool) {
	run := 0
	for s.pos+run < len(s.text) && s.text[s.pos+run] == quote {
		run++
	}
	// The format forbids six. The library takes them after a backslash that is
	// itself escaped, and the two readings must not part.
	six := run == 6 && quote == '"' && s.text[s.pos-1] == '\\'
	switch {
	case run < 3:
		s.pos += run
		return rune(quote), false, true
	case run <= 5 || six:
		s.pos += run
		return 0, true, true
	}
	return 0, false, false
}

var escapes = map[byte]rune{'b': '\b', 't': '\t', 'n': '\n', 'f': '\f', 'r': '\r', 'e': 0x1b, '"': '"', '\\': '\\'}

var escapeDigits = map[byte]int{'x': 2, 'u': 4, 'U': 8}

// escape reads a backslash and what belongs to it.
func (s *scanner) escape(long bool) (rune, bool) {
	rest := s.text[s.pos+1:]
	if rest == "" {
		return 0, false
	}
	if r, ok := escapes[rest[0]]; ok {
		s.pos += 2
		return r, true
	}
	if n := escapeDigits[rest[0]]; n > 0 {
		if len(rest) <= n {
			return 0, false
		}
		code, err := strconv.ParseUint(rest[1:1+n], 16, 32)
		if err != nil || code > utf8.MaxRune || !utf8.ValidRune(rune(code)) {
			return 0, false
		}
		s.pos += 2 + n
		return rune(code), true
	}
	// A backslash at the end of a line joins it to the next word.
	if tail := strings.TrimLeft(rest, " \t"); long && strings.HasPrefix(tail, "\n") {
		tail = strings.TrimLeft(tail, " \t\n")
		s.pos = len(s.text) - len(tail)
		return -1, true
	}
	return 0, false
}
