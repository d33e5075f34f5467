package takeoff

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestWallRefuses(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := func() Wall { return plainWall(97.125, 144) }
	for _, v := range []float64{nan, inf, -inf, -96, 0, 1e7} {
		w := good()
		w.HeightIn = v
		_, err := w.Layout()
		require.ErrorIs(t, err, ErrSize, "height %v", v)
		w = good()
		w.LengthsIn = append(w.LengthsIn, v)
		_, err = w.Layout()
		require.ErrorIs(t, err, ErrSize, "length %v", v)
		w = good()
		w.SpacingIn = v
		_, err = w.Layout()
		require.Error(t, err, "spacing %v", v)
		w = good()
		w.DepthIn = v
		_, err = w.Layout()
		require.ErrorIs(t, err, ErrSize, "depth %v", v)
		w = good()
		w.Openings = []Opening{{v, 48, 1}}
		_, err = w.Layout()
		require.Error(t, err, "opening width %v", v)
		w = good()
		w.Openings = []Opening{{36, v, 1}}
		_, err = w.Layout()
		require.Error(t, err, "opening height %v", v)
		if v != 0 { // 0 means the default
			w = good()
			w.ThickIn = v
			_, err = w.Layout()
			require.ErrorIs(t, err, ErrSize, "thickness %v", v)
			w = good()
			w.StudHeightIn = v
			_, err = w.Layout()
			require.ErrorIs(t, err, ErrSize, "stud height %v", v)
		}
	}
	w := good()
	w.HeightIn = 4.5
	_, err := w.Layout()
	require.ErrorIs(t, err, ErrSize, "plates only")
	_, err = plainWall(97.125).Layout()
	require.ErrorIs(t, err, ErrCount)
	_, err = plainWall(97.125, 3).Layout()
	require.ErrorIs(t, err, ErrNothing)
	many := make([]float64, 200)
	for i := range many {
		many[i] = 100_000
	}
	_, err = plainWall(97.125, many...).Layout()
	require.ErrorIs(t, err, ErrCount)
}

func TestOpeningsRefused(t *testing.T) {
	for _, c := range []struct {
		o    Opening
		want error
	}{
		{Opening{200, 97, 1}, ErrOpenings},  // larger than the wall
		{Opening{36, 98, 1}, ErrOpenings},   // taller
		{Opening{136, 48, 1}, ErrOpenings},  // no room for its studs
		{Opening{36, 48, 4}, ErrOpenings},   // too many side by side
		{Opening{36, 48, 10_001}, ErrCount}, // more than 10,000
		{Opening{36, 48, math.MaxInt}, ErrCount},
		{Opening{36, 48, -1}, ErrCount},
	} {
		w := plainWall(97.125, 144)
		w.Openings = []Opening{c.o}
		_, err := w.Layout()
		require.ErrorIs(t, err, c.want, "%+v", c.o)
	}
	w := plainWall(97.125, 144)
	w.Openings = []Opening{{1, 1, 9_000}, {1, 1, 1_001}}
	_, err := w.Layout()
	require.ErrorIs(t, err, ErrCount)
	w.Openings = []Opening{{500, 500, 0}}
	_, err = w.Layout()
	require.NoError(t, err, "none of a size is no opening")
	w.Openings = []Opening{{135, 97, 1}}
	l, err := w.Layout()
	require.ErrorIs(t, err, ErrNothing, "%+v", l)

	// Most room first would put the narrow ones where the wide one must go;
	// widest first finds the place.
	w = plainWall(97.125, 60, 100)
	w.Openings = []Opening{{40, 48, 1}, {88, 48, 1}}
	_, err = w.Layout()
	require.NoError(t, err)
	// Clear runs of 74 and 102 in, frames of 71, 50 and 46 in: to the most room
	// first they do not fit, to the least room first they do.
	w = plainWall(97.125, 77, 105)
	w.Openings = []Opening{{65, 40, 1}, {40, 40, 1}, {44, 40, 1}}
	_, err = w.Layout()
	require.NoError(t, err)
}

func TestTakeOffRefuses(t *testing.T) {
	l, err := plainWall(97.125, 144).Layout()
	require.NoError(t, err)
	for _, c := range []struct {
		p    Product
		o    Options
		want error
	}{
		{Product{}, Options{}, ErrSize},
		{Product{WidthIn: 14, LengthIn: 93, PerPackage: 1}, Options{}, ErrTooWide},
		{Product{WidthIn: 15, LengthIn: 47, PerPackage: 1}, Options{}, ErrTooLong},
		{Product{WidthIn: 15, LengthIn: 93}, Options{}, ErrCount},
		{Product{WidthIn: math.NaN(), LengthIn: 93, PerPackage: 1}, Options{}, ErrSize},
		{Product{WidthIn: 15, LengthIn: math.Inf(1), PerPackage: 1}, Options{}, ErrSize},
		{Product{WidthIn: 15, LengthIn: 93, ThicknessIn: -1, PerPackage: 1}, Options{}, ErrSize},
		{batt15, Options{SpareShare: -0.1}, ErrShare},
		{batt15, Options{SpareShare: math.NaN()}, ErrShare},
		{batt15, Options{SpareShare: 1.1}, ErrShare},
		{batt15, Options{Budget: -1}, ErrCount},
	} {
		_, err := TakeOff(l, c.p, c.o)
		require.ErrorIs(t, err, c.want, "%+v %+v", c.p, c.o)
	}
	_, err = TakeOff(Layout{}, batt15, Options{})
	require.ErrorIs(t, err, ErrNothing)
	for _, b := range []Bay{{KindFull, -1, 90, 1}, {KindFull, 14.5, math.NaN(), 1}, {KindFull, math.Inf(1), 90, 1}} {
		_, err = TakeOff(Layout{Bays: []Bay{b}}, batt15, Options{})
		require.ErrorIs(t, err, ErrSize)
	}
	_, err = TakeOff(Layout{Bays: []Bay{{KindFull, 14.5, 90, -1}}}, batt15, Options{})
	require.ErrorIs(t, err, ErrCount)
	_, err = TakeOff(Layout{Bays: []Bay{{KindFull, 14.5, 90, maxBays}, {KindOdd, 4, 90, maxBays}}}, batt15, Options{})
	require.ErrorIs(t, err, ErrCount)

	// Pieces that do not add up to the bays are caught, not ordered.
	o, err := TakeOff(l, batt15, Options{})
	require.NoError(t, err)
	o.Patterns[0].Count--
	require.ErrorIs(t, o.cover(l, batt15), ErrUncovered)
}

func TestPickWidth(t *testing.T) {
	l, err := plainWall(97.125, 144).Layout()
	require.NoError(t, err)
	for _, c := range []struct {
		widths []float64
		want   float64
		err    error
	}{
		{[]float64{23, 15, 11}, 15, nil},
		{[]float64{14.5}, 14.5, nil},
		{[]float64{11, 14}, 0, ErrTooWide},
		{nil, 0, ErrTooWide},
		{[]float64{math.NaN()}, 0, ErrSize},
		{[]float64{-3}, 0, ErrSize},
	} {
		got, err := PickWidth(l, c.widths)
		require.ErrorIs(t, err, c.err)
		require.InDelta(t, c.want, got, 1e-9)
	}
}

func TestOthersRefuse(t *testing.T) {
	good := Floor{LengthIn: 480, WidthIn: 336, DepthIn: 9.25, SpacingIn: 16}
	for _, v := range []float64{math.NaN(), math.Inf(1), -1, 0, 1e9} {
		for _, set := range []func(*Floor){
			func(f *Floor) { f.LengthIn = v }, func(f *Floor) { f.WidthIn = v },
			func(f *Floor) { f.DepthIn = v }, func(f *Floor) { f.SpacingIn = v },
		} {
			f := good
			set(&f)
			_, err := f.Layout()
			require.ErrorIs(t, err, ErrSize)
			_, err = f.Across(24)
			require.ErrorIs(t, err, ErrSize)
			_, err = f.RimLayout()
			require.ErrorIs(t, err, ErrSize)
		}
		_, err := good.Across(v)
		require.ErrorIs(t, err, ErrSize)
		_, err = ModuleFt2PerFt(v)
		require.ErrorIs(t, err, ErrSize)
		c := Chase{ChimneyWidthIn: v, ChimneyDepthIn: 20, ClearanceIn: 2, DepthIn: 3.5, SpacingIn: 16, StoreyIn: 97, Storeys: 1, Sides: 4}
		_, err = c.Wall()
		require.ErrorIs(t, err, ErrSize)
	}
	_, err := Floor{LengthIn: 480, WidthIn: 3, DepthIn: 9.25, SpacingIn: 16, Rim: true}.Layout()
	require.ErrorIs(t, err, ErrNothing)
	c := Chase{ChimneyWidthIn: 24, ChimneyDepthIn: 20, ClearanceIn: 2, DepthIn: 3.5, SpacingIn: 16, StoreyIn: 97, Storeys: 0, Sides: 4}
	_, err = c.Wall()
	require.ErrorIs(t, err, ErrCount)
	c.Storeys, c.Sides = 1, 2
	_, err = c.Wall()
	require.ErrorIs(t, err, ErrCount)
}

func TestAreaRefuses(t *testing.T) {
	for _, c := range []struct {
		a    Area
		want error
	}{
		{Area{Ft2: -1, SpacingIn: 16, How: ByModule}, ErrSize},
		{Area{Ft2: math.NaN(), SpacingIn: 16, How: ByModule}, ErrSize},
		{Area{Ft2: 100, SpacingIn: 24, How: ByModule}, ErrTooWide},
		{Area{Ft2: 100, SpacingIn: 0, How: ByModule}, ErrSize},
		{Area{Ft2: 100, BayIn: -4, SpacingIn: 16, How: ByModule}, ErrSize},
		{Area{Ft2: 100, How: ByClearShare}, ErrShare},
		{Area{Ft2: 100, Share: 1.2, How: ByClearShare}, ErrShare},
		{Area{Ft2: 100, SpacingIn: 16, How: ByBay}, ErrConvention},
	} {
		_, err := c.a.Count(batt15)
		require.ErrorIs(t, err, c.want, "%+v", c.a)
	}
	_, err := Area{Ft2: 100, SpacingIn: 16, How: ByModule}.Count(Product{})
	require.ErrorIs(t, err, ErrSize)
	// A 47 in piece in a 93 in bay serves 47 in, not the bay.
	got, err := Area{Ft2: 100, SpacingIn: 16, BayIn: 93, How: ByModule}.Count(short)
	require.NoError(t, err)
	require.Equal(t, 20, got.Pieces)
	none, err := Area{Ft2: 0, SpacingIn: 16, How: ByModule}.Count(short)
	require.NoError(t, err)
	require.Zero(t, none.Pieces)
	for _, c := range []struct{ pieces, per int }{{-1, 8}, {8, 0}, {maxPieces + 1, 8}} {
		_, _, err = Packages(c.pieces, 0, c.per)
		require.ErrorIs(t, err, ErrCount)
	}
	_, _, err = Packages(8, 2, 8)
	require.ErrorIs(t, err, ErrShare)
}
