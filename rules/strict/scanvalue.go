package strict

import "strings"

// value reads the value of a node: its elements and keys get nodes below it.
func (s *scanner) value(n *node) bool {
	if n.depth > MaxDepth {
		s.tooFar = true
		return false
	}
	s.blanks(false)
	switch c := s.peek(); c {
	case '[':
		return s.list(n)
	case '{':
		return s.inline(n)
	case '"', '\'':
		return s.quoted(n, c)
	}
	return s.bare(n)
}

// list reads [ ... ], which may run over several lines.
func (s *scanner) list(n *node) bool {
	s.push("[")
	for {
		s.blanks(true)
		if s.accept(']') {
			return s.pop()
		}
		if s.pos >= len(s.text) || !s.value(s.item(n, s.lineAt(s.pos))) {
			return false
		}
		s.blanks(true)
		if s.accept(',') {
			continue
		}
		return s.accept(']') && s.pop()
	}
}

// inline reads { ... }. Since version 1.1 of the format it too may run over
// several lines, and the library lets it.
func (s *scanner) inline(n *node) bool {
	s.push("{")
	for {
		s.blanks(true)
		if s.accept('}') {
			return s.pop()
		}
		if !s.pair(n) {
			return false
		}
		s.blanks(true)
		if s.accept(',') {
			continue
		}
		return s.accept('}') && s.pop()
	}
}

func (s *scanner) push(mark string) {
	s.open = append(s.open, open{mark, s.lineAt(s.pos)})
	s.pos++
}

func (s *scanner) pop() bool {
	s.open = s.open[:len(s.open)-1]
	return true
}

// bare reads a number, a date, true or false. What it is exactly is for the
// library to judge; only the numbers that are no numbers are caught here.
func (s *scanner) bare(n *node) bool {
	rest := s.text[s.pos:]
	end := strings.IndexAny(rest, ",]}#\n")
	if end < 0 {
		end = len(rest)
	}
	word := strings.TrimRight(rest[:end], " \t")
	if word == "" {
		return false
	}
	if plain := strings.TrimLeft(word, "+-"); plain == "nan" || plain == "inf" {
		s.problems = append(s.problems, Problem{
			File: s.file, Line: s.lineAt(s.pos), Key: keyText(n.path()), Found: cut(word), Want: "a number written in digits",
		})
	}
	s.pos += end
	return true
}
