package rules

import (
	"math/bits"
	"slices"
)

// sieve leaves out, before any rule is looked at, those that cannot hold: most
// rules are about one place or one material. It sorts the rules by the facts
// that most of them test, once for each set of their values and for unknown,
// and changes nothing about which rules hold or in which order. What such a
// fact has already answered is not tested again.
type sieve struct {
	by   []sifted
	rows [][]chance
}

// sifted is a fact that the sieve goes by; step is how far its values lie
// apart in the rows.
type sifted struct {
	fact, step int
}

// chance is a rule that may hold: what is left to test, and the answer so far.
type chance struct {
	rule  int
	tests []test
	state truth
}

// maxRows bounds the sieve: more rows take longer to make than they save.
const maxRows = 144

// newSieve makes the sieve of a book whose rules are ready.
func (b *Book) newSieve() sieve {
	s := sieve{rows: make([][]chance, 1)}
	for i := range b.ready {
		s.rows[0] = append(s.rows[0], chance{i, b.ready[i].tests, yes})
	}
	for _, fact := range b.mostTested() {
		values := b.valuesOf(fact)
		if len(s.rows)*len(values) > maxRows {
			continue
		}
		s.by = append(s.by, sifted{fact, len(s.rows)})
		var rows [][]chance
		for _, v := range values {
			for _, row := range s.rows {
				rows = append(rows, sift(row, fact, v))
			}
		}
		s.rows = rows
	}
	return s
}

// sift keeps the chances that are left where a fact has a value.
func sift(row []chance, fact int, v slot) []chance {
	var out []chance
	for _, c := range row {
		if i := slices.IndexFunc(c.tests, func(t test) bool { return t.fact == fact }); i >= 0 {
			c.state = min(c.state, c.tests[i].on(v))
			c.tests = slices.Concat(c.tests[:i], c.tests[i+1:])
		}
		if c.state != no {
			out = append(out, c)
		}
	}
	return out
}

// mostTested gives the facts with values that can be counted, those that most
// rules test first.
func (b *Book) mostTested() []int {
	count := make([]int, len(b.facts))
	for _, r := range b.ready {
		for _, t := range r.tests {
			count[t.fact]++
		}
	}
	var out []int
	for i, f := range b.facts {
		if f.Type != Numeric && count[i] > 0 {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(x, y int) int { return count[y] - count[x] })
	return out
}

// valuesOf are the packed values of a fact in the order of their bits, unknown
// first.
func (b *Book) valuesOf(fact int) []slot {
	out := []slot{{}}
	for i := range bits.OnesCount64(b.facts[fact].all().bits) {
		out = append(out, slot{bits: 1 << i})
	}
	return out
}

// left gives the rules that the values of the facts leave.
func (s *sieve) left(slots []slot) []chance {
	at := 0
	for _, x := range s.by {
		at += x.step * bits.Len64(slots[x.fact].bits) // 0 is unknown, then value 0 is 1
	}
	return s.rows[at]
}
