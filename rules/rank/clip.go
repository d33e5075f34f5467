package rank

import (
	"fmt"
	"math"
)

// vertex is a weighting, w, with the lead there, d, over each rival.
type vertex struct{ w, d []float64 }

// clipper measures the part of a simplex of weightings in which one option
// leads all its rivals. It cuts the simplex along one tie after the other.
// Where an edge runs from a corner P with a lead to a corner N without one, the
// point Q with no lead splits the simplex in two, and the two shares of the
// edge are the two shares of the volume: no determinant is ever needed.
type clipper struct {
	verts  []*vertex
	pool   []*vertex // one spare vertex for each depth of cutting
	depth  int
	pieces int // pieces still allowed
	volume float64
	centre []float64 // volume times centre, summed over the pieces
}

// clip adds the pieces of the present simplex, of the given volume, that lead
// every rival from number r on. Each cut leaves one corner fewer on the wrong
// side, or one fewer on the right side, so the depth is bounded.
func (c *clipper) clip(r int, volume float64) error {
	if c.pieces--; c.pieces < 0 {
		return ErrPieces
	}
	for ; r < len(c.verts[0].d); r++ {
		p, n := c.extremes(r)
		if c.verts[n].d[r] >= 0 {
			continue
		}
		if c.verts[p].d[r] <= 0 {
			return nil
		}
		return c.split(r, p, n, volume)
	}
	c.add(volume)
	return nil
}

func (c *clipper) extremes(r int) (highest, lowest int) {
	for i, v := range c.verts {
		if v.d[r] > c.verts[highest].d[r] {
			highest = i
		}
		if v.d[r] < c.verts[lowest].d[r] {
			lowest = i
		}
	}
	return highest, lowest
}

func (c *clipper) split(r, p, n int, volume float64) error {
	high, low := c.verts[p], c.verts[n]
	t := high.d[r] / (high.d[r] - low.d[r])
	q := c.spare(high)
	mix(q.w, high.w, low.w, t)
	mix(q.d, high.d, low.d, t)
	for i := range q.d {
		q.d[i] = settle(q.d[i])
	}
	q.d[r] = 0 // exactly: the cut must not be cut again
	c.verts[n] = q
	err := c.clip(r, volume*t)
	c.verts[n] = low
	if err == nil {
		c.verts[p] = q
		err = c.clip(r, volume*(1-t))
		c.verts[p] = high
	}
	c.depth--
	return err
}

// spare hands out the vertex of the present depth, shaped like v. It may be
// used again once the split that took it is done.
func (c *clipper) spare(v *vertex) *vertex {
	if c.depth == len(c.pool) {
		c.pool = append(c.pool, newVertex(len(v.w), len(v.d)))
	}
	c.depth++
	return c.pool[c.depth-1]
}

func newVertex(priorities, rivals int) *vertex {
	both := make([]float64, priorities+rivals)
	return &vertex{w: both[:priorities:priorities], d: both[priorities:]}
}

func (c *clipper) add(volume float64) {
	c.volume += volume
	share := volume / float64(len(c.verts))
	for _, v := range c.verts {
		for k, w := range v.w {
			c.centre[k] += share * w
		}
	}
}

func mix(to, a, b []float64, t float64) {
	for i := range to {
		to[i] = (1-t)*a[i] + t*b[i]
	}
}

// settle takes a lead that is only rounding for a tie. Left alone, such a lead
// would look like a corner on one side and be cut at an arbitrary place.
func settle(lead float64) float64 {
	if math.Abs(lead) <= flat {
		return 0
	}
	return lead
}

// piecesError adds the figure to ErrPieces.
func piecesError(err error, allowed int) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%w: more than %d", err, allowed)
}
