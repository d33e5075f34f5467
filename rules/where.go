package rules

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Where is the condition of a rule: what each fact must be. All of it must
// hold; the order says nothing. It is written as TOML says it:
//
//	place = "attic"                              this value
//	place = ["attic", "crawl-space"]             one of these
//	place = { not = "attic" }                    any other value
//	place = { none_of = ["attic", "chimney"] }   any value but these
//	old = true                                   yes
//	depth_in = 3.5                               this number
//	depth_in = { at_least = 3.5, below = 9.25 }  from 3.5 up to, and without, 9.25
//	depth_in = { above = 3.5, at_most = 9.25 }   above 3.5, up to 9.25
type Where map[string]any

// Case is an example: facts by name; those left out, and "unknown", are unknown.
type Case map[string]any

// test is what a condition asks of one fact.
type test struct {
	fact int
	span
}

// truth is a value of three-valued logic.
type truth uint8

const (
	no truth = iota
	undecided
	yes
)

func (t *test) on(s slot) truth {
	switch {
	case s.bits == 0:
		return undecided
	case s.bits&t.bits != 0 && s.num >= t.lo && s.num <= t.hi:
		return yes
	}
	return no
}

// tests makes a condition ready, in the order of the declared facts.
func (b *Book) tests(w Where) ([]test, Problems) {
	var out []test
	problems := b.undeclared(w)
	for i, f := range b.facts {
		asked, ok := w[f.Name]
		if !ok {
			continue
		}
		s, found, want := f.part(asked)
		if found != "" {
			problems.add(found, want, f.Name)
			continue
		}
		out = append(out, test{i, s})
	}
	return out, problems
}

func (b *Book) undeclared(names map[string]any) Problems {
	var out Problems
	for _, name := range slices.Sorted(maps.Keys(names)) {
		if _, ok := b.index[name]; !ok {
			out.add(Undeclared, "one that is", name)
		}
	}
	return out
}

// part is the part of a fact that a condition accepts; found and want tell what
// is wrong with it.
func (f Fact) part(asked any) (s span, found, want string) {
	if f.Type == Numeric {
		s, found = f.ranged(asked)
		want = f.takes() + ", or a table of above, at_least, below and at_most like { at_least = 2, below = 5 }"
	} else {
		s, found = f.listed(asked)
		want = f.takes()
		if f.Type == Enum {
			want += `, a list of them, { not = "..." } or { none_of = ["...", "..."] }`
		}
	}
	if found == "" && s.empty() {
		return s, Show(asked) + ", which nothing can be", "what some value meets"
	}
	return s, found, want
}

// listed reads a condition on an enum or a yes-or-no fact.
func (f Fact) listed(asked any) (s span, found string) {
	list, but := []any{asked}, false
	switch asked := asked.(type) {
	case []any:
		list = asked
	case map[string]any:
		if v, ok := asked["not"]; ok {
			list, but = []any{v}, true
		} else {
			list, but = asked["none_of"].([]any)
		}
		if !but || len(asked) != 1 {
			return s, Show(asked)
		}
	}
	if _, plain := asked.(bool); len(list) == 0 || f.Type == Boolean && !plain {
		return s, Show(asked)
	}
	for _, v := range list {
		at, ok := f.known(v)
		if !ok {
			return s, Show(v)
		}
		s.bits |= at.bits
	}
	if but {
		s.bits = f.all().bits &^ s.bits
	}
	return s, ""
}

// ranged reads a condition on a number: itself, or one or two ends.
func (f Fact) ranged(asked any) (s span, found string) {
	s = f.all()
	ends, ok := asked.(map[string]any)
	if !ok {
		ends = map[string]any{"at_least": asked, "at_most": asked}
	}
	lower, upper := 0, 0
	for key, v := range ends {
		at, ok := f.known(v)
		if !ok {
			return s, Show(asked)
		}
		switch key {
		case "above":
			s.lo, lower = above(at.num), lower+1
		case "at_least":
			s.lo, lower = at.num, lower+1
		case "below":
			s.hi, upper = below(at.num), upper+1
		case "at_most":
			s.hi, upper = at.num, upper+1
		default:
			return s, Show(asked)
		}
	}
	if lower > 1 || upper > 1 || lower+upper == 0 {
		return s, Show(asked)
	}
	return s, ""
}

// known packs a value that a condition names; "unknown" is none.
func (f Fact) known(v any) (slot, bool) {
	value, _ := valueOf(v)
	at, ok := f.pack(value)
	return at, ok && at.bits != 0
}

// Show writes a condition or a value as TOML.
func Show(v any) string {
	switch v := v.(type) {
	case string:
		return strconv.Quote(v)
	case []any:
		return "[" + joined(v, Show) + "]"
	case []map[string]any:
		return "[" + joined(v, func(x map[string]any) string { return Show(x) }) + "]"
	case map[string]any:
		if len(v) == 0 {
			return "{}"
		}
		return "{ " + joined(slices.Sorted(maps.Keys(v)), func(k string) string { return k + " = " + Show(v[k]) }) + " }"
	}
	return fmt.Sprint(v)
}

func joined[T any](list []T, text func(T) string) string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = text(x)
	}
	return strings.Join(out, ", ")
}
