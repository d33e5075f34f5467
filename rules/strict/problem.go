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
	Key   string // like place[1].area_ft2; empty where no key is to blame
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
	return slices.Compact(ps).Short()
}

// Short keeps the first MaxProblems and says how many more there are.
func (ps Problems) Short() Problems {
	more := len(ps) - MaxProblems
	if more <= 0 {
		return ps
	}
	last := ps[MaxProblems-1]
	return append(ps[:MaxProblems:MaxProblems], Problem{
		File: last.File, Line: last.Line, Found: fmt.Sprintf("%d more mistakes from here on", more),
		Want: "these fixed first, then read again",
	})
}

// keyText writes a path as a person counts: place[1].area_ft2 is of the first
// place.
func keyText(path []any) string {
	var b strings.Builder
	for _, p := range path {
		switch p := p.(type) {
		case int:
			b.WriteString("[" + strconv.Itoa(p+1) + "]")
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
	const bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-"
	if part == "" || strings.Trim(part, bare) != "" {
		return `"` + Cut(part) + `"`
	}
	return Cut(part)
}
