package rules

import (
	"math"
	"slices"
)

// span is a part of one fact: the listed values whose bits are set, or the
// numbers from lo to hi, both included. A number has one bit; a listed fact
// has lo and hi 0. An open end is closed by stepping to the neighboring
// float64, which is exact for the numbers a program can hold.
type span struct {
	bits   uint64
	lo, hi float64
}

func below(v float64) float64 { return math.Nextafter(v, math.Inf(-1)) }
func above(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }

// all is the whole of a fact.
func (f Fact) all() span {
	switch f.Type {
	case Boolean:
		return span{bits: noBit | yesBit}
	case Numeric:
		return span{bits: 1, lo: f.Min, hi: f.Max}
	}
	return span{bits: math.MaxUint64 >> max(0, maxEnumValues-len(f.Values))}
}

func (s span) empty() bool { return s.bits == 0 || s.lo > s.hi }

func (s span) meet(t span) span {
	return span{s.bits & t.bits, max(s.lo, t.lo), min(s.hi, t.hi)}
}

func (s span) inside(t span) bool {
	return s.bits&^t.bits == 0 && s.lo >= t.lo && s.hi <= t.hi
}

// without gives the parts of s that lie outside t, some of them empty: other
// values, lower numbers, higher numbers.
func (s span) without(t span) [3]span {
	return [3]span{
		{s.bits &^ t.bits, s.lo, s.hi},
		{s.bits, s.lo, min(s.hi, below(t.lo))},
		{s.bits, max(s.lo, above(t.hi)), s.hi},
	}
}

// box is a part of every fact. It holds the points whose every coordinate lies
// in its part.
type box []span

func (x box) empty() bool { return slices.ContainsFunc(x, span.empty) }

func (x box) meet(y box) box {
	out := make(box, len(x))
	for i := range x {
		out[i] = x[i].meet(y[i])
	}
	return out
}

// inside reports whether x lies in y; for boxes that are not empty.
func (x box) inside(y box) bool {
	for i := range x {
		if !x[i].inside(y[i]) {
			return false
		}
	}
	return true
}

// overlaps reports whether two boxes share a point.
func (x box) overlaps(y box) bool {
	for i := range x {
		if x[i].meet(y[i]).empty() {
			return false
		}
	}
	return true
}

// Proving that boxes cover a region is as hard as proving a formula true in
// general, though rule books are far from the hard cases. The limit makes a
// hard case an honest "not proved" and never a wrong answer or a hang.
const maxSteps = 200_000

// hole looks for a part of the region that none of the boxes covers; nil when
// they cover all of it. It returns false when the steps are used up.
func hole(region box, by []box, steps *int) (box, bool) {
	if *steps--; *steps < 0 {
		return nil, false
	}
	if region.empty() {
		return nil, true
	}
	near, best := nearest(region, by)
	if best == nil {
		return region, true
	}
	// Cut off what sticks out of the chosen box, fact by fact; what is left in
	// the end lies inside it.
	rest := slices.Clone(region)
	for i := range rest {
		for _, part := range rest[i].without(best[i]) {
			if part.empty() {
				continue
			}
			piece := slices.Clone(rest)
			piece[i] = part
			if found, ok := hole(piece, near, steps); found != nil || !ok {
				return found, ok
			}
		}
		rest[i] = rest[i].meet(best[i])
	}
	return nil, true
}

// nearest keeps the boxes that touch the region and picks the one that cuts it
// in the fewest facts, so that few pieces arise.
func nearest(region box, by []box) (near []box, best box) {
	fewest := len(region) + 1
	for _, x := range by {
		if !region.overlaps(x) {
			continue
		}
		near = append(near, x)
		cuts := 0
		for i := range x {
			if !region[i].inside(x[i]) {
				cuts++
			}
		}
		if cuts < fewest {
			fewest, best = cuts, x
		}
	}
	return near, best
}

// common returns the points that lie in a box of each list, without boxes that
// lie in another.
func common(xs, ys []box) []box {
	var out []box
	for _, x := range xs {
		for _, y := range ys {
			if x.overlaps(y) {
				out = addWidest(out, x.meet(y))
			}
		}
	}
	return out
}

func addWidest(list []box, x box) []box {
	if slices.ContainsFunc(list, x.inside) {
		return list
	}
	return append(slices.DeleteFunc(list, func(y box) bool { return y.inside(x) }), x)
}
