package strict

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// MaxDepth is how deep tables and lists may nest, counted in path elements. The
// library that decodes recurses; without a bound a line of brackets would
// overflow the stack.
const MaxDepth = 64

// places goes once through TOML text and notes where every key path stands,
// and what the format allows and we do not. The parser does the reading; only
// it knows offsets.
//
// The text holds no carriage return and is valid UTF-8.
type places struct {
	tree  *Tree
	table *node // that the present lines belong to
	end   int   // of the last key, value or bracket

	problems Problems // what the library accepts and we do not
	twice    Problems // keys given a value twice
	tooDeep  *node    // the first beyond MaxDepth
}

// part is one name of a dotted key and where it stands.
type part struct {
	name string
	at   int
}

// findPlaces fills the places of a tree. It ends at the first thing that is no
// TOML and gives its offset, -1 where there is none. Where the end of the text
// comes too early, that is the offset beyond the last byte.
func findPlaces(t *Tree) (s *places, stop int) {
	t.root = &node{}
	s = &places{tree: t, table: t.root}
	var p unstable.Parser
	p.Reset([]byte(t.text + "\n")) // so that every error has a byte to stand on
	for s.tooDeep == nil && p.NextExpression() {
		if e := p.Expression(); e.Kind == unstable.KeyValue {
			s.pair(s.table, e)
		} else {
			s.header(e)
		}
	}
	if p.Error() == nil {
		return s, -1
	}
	var refused *unstable.ParserError
	if errors.As(p.Error(), &refused) {
		return s, int(p.Range(refused.Highlight).Offset)
	}
	return s, s.end
}

// header reads [table] or [[table]].
func (s *places) header(e *unstable.Node) {
	n := s.tree.root
	parts := s.key(n, e.Key())
	at := parts[0].at
	for _, p := range parts {
		n = s.deep(n.current().kid(p))
		if n.fixed {
			s.more(n, at)
			s.table = n.apart(at)
			return
		}
	}
	switch {
	case e.Kind == unstable.ArrayTable:
		if len(n.items) == 0 {
			n.at = at
		}
		n = s.deep(n.item(at))
	case len(n.items) == 0:
		n.at = at // [a.b] mentioned a; here is its own line
	}
	s.table = n
}

// pair reads key = value into a table.
func (s *places) pair(table *node, e *unstable.Node) {
	n := table
	parts := s.key(table, e.Key())
	for i, p := range parts {
		if i > 0 {
			n = n.current()
		}
		before := n.kids[p.name]
		n = s.deep(n.kid(p))
		switch last := i == len(parts)-1; {
		case before == nil:
		case last:
			s.again(n, p.at)
			n = n.apart(p.at)
		case n.fixed:
			s.more(n, p.at)
			n = n.apart(p.at)
		}
	}
	s.value(n, e.Value())
	n.fixed = true
}

// deep notes a node beyond MaxDepth.
func (s *places) deep(n *node) *node {
	if n.depth > MaxDepth && s.tooDeep == nil {
		s.tooDeep = n
	}
	return n
}

// again notes a key that has a value already, and more one that is to be a
// table besides. The library accepts some of these and drops one of the values
// without a word.
func (s *places) again(n *node, at int) {
	s.twice = append(s.twice, s.problem(n.path(), at, "this key a second time", fmt.Sprintf("it once only; the first is on line %d", s.tree.lineAt(n.at))))
}

func (s *places) more(n *node, at int) {
	s.twice = append(s.twice, s.problem(n.path(), at, "more keys for this one, which has its value already", fmt.Sprintf("all of it in one place; it is on line %d", s.tree.lineAt(n.at))))
}

func (s *places) problem(path []any, at int, found, want string) Problem {
	return Problem{File: s.tree.File, Line: s.tree.lineAt(at), Key: keyText(path), Found: found, Want: want}
}

// key reads the parts of a key that is to hang below a table.
func (s *places) key(below *node, key unstable.Iterator) (parts []part) {
	for key.Next() && len(parts) <= MaxDepth {
		k := key.Node()
		parts = append(parts, part{string(k.Data), int(k.Raw.Offset)})
		s.end = int(k.Raw.Offset + k.Raw.Length)
		s.checkKey(below, parts)
	}
	return parts
}

// checkKey refuses names that nobody can see or tell apart.
func (s *places) checkKey(below *node, parts []part) {
	p := parts[len(parts)-1]
	bad := badIn(p.name)
	if p.name != "" && bad < 0 {
		return
	}
	path := below.path()
	for _, p := range parts {
		path = append(path, p.name)
	}
	found, want := `a key without a name ("")`, "a name between the quote marks"
	if p.name != "" {
		found, want = "the character "+runeName(bad)+" in a key", "a key of letters, digits, _ and -"
	}
	s.problems = append(s.problems, s.problem(path, p.at, found, want))
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

// value reads the value of a node: its elements and keys get nodes below it.
func (s *places) value(n *node, v *unstable.Node) {
	if s.tooDeep != nil {
		return
	}
	if v.Kind != unstable.Array && v.Kind != unstable.InlineTable {
		s.scalar(n, v)
		s.end = int(v.Raw.Offset + v.Raw.Length)
		return
	}
	s.end = s.next() + 1
	for kids := v.Children(); kids.Next(); {
		if kid := kids.Node(); kid.Kind == unstable.KeyValue {
			s.pair(n, kid)
		} else {
			s.value(s.deep(n.item(s.next())), kid)
		}
	}
	s.end = s.next() + 1
}

// next is where the next value, key or bracket begins: the parser does not
// tell for lists.
func (s *places) next() int {
	rest := s.tree.text[s.end:]
	for {
		rest = strings.TrimLeft(rest, " \t\n=,")
		if !strings.HasPrefix(rest, "#") {
			return len(s.tree.text) - len(rest)
		}
		_, rest, _ = strings.Cut(rest, "\n")
	}
}

// scalar refuses numbers that are no numbers, and the characters that may not
// reach a terminal, on the line where they stand.
func (s *places) scalar(n *node, v *unstable.Node) {
	at := int(v.Raw.Offset)
	switch word := string(v.Data); v.Kind {
	case unstable.Float:
		if plain := strings.TrimLeft(word, "+-"); plain == "nan" || plain == "inf" {
			s.problems = append(s.problems, s.problem(n.path(), at, word, "a number written in digits"))
		}
	case unstable.String:
		if bad := strings.IndexFunc(word, BadRune); bad >= 0 {
			r, in := firstBad(s.tree.text[at : at+int(v.Raw.Length)])
			s.problems = append(s.problems, s.problem(n.path(), at+in, "the character "+runeName(r)+", which cannot be seen", "text of visible characters"))
		}
	}
}

// firstBad gives the first bad character of a text as it is written, and its
// offset.
func firstBad(raw string) (r rune, at int) {
	if raw[0] == '\'' {
		at = strings.IndexFunc(raw, BadRune)
		r, _ = utf8.DecodeRuneInString(raw[at:])
		return r, at
	}
	for rest := raw; rest != ""; {
		r, _, tail, err := strconv.UnquoteChar(rest, 0)
		if strings.HasPrefix(rest, `\e`) {
			r = 0x1b // an escape that Go does not have
		} else if err != nil {
			r, tail = ' ', rest[1:] // \" or \ at the end of a line
		}
		if BadRune(r) {
			return r, len(raw) - len(rest)
		}
		rest = tail
	}
	return utf8.RuneError, 0
}
