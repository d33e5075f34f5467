package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

type twoDData struct {
	Case1 struct {
		GridC   [][]float64 `json:"grid_c"`
		WithinK float64     `json:"within_k"`
		Source  string      `json:"source"`
	} `json:"case1"`
	Case2 struct {
		WidthM float64 `json:"width_m"`
		Pieces []struct {
			What string     `json:"what"`
			X    [2]float64 `json:"x"`
			Y    [2]float64 `json:"y"`
		} `json:"pieces"`
		Fill   string             `json:"fill"`
		Lambda map[string]float64 `json:"lambda_w_mk"`
		Top    airSide            `json:"top"`
		Bottom airSide            `json:"bottom"`
		Points []struct {
			ID string  `json:"id"`
			X  float64 `json:"x"`
			Y  float64 `json:"y"`
			T  float64 `json:"t"`
		} `json:"points"`
		FlowWM   float64 `json:"flow_w_m"`
		WithinK  float64 `json:"within_k"`
		WithinWM float64 `json:"within_w_m"`
		Source   string  `json:"source"`
	} `json:"case2"`
	Walls []struct {
		Assembly string    `json:"assembly"`
		Thick    []float64 `json:"thick"` // of each layer between the films
		Pitch    float64   `json:"pitch"`
		Wood     float64   `json:"wood"`
		R        float64   `json:"r"`
		Within   float64   `json:"within"`
	} `json:"walls"`
	WallsSource string `json:"walls_source"`
}

type airSide struct {
	T  float64 `json:"t"`
	RS float64 `json:"rs"`
}

// ISO 10211 case 1: half of a square column, one hot side, the exact solution
// is a series and the standard prints 28 temperatures.
func TestSolverOnTheSquareColumn(t *testing.T) {
	p := figures(t)
	c := p.TwoD.Case1
	const steps = 32 // over the column side; the half width has half of them
	f, err := slab{
		x:      append([]float64{0}, spaced(0, 0.5, steps/2)...),
		y:      append([]float64{0}, spaced(0, 1, steps)...),
		k:      func(_, _ float64) float64 { return 1 },
		left:   edge{fixed: true, t: 0},
		bottom: edge{fixed: true, t: 0},
		top:    edge{fixed: true, t: 20},
	}.solve()
	require.NoError(t, err)
	require.Len(t, c.GridC, 7)
	for row, temps := range c.GridC {
		require.Len(t, temps, 4)
		for col, want := range temps {
			got := f.at(float64(col+1)/8, 1-float64(row+1)/8)
			require.InDelta(t, want, got, c.WithinK, "row %d, column %d: %s", row+1, col+1, p.source(t, c.Source))
		}
	}
}

// roofJoint is ISO 10211 case 2 on a mesh of n steps a zone.
func roofJoint(t *testing.T, n int) *field {
	c := figures(t).TwoD.Case2
	k := func(x, y float64) float64 {
		for _, piece := range c.Pieces {
			if x > piece.X[0] && x < piece.X[1] && y > piece.Y[0] && y < piece.Y[1] {
				return c.Lambda[piece.What]
			}
		}
		return c.Lambda[c.Fill]
	}
	x := append([]float64{0}, spaced(0, 0.0015, n)...)
	x = append(x, graded(0.0015, 0.015, 2*n, 1.3)...)
	x = append(x, graded(0.015, c.WidthM, 5*n, math.Pow(1.5, 3/float64(n)))...)
	y := append([]float64{0}, spaced(0, 0.0015, n)...)
	y = append(y, spaced(0.0015, 0.035, 3*n)...)
	y = append(y, spaced(0.035, 0.0365, n)...)
	y = append(y, spaced(0.0365, 0.0415, n)...)
	y = append(y, spaced(0.0415, 0.0475, n)...)
	f, err := slab{
		x: x, y: y, k: k,
		bottom: edge{film: c.Bottom.RS, t: c.Bottom.T},
		top:    edge{film: c.Top.RS, t: c.Top.T},
	}.solve()
	require.NoError(t, err)
	return f
}

// ISO 10211 case 2: a roof joint where aluminium meets insulation 8,000 times
// less conductive.
func TestSolverOnTheMetalRoofJoint(t *testing.T) {
	p := figures(t)
	c := p.TwoD.Case2
	coarse, f := roofJoint(t, 2), roofJoint(t, 4)
	require.Len(t, c.Points, 9)
	for _, pt := range c.Points {
		require.InDelta(t, pt.T, f.at(pt.X, pt.Y), c.WithinK, "point %s: %s", pt.ID, p.source(t, c.Source))
	}
	flow := f.flowIn(true)
	require.InDelta(t, c.FlowWM, flow, c.WithinWM)
	require.InEpsilon(t, flow, -f.flowIn(false), 1e-6, "what goes in comes out")
	require.InEpsilon(t, coarse.flowIn(true), flow, 0.01, "halving the mesh changes little")
}

// bay is half a stud bay to be solved: a wall as layers, the thickness of each
// layer between the films, and the widths of the parts of its one bridged
// layer, in the order of the parts.
type bay struct {
	layers []Layer
	thick  []float64
	widths []float64
}

// r solves the bay and gives the R of the wall it stands for.
func (b bay) r(t *testing.T) float64 {
	t.Helper()
	films := []float64{b.layers[0][0].R, b.layers[len(b.layers)-1][0].R}
	solid := b.layers[1 : len(b.layers)-1]
	require.Len(t, b.thick, len(solid))
	x, y := []float64{0}, []float64{0}
	var xEnds, yEnds []float64
	for _, w := range b.widths {
		from := x[len(x)-1]
		x = append(x, spaced(from, from+w, 12)...)
		xEnds = append(xEnds, from+w)
	}
	for _, d := range b.thick {
		from := y[len(y)-1]
		y = append(y, spaced(from, from+d, 10)...)
		yEnds = append(yEnds, from+d)
	}
	piece := func(ends []float64, v float64) (i int) {
		for ends[i] < v {
			i++
		}
		return i
	}
	f, err := slab{
		x: x, y: y,
		k: func(px, py float64) float64 {
			row := piece(yEnds, py)
			part := solid[row][0]
			if len(solid[row]) > 1 {
				part = solid[row][piece(xEnds, px)]
			}
			return b.thick[row] / part.R
		},
		bottom: edge{film: films[0], t: 0},
		top:    edge{film: films[1], t: 1},
	}.solve()
	require.NoError(t, err)
	return x[len(x)-1] / f.flowIn(false)
}

// The two simple methods bracket the real R of a stud wall, and the solution
// agrees with one made by another program.
func TestBoundsBracketAStudWall(t *testing.T) {
	p := figures(t)
	for _, w := range p.TwoD.Walls {
		for _, a := range p.Assemblies {
			if a.ID != w.Assembly {
				continue
			}
			layers, toIP := a.layersOf()
			b, err := BoundsOf(layers)
			require.NoError(t, err)
			r := bay{layers, w.Thick, []float64{(w.Pitch - w.Wood) / 2, w.Wood / 2}}.r(t)
			require.Greater(t, r, b.Isothermal)
			require.Less(t, r, b.Parallel)
			require.InDelta(t, w.R, r/toIP, w.Within, "%s: %s", a.What, p.source(t, p.TwoD.WallsSource))
		}
	}
}

// A batt with a gap along the stud: the real R lies between the bounds of the
// three-part layer, and the void formula gives the upper one.
func TestBoundsBracketABattWithAGap(t *testing.T) {
	const half, wood = 8.0, 0.75 // in, from the middle of a stud to the middle of the bay
	for _, grade := range []Grade{GradeII, GradeIII} {
		for _, fill := range []float64{13, 15} {
			c := Cavity{FillR: fill, WoodR: 4.38, WoodShare: wood / half, EmptyR: 1, VoidShare: grade.VoidShare()}
			layers := []Layer{Plain(0.17), Plain(0.62), across(c), Plain(0.45), Plain(0.68)}
			widths := make([]float64, 0, 3)
			for _, part := range layers[2] {
				widths = append(widths, part.Share*half)
			}
			r := bay{layers, []float64{0.4375, 3.5, 0.5}, widths}.r(t)

			b, err := BoundsOf(layers)
			require.NoError(t, err)
			require.Greater(t, r, b.Isothermal)
			require.Less(t, r, b.Parallel)

			worth, err := WithVoids(fill, 0.17+0.62+0.45+0.68, 1, grade.VoidShare())
			require.NoError(t, err)
			viaFormula, err := BoundsOf([]Layer{layers[0], layers[1], Framed(worth, 4.38, wood/half), layers[3], layers[4]})
			require.NoError(t, err)
			require.InEpsilon(t, b.Parallel, viaFormula.Parallel, 1e-12)
			perfect, err := BoundsOf([]Layer{layers[0], layers[1], Framed(fill, 4.38, wood/half), layers[3], layers[4]})
			require.NoError(t, err)
			require.Less(t, r, perfect.Parallel, "a gap costs something")
		}
	}
}
