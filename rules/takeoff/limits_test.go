package takeoff

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// limit is one range as its field or function states it: both ends are
// accepted, though perhaps nothing is left to fill, and a hair beyond is
// refused with the value and the range.
type limit struct {
	name      string
	low, high float64
	by        float64 // the hair; 1 for counts
	try       func(v float64) error
}

func TestEveryLimit(t *testing.T) {
	none := func(_ any, err error) error { return err }
	wall := func(set func(*Wall, float64)) func(float64) error {
		return func(v float64) error {
			w := plainWall(97.125, 144)
			set(&w, v)
			return none(w.Layout())
		}
	}
	floor := func(set func(*Floor, float64)) func(float64) error {
		return func(v float64) error {
			f := Floor{LengthIn: 480, WidthIn: 336, DepthIn: 9.25, SpacingIn: 16}
			set(&f, v)
			return none(f.Layout())
		}
	}
	chase := func(set func(*Chase, float64)) func(float64) error {
		return func(v float64) error {
			c := Chase{
				ChimneyWidthIn: 24, ChimneyDepthIn: 20, ClearanceIn: 2, DepthIn: 3.5,
				SpacingIn: 16, StoreyIn: 97, Storeys: 1, Sides: 4,
			}
			set(&c, v)
			return none(c.Wall())
		}
	}
	product := func(set func(*Product, float64)) func(float64) error {
		return func(v float64) error {
			p := batt15
			set(&p, v)
			return p.check()
		}
	}
	area := func(set func(*Area, float64)) func(float64) error {
		return func(v float64) error {
			a := Area{Ft2: 100, SpacingIn: 16, Share: 0.8, How: ByModule}
			set(&a, v)
			p := batt15
			p.WidthIn = 48
			return none(a.Count(p))
		}
	}
	bay := []Bay{{KindFull, 14.5, 96, 1}}
	packs := func(pieces int, spare float64, per int) error {
		_, _, err := Packages(pieces, spare, per)
		return err
	}
	for _, l := range []limit{
		{"wall runs", 1, 1000, 1, wall(func(w *Wall, v float64) { w.LengthsIn = slices.Repeat([]float64{24}, int(v)) })},
		{"wall length", 3, maxSizeIn, 0.01, wall(func(w *Wall, v float64) { w.LengthsIn = []float64{v} })},
		{"wall height", 1.0 / 64, 1200, 0.001, wall(func(w *Wall, v float64) { w.HeightIn, w.StudHeightIn = v, 1.0/64 })},
		{"stud height", 1.0 / 64, 97.125, 0.001, wall(func(w *Wall, v float64) { w.StudHeightIn = v })},
		{"framing depth", 1, 24, 0.01, wall(func(w *Wall, v float64) { w.DepthIn = v })},
		{"framing spacing", 6, 48, 0.01, wall(func(w *Wall, v float64) { w.SpacingIn = v })},
		{"floor length", 3, maxSizeIn, 0.01, floor(func(f *Floor, v float64) { f.LengthIn = v })},
		{"floor width", 3, maxSizeIn, 0.01, floor(func(f *Floor, v float64) { f.WidthIn = v })},
		{"framing depth", 1, 24, 0.01, floor(func(f *Floor, v float64) { f.DepthIn = v })},
		{"framing spacing", 6, 48, 0.01, floor(func(f *Floor, v float64) { f.SpacingIn = v })},
		{"chimney width", 2, 600, 0.01, chase(func(c *Chase, v float64) { c.ChimneyWidthIn = v })},
		{"chimney depth", 2, 600, 0.01, chase(func(c *Chase, v float64) { c.ChimneyDepthIn = v })},
		{"clearance", 0.5, 48, 0.01, chase(func(c *Chase, v float64) { c.ClearanceIn = v })},
		{"story height", 12, 1200, 0.01, chase(func(c *Chase, v float64) { c.StoreyIn = v })},
		{"stories", 1, 10, 1, chase(func(c *Chase, v float64) { c.Storeys = int(v) })},
		{"chase sides", 3, 4, 1, chase(func(c *Chase, v float64) { c.Sides = int(v) })},
		{"product width", 2, 120, 0.01, product(func(p *Product, v float64) { p.WidthIn = v })},
		{"product length", 6, 2400, 0.01, product(func(p *Product, v float64) { p.LengthIn = v })},
		{"product thickness", 0, 36, 0.01, product(func(p *Product, v float64) { p.ThicknessIn = v })},
		{"width fit", 0, 2, 0.01, product(func(p *Product, v float64) { p.FitWidthIn = v })},
		{"length fit", 0, 2, 0.01, product(func(p *Product, v float64) { p.FitLengthIn = v })},
		{"pieces per package", 1, 1000, 1, product(func(p *Product, v float64) { p.PerPackage = int(v) })},
		{"area", 0, 10_000_000, 0.1, area(func(a *Area, v float64) { a.Ft2 = v })},
		{"framing spacing", 6, 48, 0.01, area(func(a *Area, v float64) { a.SpacingIn = v })},
		{"bay height", 1, maxSizeIn, 0.01, area(func(a *Area, v float64) { a.BayIn = v })},
		{"clear share", 0.01, 1, 0.001, area(func(a *Area, v float64) { a.Share, a.How = v, ByClearShare })},
		{"blanket width", 6, 120, 0.01, func(v float64) error {
			return none(Floor{LengthIn: 480, WidthIn: 336, DepthIn: 9.25, SpacingIn: 16}.Across(v))
		}},
		{"crawl space length", 1.0 / 64, maxSizeIn, 0.01, func(v float64) error { return none(GroundSheet(v, 100, 120, 12, 6)) }},
		{"crawl space width", 1.0 / 64, maxSizeIn, 0.01, func(v float64) error { return none(GroundSheet(100, v, 120, 12, 6)) }},
		{"wall length", 1.0 / 64, maxSizeIn, 0.01, func(v float64) error { return none(RetarderSheet(v, 100, 120, 6)) }},
		{"wall height", 1.0 / 64, maxSizeIn, 0.01, func(v float64) error { return none(RetarderSheet(100, v, 120, 6)) }},
		{"support spacing", 12, 18, 0.01, func(v float64) error { return none(WireSupports(bay, v)) }},
		{"staple spacing", 4, 24, 0.01, func(v float64) error { return none(Staples(bay, v)) }},
		{"eaves", 1, 4, 1, func(v float64) error { return none(Baffles(bay, int(v))) }},
		{"bays of one size", 0, maxBays, 1, func(v float64) error {
			return none(Staples([]Bay{{KindFull, 14.5, 96, int(v)}}, 8))
		}},
		{"turn-up", 0, 120, 0.01, func(v float64) error { return none(GroundSheet(480, 336, 120, 12, v)) }},
		{"sheet width", 24, 600, 0.01, func(v float64) error { return none(GroundSheet(480, 336, v, 12, 6)) }},
		{"lap", 0, 60, 0.01, func(v float64) error { return none(GroundSheet(480, 336, 120, v, 6)) }},
		{"lap", 0, 24, 0.01, func(v float64) error { return none(RetarderSheet(480, 97, 48, v)) }},
		{"hatches", 0, 100, 1, func(v float64) error { return none(HatchPieces(int(v), 30, 22, 1, batt15)) }},
		{"layers", 1, 10, 1, func(v float64) error { return none(HatchPieces(1, 30, 22, int(v), batt15)) }},
		{"hatch", 6, 240, 0.01, func(v float64) error { return none(HatchPieces(1, v, 22, 1, batt15)) }},
		{"hatch", 6, 240, 0.01, func(v float64) error { return none(HatchPieces(1, 30, v, 1, batt15)) }},
		{"pieces", 0, 200_000, 1, func(v float64) error { return packs(int(v), 0, 8) }},
		{"pieces per package", 1, 1000, 1, func(v float64) error { return packs(8, 0, int(v)) }},
		{"spare share", 0, 1, 0.001, func(v float64) error { return packs(8, v, 8) }},
		{"search budget", 0, 100_000_000, 1, func(v float64) error { return none(Cut(96, []Demand{{12, 1}}, int(v))) }},
		{"pieces of one length", 0, 200_000, 1, func(v float64) error {
			return none(Cut(96, []Demand{{12, int(v)}, {13, 0}, {14, 0}}, 0))
		}},
	} {
		t.Run(l.name, func(t *testing.T) {
			for _, v := range []float64{l.low, l.high} {
				if err := l.try(v); err != nil {
					require.ErrorIs(t, err, ErrNothing, "%v", v)
				}
			}
			beyond := []float64{l.low - l.by, l.high + l.by}
			if l.by < 1 { // a size, not a count
				beyond = append(beyond, math.NaN(), math.Inf(1), math.Inf(-1))
			}
			for _, v := range beyond {
				err := l.try(v)
				require.Error(t, err, "%v", v)
				require.NotErrorIs(t, err, ErrNothing, "%v", v)
				require.Contains(t, err.Error(), ": "+l.name+" ")
				require.Contains(t, err.Error(), ", accepted ")
			}
		})
	}
}

// Ten runs of 120,000 in at 6 in are 200,000 bays, as many as are accepted.
func TestWallBayLimit(t *testing.T) {
	w := Wall{LengthsIn: slices.Repeat([]float64{maxSizeIn}, 10), HeightIn: 97.125, DepthIn: 5.5, SpacingIn: 6}
	require.NoError(t, w.checkSizes())
	w.LengthsIn = append(w.LengthsIn, 12)
	err := w.checkSizes()
	require.ErrorIs(t, err, ErrCount)
	require.ErrorContains(t, err, "about 200002 bays, accepted up to 200000")
}

func TestBayLimits(t *testing.T) {
	good := Bay{KindFull, 14.5, 90, 1}
	for _, c := range []struct {
		bad  Bay
		text string
	}{
		{Bay{KindOdd, 0.01, 90, 1}, "bay width 0.01, accepted 0.015625 to 120000"},
		{Bay{KindOdd, 10, 120_001, 1}, "bay height 120001, accepted 0.015625 to 120000"},
		{Bay{KindOdd, 10, 90, -1}, "bays of one size -1, accepted 0 to 200000"},
		{Bay{KindOdd, 10, 90, 200_001}, "bays of one size 200001, accepted 0 to 200000"},
		{Bay{KindOdd, 15.5, 90, 1}, "bay 15.5 in, blanket 15 in"},
		{Bay{KindOdd, 10, 90, 200_000}, "pieces 200001, accepted 1 to 200000"},
	} {
		_, err := TakeOff(Layout{Bays: []Bay{good, c.bad}}, batt15, 0)
		require.ErrorContains(t, err, c.text)
		_, err = TakeOff(Layout{Bays: []Bay{c.bad, good}}, batt15, 0)
		require.ErrorContains(t, err, c.text)
	}
	_, err := TakeOff(Layout{Bays: []Bay{{KindFull, 15, 93, 1}, {KindOdd, 16, 94, 0}}}, batt15, 0)
	require.NoError(t, err, "as large as the blanket, and none of what is larger")
}
