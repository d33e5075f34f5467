package rules

import (
	"math/bits"
	"slices"
)

// grid cuts the domain of every fact into cells such that no test in play can
// tell two values of one cell apart: the values of an enum, no and yes, and for
// a number the intervals between the ends that tests use. What holds for the
// cells then holds for every value, which makes the proofs exact.
//
// Intervals are closed and made of float64 values, so every cell holds at
// least one number a program can meet.
type grid struct {
	book *Book
	dims []dim
	full box
}

type dim struct {
	off, cells int
	starts     []float64 // numbers only: first value of each cell
}

func (d dim) words() int { return (d.cells + 63) / 64 }

// box is a set of cells per fact, the sets one after another. It holds the
// points whose every coordinate lies in its set.
type box []uint64

// grid builds the cells for the rules of the book and the tests in extra.
func (b *Book) grid(extra ...[]test) *grid {
	g := &grid{book: b, dims: make([]dim, len(b.facts))}
	all := slices.Concat(b.impossible, extra)
	for i := range b.ready {
		all = append(all, b.ready[i].tests)
	}
	off := 0
	for i, f := range b.facts {
		d := dim{off: off, cells: bits.OnesCount64(f.allBits())}
		if f.Type == Numeric {
			d.starts = f.cellStarts(i, all)
			d.cells = len(d.starts)
		}
		g.dims[i] = d
		off += d.words()
	}
	g.full = make(box, off)
	for _, d := range g.dims {
		for c := range d.cells {
			g.full[d.off+c/64] |= 1 << (c % 64)
		}
	}
	return g
}

// cellStarts lists where a cell begins: at each end a test uses and just past it.
func (f Fact) cellStarts(fact int, all [][]test) []float64 {
	starts := []float64{f.Min}
	add := func(v float64) {
		if v > f.Min && v <= f.Max {
			starts = append(starts, v)
		}
	}
	for _, tests := range all {
		for _, t := range tests {
			if t.fact == fact {
				add(t.lo)
				add(above(t.hi))
			}
		}
	}
	slices.Sort(starts)
	return slices.Compact(starts)
}

// end is the last value of a cell.
func (g *grid) end(fact, cell int) float64 {
	d := g.dims[fact]
	if cell+1 < d.cells {
		return below(d.starts[cell+1])
	}
	return g.book.facts[fact].Max
}

// box returns the cells in which all tests hold.
func (g *grid) box(tests []test) box {
	out := slices.Clone(g.full)
	for _, t := range tests {
		d := g.dims[t.fact]
		if t.mask != 0 {
			out[d.off] &= t.mask
			continue
		}
		for c, start := range d.starts {
			if in := start >= t.lo && start <= t.hi; in == t.hole {
				out[d.off+c/64] &^= 1 << (c % 64)
			}
		}
	}
	return out
}

func (g *grid) boxes(list [][]test) []box {
	out := make([]box, 0, len(list))
	for _, tests := range list {
		out = append(out, g.box(tests))
	}
	return out
}

// empty reports whether some fact has no value left.
func (g *grid) empty(x box) bool {
	for _, d := range g.dims {
		if zero(x[d.off : d.off+d.words()]) {
			return true
		}
	}
	return false
}

func zero(words []uint64) bool {
	for _, w := range words {
		if w != 0 {
			return false
		}
	}
	return true
}

func meet(x, y box) box {
	out := make(box, len(x))
	for i := range x {
		out[i] = x[i] & y[i]
	}
	return out
}

// inside reports whether x lies in y; for boxes that are not empty.
func inside(x, y box) bool {
	for i := range x {
		if x[i]&^y[i] != 0 {
			return false
		}
	}
	return true
}

// overlap reports whether two boxes share a point.
func (g *grid) overlap(x, y box) bool {
	for _, d := range g.dims {
		var any uint64
		for w := d.off; w < d.off+d.words(); w++ {
			any |= x[w] & y[w]
		}
		if any == 0 {
			return false
		}
	}
	return true
}

// widen sets the facts chosen to all their values.
func (g *grid) widen(x box, chosen []bool) box {
	out := slices.Clone(x)
	for i, d := range g.dims {
		if chosen[i] {
			copy(out[d.off:d.off+d.words()], g.full[d.off:d.off+d.words()])
		}
	}
	return out
}

// cellsOf lists the cells a box keeps of one fact.
func (g *grid) cellsOf(x box, fact int) []int {
	d := g.dims[fact]
	var out []int
	for c := range d.cells {
		if x[d.off+c/64]>>(c%64)&1 != 0 {
			out = append(out, c)
		}
	}
	return out
}

// only narrows a box to one cell of one fact.
func (g *grid) only(x box, fact, cell int) box {
	out := slices.Clone(x)
	d := g.dims[fact]
	for w := range d.words() {
		out[d.off+w] = 0
	}
	out[d.off+cell/64] = 1 << (cell % 64)
	return out
}
