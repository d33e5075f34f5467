package strict

import (
	"fmt"
	"strings"
)

// MaxDepth is how deep tables and lists may nest, counted in path elements. The
// library recurses; without a bound a line of brackets would overflow the stack.
const MaxDepth = 64

// scanner goes once through TOML text and notes the line of every key path. It
// follows the grammar up to the first thing it does not know and then stops:
// what is wrong there is for the library to say. Up to that point its reading
// and the library's agree, so that the depth is bounded before the library
// sees the text.
//
// The text holds no carriage return and is valid UTF-8.
type scanner struct {
	text string
	file string
	pos  int

	line    int // of counted
	counted int

	root, table *node
	order       int
	comments    bool

	problems Problems // what the library accepts and we do not
	twice    Problems // keys given a value twice

	token  int    // where the last string began
	open   []open // lists and inline tables not closed yet
	str    open   // the string being read
	tooFar bool   // deeper than MaxDepth
	done   bool   // the whole text was understood
}

// open is an opening bracket or quote mark.
type open struct {
	mark string
	line int
}

func scan(file, text string) *scanner {
	s := &scanner{file: file, text: text, line: 1, root: &node{}}
	s.table = s.root
	s.done = s.run()
	return s
}

func (s *scanner) run() bool {
	for {
		s.blanks(true)
		if s.pos >= len(s.text) {
			return true
		}
		ok := false
		if s.peek() == '[' {
			ok = s.header()
		} else {
			ok = s.pair(s.table)
		}
		if !ok || !s.lineEnd() {
			return false
		}
	}
}

// lineAt gives the line of an offset. Offsets must not go back.
func (s *scanner) lineAt(pos int) int {
	if pos > s.counted {
		s.line += strings.Count(s.text[s.counted:pos], "\n")
		s.counted = pos
	}
	return s.line
}

// peek gives the next byte, 0 at the end: the text holds no other 0.
func (s *scanner) peek() byte {
	if s.pos < len(s.text) {
		return s.text[s.pos]
	}
	return 0
}

func (s *scanner) accept(b byte) bool {
	if s.peek() != b {
		return false
	}
	s.pos++
	return true
}

// blanks skips spaces and tabs, and with lines also line ends and comments.
func (s *scanner) blanks(lines bool) {
	for {
		switch s.peek() {
		case ' ', '\t':
			s.pos++
		case '\n':
			if !lines {
				return
			}
			s.pos++
		case '#':
			if !lines {
				return
			}
			s.comment()
		default:
			return
		}
	}
}

func (s *scanner) comment() {
	s.comments = true
	if end := strings.IndexByte(s.text[s.pos:], '\n'); end >= 0 {
		s.pos += end
		return
	}
	s.pos = len(s.text)
}

// lineEnd wants nothing more on this line than a comment.
func (s *scanner) lineEnd() bool {
	s.blanks(false)
	if s.peek() == '#' {
		s.comment()
	}
	return s.pos >= len(s.text) || s.accept('\n')
}

// header reads [table] or [[table]].
func (s *scanner) header() bool {
	line := s.lineAt(s.pos)
	s.accept('[')
	list := s.accept('[')
	parts, ok := s.key(s.root)
	if !ok || !s.accept(']') || list && !s.accept(']') {
		return false
	}
	n := s.root
	for _, part := range parts {
		n = s.kid(n.current(), part, line)
		if n.depth > MaxDepth {
			s.tooFar = true
			return false
		}
		if n.fixed {
			s.more(n, line)
			s.table = apart(n, line)
			return true
		}
	}
	switch {
	case list:
		if len(n.items) == 0 {
			n.line = line
		}
		n = s.item(n, line)
	case len(n.items) == 0:
		// [a.b] mentioned a; here is its own line.
		n.line = line
	}
	s.table = n
	return true
}

// pair reads key = value into a table.
func (s *scanner) pair(table *node) bool {
	line := s.lineAt(s.pos)
	parts, ok := s.key(table)
	if !ok || !s.accept('=') {
		return false
	}
	n := table
	for i, part := range parts {
		if i > 0 {
			n = n.current()
		}
		before := n.kids[part]
		n = s.kid(n, part, line)
		switch last := i == len(parts)-1; {
		case before == nil:
		case last:
			s.again(n, line)
			n = apart(n, line)
		case n.fixed:
			s.more(n, line)
			n = apart(n, line)
		}
	}
	ok = s.value(n)
	n.fixed = true
	return ok
}

// apart makes a node for what is written under a name that is taken, so that
// it does not mix with what is there.
func apart(n *node, line int) *node {
	return &node{parent: n.parent, name: n.name, line: line, depth: n.depth}
}

// again notes a key that has a value already, and more one that is to be a
// table besides. The library accepts some of these and drops one of the values
// without a word.
func (s *scanner) again(n *node, line int) {
	s.twice = append(s.twice, Problem{
		File: s.file, Line: line, Key: keyText(n.path()),
		Found: "this key a second time", Want: fmt.Sprintf("it once only; the first is on line %d", n.line),
	})
}

func (s *scanner) more(n *node, line int) {
	s.twice = append(s.twice, Problem{
		File: s.file, Line: line, Key: keyText(n.path()),
		Found: "more keys for this one, which has its value already", Want: fmt.Sprintf("all of it in one place; it is on line %d", n.line),
	})
}

// key reads a bare, quoted or dotted key that is to hang below a table, and
// the blanks after it.
func (s *scanner) key(below *node) (parts []string, ok bool) {
	for {
		s.blanks(false)
		part, ok := s.keyPart()
		if !ok {
			return nil, false
		}
		parts = append(parts, part)
		if below.depth+len(parts) > MaxDepth {
			s.tooFar = true
			return nil, false
		}
		s.checkKey(below, parts)
		s.blanks(false)
		if !s.accept('.') {
			return parts, true
		}
	}
}

func (s *scanner) keyPart() (string, bool) {
	if q := s.peek(); q == '"' || q == '\'' {
		return s.quotedKey(q)
	}
	start := s.pos
	for s.pos < len(s.text) && bareKeyByte(s.text[s.pos]) {
		s.pos++
	}
	return s.text[start:s.pos], s.pos > start
}

func bareKeyByte(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9' || b == '_' || b == '-'
}

// checkKey refuses names that nobody can see or tell apart.
func (s *scanner) checkKey(below *node, parts []string) {
	part := parts[len(parts)-1]
	bad := badIn(part)
	if part != "" && bad < 0 {
		return
	}
	path := below.path()
	for _, p := range parts {
		path = append(path, p)
	}
	p := Problem{File: s.file, Line: s.lineAt(s.pos), Key: keyText(path)}
	if part == "" {
		p.Found, p.Want = `a key without a name ("")`, "a name between the quote marks"
	} else {
		p.Found, p.Want = "the character "+runeName(bad)+" in a key", "a key of letters, digits, _ and -"
	}
	s.problems = append(s.problems, p)
}

// badIn gives the first character of a key that may not stand in one, else -1.
func badIn(key string) rune {
	for _, r := range key {
		if BadRune(r) || r == '\n' || r == '\t' {
			return r
		}
	}
	return -1
}

// runeName names a character that cannot be shown.
func runeName(r rune) string { return fmt.Sprintf("U+%04X", r) }
