package strict

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Problem is one mistake in a file, in words for the person who wrote it.
type Problem struct {
	File  string // as it was named
	Line  int    // 1 or more; 0 is the whole file
	Key   string // like place[0].area_ft2; empty where no key is to blame
	Found string // what stands there, cleaned and cut
	Want  string // what would be right
}

// Error gives one line: file:line: key: found ...; want ...
func (p Problem) Error() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		fmt.Fprintf(&b, ":%d", p.Line)
	}
	if p.Key != "" {
		b.WriteString(": " + p.Key)
	}
	sep := ": "
	if p.Found != "" {
		b.WriteString(": found " + p.Found)
		sep = "; "
	}
	if p.Want != "" {
		b.WriteString(sep)
		if !strings.HasPrefix(p.Want, "did you mean") {
			b.WriteString("want ")
		}
		b.WriteString(p.Want)
	}
	// The last gate: a file name or a message of another package may hold
	// anything.
	clean, _ := CleanText(b.String())
	return clean
}

// Problems is every mistake found in one reading.
type Problems []Problem

// Error gives one line for each problem.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Sort orders by file, line and key; problems equal in these keep their order.
func (ps Problems) Sort() {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Key, b.Key))
	})
}

// MaxProblems is how many mistakes one reading lists. A file with more is not
// the file that was meant, and nobody reads on.
const MaxProblems = 100

// tidy sorts, drops repeats and keeps the list readable.
func (ps Problems) tidy() Problems {
	ps.Sort()
	ps = slices.Compact(ps)
	if more := len(ps) - MaxProblems; more > 0 {
		last := ps[MaxProblems-1]
		ps = append(ps[:MaxProblems:MaxProblems], Problem{
			File: last.File, Line: last.Line, Found: fmt.Sprintf("%d more mistakes from here on", more),
			Want: "these fixed first, then read again",
		})
	}
	return ps
}

// orNil keeps an empty list from becoming an error that is not nil.
func (ps Problems) orNil() error {
	if len(ps) == 0 {
		return nil
	}
	return ps
}

// keyText writes a path as a person would: place[0].area_ft2.
func keyText(path []any) string {
	var b strings.Builder
	for _, p := range path {
		switch p := p.(type) {
		case int:
			b.WriteString("[" + strconv.Itoa(p) + "]")
		case string:
			if b.Len() > 0 {
				b.WriteByte('.')
			}
			b.WriteString(partText(p))
		}
	}
	return b.String()
}

func partText(part string) string {
	for i := range len(part) {
		if !bareKeyByte(part[i]) {
			return `"` + cut(part) + `"`
		}
	}
	if part == "" {
		return `""`
	}
	return cut(part)
}
