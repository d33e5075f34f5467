package rules

import "slices"

// Proving that boxes cover a region is as hard as proving a formula true in
// general, though rule books are far from the hard cases. The limits make a
// hard case an honest "not proved" and never a wrong answer or a hang.
const (
	maxSteps  = 200_000
	maxPieces = 20_000
)

// answer of a covering question.
type answer int

const (
	covered answer = iota
	open           // a point is not covered
	tooHard        // the limit was reached
)

// uncovered looks for a part of the region that none of the boxes covers and
// returns it as a box.
func (g *grid) uncovered(region box, by []box) (box, answer) {
	steps := g.book.maxSteps
	if g.empty(region) {
		return nil, covered
	}
	return g.search(region, by, &steps)
}

func (g *grid) search(region box, by []box, steps *int) (box, answer) {
	if *steps--; *steps < 0 {
		return nil, tooHard
	}
	near, best := g.near(region, by)
	if len(near) == 0 {
		return region, open
	}
	if inside(region, best) {
		return nil, covered
	}
	// Cut off what sticks out of the chosen box, fact by fact; what is left in
	// the end lies inside it.
	rest := slices.Clone(region)
	for _, d := range g.dims {
		piece, ok := cut(rest, best, d)
		if !ok {
			continue
		}
		if found, a := g.search(piece, near, steps); a != covered {
			return found, a
		}
	}
	return nil, covered
}

// near keeps the boxes that touch the region and picks the one that cuts it in
// the fewest facts, so that few pieces arise.
func (g *grid) near(region box, by []box) (near []box, best box) {
	fewest := len(g.dims) + 1
	for _, x := range by {
		if !g.overlap(region, x) {
			continue
		}
		near = append(near, x)
		if n := g.cuts(region, x); n < fewest {
			fewest, best = n, x
		}
	}
	return near, best
}

// cuts counts the facts in which the region sticks out of the box.
func (g *grid) cuts(region, x box) int {
	n := 0
	for _, d := range g.dims {
		for w := d.off; w < d.off+d.words(); w++ {
			if region[w]&^x[w] != 0 {
				n++
				break
			}
		}
	}
	return n
}

// cut takes the part of rest outside x in one fact and leaves the part inside.
func cut(rest, x box, d dim) (box, bool) {
	words := d.words()
	if inside(rest[d.off:d.off+words], x[d.off:d.off+words]) {
		return nil, false
	}
	piece := slices.Clone(rest)
	for w := d.off; w < d.off+words; w++ {
		piece[w] &^= x[w]
		rest[w] &= x[w]
	}
	return piece, true
}

// minus returns the region without the boxes as pieces that do not overlap.
// It returns false when there would be too many pieces.
func (g *grid) minus(region box, boxes []box) ([]box, bool) {
	pieces := []box{region}
	if g.empty(region) {
		return nil, true
	}
	for _, x := range boxes {
		var next []box
		for _, p := range pieces {
			next = append(next, g.without(p, x)...)
		}
		if pieces = next; len(pieces) > g.book.maxPieces {
			return nil, false
		}
	}
	return pieces, true
}

func (g *grid) without(p, x box) []box {
	if !g.overlap(p, x) {
		return []box{p}
	}
	var out []box
	rest := slices.Clone(p)
	for _, d := range g.dims {
		if piece, ok := cut(rest, x, d); ok {
			out = append(out, piece)
		}
	}
	return out
}

// both returns the points that lie in a box of each list, without pieces that
// lie in another piece. It returns false when there would be too many.
func (g *grid) both(xs, ys []box) ([]box, bool) {
	var out []box
	for _, x := range xs {
		for _, y := range ys {
			if !g.overlap(x, y) {
				continue
			}
			out = addWidest(out, meet(x, y))
			if len(out) > g.book.maxPieces {
				return nil, false
			}
		}
	}
	return out, true
}

func addWidest(list []box, x box) []box {
	for _, y := range list {
		if inside(x, y) {
			return list
		}
	}
	list = slices.DeleteFunc(list, func(y box) bool { return inside(y, x) })
	return append(list, x)
}
