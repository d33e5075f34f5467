package rules

import (
	"math/bits"
	"slices"
)

// sieve leaves out, before any rule is looked at, those that cannot hold: most
// rules are about one place or one material. It sorts the rules by the two
// enum facts that most of them test, once for each pair of values and for
// unknown, and changes nothing about which rules hold or in which order.
type sieve struct {
	facts [2]int // -1 where there is none
	width int    // values of the second fact, and one for unknown
	rows  [][]int32
}

// newSieve makes the sieve of a book whose rules are ready.
func (b *Book) newSieve() sieve {
	s := sieve{facts: b.mostTested()}
	first, second := b.valuesOf(s.facts[0]), b.valuesOf(s.facts[1])
	s.width = len(second)
	for _, x := range first {
		for _, y := range second {
			var row []int32
			for i := range b.ready {
				if b.ready[i].may(s.facts[0], x) && b.ready[i].may(s.facts[1], y) {
					row = append(row, int32(i))
				}
			}
			s.rows = append(s.rows, row)
		}
	}
	return s
}

// mostTested finds the two enum facts that most rules test.
func (b *Book) mostTested() [2]int {
	count := make([]int, len(b.facts))
	for i := range b.ready {
		for k, t := range b.ready[i].tests {
			if b.facts[t.fact].Type == Enum && !seenBefore(b.ready[i].tests, k) {
				count[t.fact]++
			}
		}
	}
	out := [2]int{-1, -1}
	for k := range out {
		if n := slices.Max(append(slices.Clone(count), 0)); n > 0 {
			out[k] = slices.Index(count, n)
			count[out[k]] = 0
		}
	}
	return out
}

// valuesOf are the packed values of a fact, unknown first.
func (b *Book) valuesOf(fact int) []slot {
	out := []slot{{}}
	if fact >= 0 {
		for i := range b.facts[fact].Values {
			out = append(out, slot{bit: 1 << i})
		}
	}
	return out
}

// may reports whether a rule can hold where a fact has a value.
func (r *ready) may(fact int, v slot) bool {
	for i := range r.tests {
		if r.tests[i].fact == fact && r.tests[i].on(v) == no {
			return false
		}
	}
	return true
}

// left gives the rules that the values of the two facts leave.
func (s *sieve) left(slots []slot) []int32 {
	at := 0
	for k, fact := range s.facts {
		if k == 1 {
			at *= s.width
		}
		if fact >= 0 {
			at += bits.Len64(slots[fact].bit) // 0 is unknown, then value 0 is 1
		}
	}
	return s.rows[at]
}
