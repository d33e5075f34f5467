package rules

import (
	"fmt"
	"strings"
)

// Undeclared is what is found where a name is not that of a declared fact.
const Undeclared = "a fact that is not declared"

// Problem is one mistake in what a book is made of: where it stands, what
// stands there and what would be right.
type Problem struct {
	// Path leads to it, as in "rule", 3, "where", "gap_in": the list and the
	// place in that list, counted from 0, then the keys below.
	Path        []any
	Found, Want string
}

// Key writes the path as people count, from 1: rule[4].where.gap_in.
func (p Problem) Key() string {
	var out strings.Builder
	for i, x := range p.Path {
		switch x := x.(type) {
		case int:
			fmt.Fprintf(&out, "[%d]", x+1)
		default:
			if i > 0 {
				out.WriteByte('.')
			}
			fmt.Fprint(&out, x)
		}
	}
	return out.String()
}

// Error is one line.
func (p Problem) Error() string { return p.Key() + ": found " + p.Found + "; want " + p.Want }

// Problems are all mistakes of a book, one line each.
type Problems []Problem

func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// add notes a mistake.
func (ps *Problems) add(found, want string, path ...any) {
	*ps = append(*ps, Problem{path, found, want})
}

// under puts what is found below a path.
func (ps *Problems) under(below Problems, path ...any) {
	for _, p := range below {
		ps.add(p.Found, p.Want, append(append([]any(nil), path...), p.Path...)...)
	}
}
