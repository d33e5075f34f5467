package heat

import (
	"errors"
	"math"
)

// A small steady heat-flow solver in two dimensions, used only to judge the
// simple methods of this package from outside. Temperatures sit on the lines of
// a rectilinear mesh, conductivity in the cells between them (vertex-centred
// finite volumes); material edges must lie on mesh lines. Any consistent units:
// length and length/resistance.

// edge is one side of the rectangle: insulated when it has neither a film nor
// a fixed temperature.
type edge struct {
	fixed bool    // the surface itself is at t
	film  float64 // surface resistance to air at t; 0 is none
	t     float64
}

type slab struct {
	x, y                     []float64 // mesh lines, rising
	k                        func(x, y float64) float64
	left, right, bottom, top edge
}

// field is a solved slab.
type field struct {
	slab
	temp []float64 // temp[i*len(y)+j] at x[i], y[j]
}

var errSolver = errors.New("matrix is not positive definite")

// spaced gives n equal steps from a to b, without a.
func spaced(a, b float64, n int) (out []float64) {
	for i := 1; i <= n; i++ {
		out = append(out, a+(b-a)*float64(i)/float64(n))
	}
	return out
}

// graded gives n steps from a to b, without a, each ratio times the last.
func graded(a, b float64, n int, ratio float64) (out []float64) {
	whole := math.Pow(ratio, float64(n)) - 1
	for i := 1; i <= n; i++ {
		out = append(out, a+(b-a)*(math.Pow(ratio, float64(i))-1)/whole)
	}
	out[n-1] = b
	return out
}

// half is half the distance between neighbouring lines, 0 outside the slab.
func half(v []float64, i int) float64 {
	if i < 0 || i+1 >= len(v) {
		return 0
	}
	return (v[i+1] - v[i]) / 2
}

// cell is the conductivity right and above of the lines i, j; 0 outside.
func (s *slab) cell(i, j int) float64 {
	if i < 0 || j < 0 || i+1 >= len(s.x) || j+1 >= len(s.y) {
		return 0
	}
	return s.k((s.x[i]+s.x[i+1])/2, (s.y[j]+s.y[j+1])/2)
}

// across is the conductance from node (i,j) to (i+1,j): half a cell below the
// line and half a cell above it.
func (s *slab) across(i, j int) float64 {
	return (s.cell(i, j-1)*half(s.y, j-1) + s.cell(i, j)*half(s.y, j)) / (s.x[i+1] - s.x[i])
}

// up is the conductance from node (i,j) to (i,j+1).
func (s *slab) up(i, j int) float64 {
	return (s.cell(i-1, j)*half(s.x, i-1) + s.cell(i, j)*half(s.x, i)) / (s.y[j+1] - s.y[j])
}

// held says whether a node lies on a side of fixed temperature. Where two such
// sides meet, the colder one wins; no heat flow is read there.
func (s *slab) held(i, j int) (t float64, is bool) {
	for _, on := range []struct {
		here bool
		e    edge
	}{{i == 0, s.left}, {i == len(s.x)-1, s.right}, {j == 0, s.bottom}, {j == len(s.y)-1, s.top}} {
		if on.here && on.e.fixed && (!is || on.e.t < t) {
			t, is = on.e.t, true
		}
	}
	return t, is
}

// films adds the conductances from a node to the air on either side.
func (s *slab) films(i, j int) (g, gt float64) {
	wide, high := half(s.x, i-1)+half(s.x, i), half(s.y, j-1)+half(s.y, j)
	for _, on := range []struct {
		here bool
		e    edge
		size float64
	}{{i == 0, s.left, high}, {i == len(s.x)-1, s.right, high}, {j == 0, s.bottom, wide}, {j == len(s.y)-1, s.top, wide}} {
		if on.here && on.e.film > 0 {
			g += on.size / on.e.film
			gt += on.size / on.e.film * on.e.t
		}
	}
	return g, gt
}

// solve balances the heat at every node and solves the banded symmetric
// system by Cholesky factors.
func (s slab) solve() (*field, error) {
	ny := len(s.y)
	n, band := len(s.x)*ny, ny
	a := make([]float64, n*(band+1)) // a[r*(band+1)+d]: row r, column r-d
	rhs := make([]float64, n)
	link := func(p, q int, pi, pj, qi, qj int, g float64) {
		pt, pHeld := s.held(pi, pj)
		qt, qHeld := s.held(qi, qj)
		if !pHeld {
			a[p*(band+1)] += g
		}
		if !qHeld {
			a[q*(band+1)] += g
		}
		switch {
		case pHeld && !qHeld:
			rhs[q] += g * pt
		case qHeld && !pHeld:
			rhs[p] += g * qt
		case !pHeld && !qHeld:
			a[q*(band+1)+q-p] -= g
		}
	}
	for i := range s.x {
		for j := range s.y {
			p := i*ny + j
			if t, is := s.held(i, j); is {
				a[p*(band+1)], rhs[p] = 1, t
			} else {
				g, gt := s.films(i, j)
				a[p*(band+1)] += g
				rhs[p] += gt
			}
			if i+1 < len(s.x) {
				link(p, p+ny, i, j, i+1, j, s.across(i, j))
			}
			if j+1 < ny {
				link(p, p+1, i, j, i, j+1, s.up(i, j))
			}
		}
	}
	if err := cholesky(a, rhs, n, band); err != nil {
		return nil, err
	}
	return &field{s, rhs}, nil
}

// cholesky factors the banded matrix in place and leaves the solution in b.
func cholesky(a, b []float64, n, band int) error {
	w := band + 1
	for r := range n {
		first := max(0, r-band)
		for c := first; c <= r; c++ {
			sum := a[r*w+r-c]
			for k := max(first, c-band); k < c; k++ {
				sum -= a[r*w+r-k] * a[c*w+c-k]
			}
			switch {
			case c < r:
				a[r*w+r-c] = sum / a[c*w]
			case sum > 0:
				a[r*w] = math.Sqrt(sum)
			default:
				return errSolver
			}
		}
		for k := first; k < r; k++ {
			b[r] -= a[r*w+r-k] * b[k]
		}
		b[r] /= a[r*w]
	}
	for r := n - 1; r >= 0; r-- {
		b[r] /= a[r*w]
		for k := max(0, r-band); k < r; k++ {
			b[k] -= a[r*w+r-k] * b[r]
		}
	}
	return nil
}

// at is the temperature of the node nearest to a point.
func (f *field) at(x, y float64) float64 {
	nearest := func(v []float64, want float64) (best int) {
		for i := range v {
			if math.Abs(v[i]-want) < math.Abs(v[best]-want) {
				best = i
			}
		}
		return best
	}
	return f.temp[nearest(f.x, x)*len(f.y)+nearest(f.y, y)]
}

// flowIn is the heat entering through the film of the bottom or the top side.
func (f *field) flowIn(bottom bool) float64 {
	e, j := f.top, len(f.y)-1
	if bottom {
		e, j = f.bottom, 0
	}
	flow := 0.0
	for i := range f.x {
		wide := half(f.x, i-1) + half(f.x, i)
		flow += wide / e.film * (e.t - f.temp[i*len(f.y)+j])
	}
	return flow
}
