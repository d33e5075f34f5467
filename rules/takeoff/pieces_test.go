package takeoff

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestNineFootWall(t *testing.T) {
	// 104-5/8 in studs under three plates; 93 in batts need a joint in every
	// bay: 93 in below, 11-5/8 in (and the fit) above.
	l, err := plainWall(109.125, 144).Layout()
	require.NoError(t, err)
	o, err := TakeOff(l, batt15, 0)
	require.NoError(t, err)
	require.Equal(t, []Joint{{BayIn: 104.625, Bays: 9, Whole: 1, RemnantIn: 12}}, o.Joints)
	// Nine whole pieces; seven remnants of 12 in come out of one batt, two out
	// of another.
	require.Equal(t, 11, o.Stock)
	require.Equal(t, 2, o.Packages)
	require.Equal(t, 5, o.SparePieces)

	// The longer batt made for it (105 in, trade practice) needs none.
	tall := batt15
	tall.LengthIn = 105
	o, err = TakeOff(l, tall, 0)
	require.NoError(t, err)
	require.Empty(t, o.Joints)
	require.Equal(t, 9, o.Stock)
}

func TestStripsShareABatt(t *testing.T) {
	p := Product{WidthIn: 15, LengthIn: 93, PerPackage: 1}
	for _, c := range []struct {
		name  string
		bays  []Bay
		stock int
	}{
		{"two of half width", []Bay{{KindOdd, 7.5, 93, 2}}, 1},
		{"two a little wider", []Bay{{KindOdd, 7.75, 93, 2}}, 2},
		{"wide and narrow", []Bay{{KindOdd, 9, 93, 1}, {KindOdd, 5.75, 93, 1}}, 1},
		{"three narrow beside a long one", []Bay{{KindOdd, 9, 93, 1}, {KindOdd, 2, 40, 3}}, 1},
		{"seven slivers", []Bay{{KindOdd, 2, 93, 8}}, 2},
		{"pressed in, not cut", []Bay{{KindOdd, 13.5, 93, 2}}, 2},
		{"half width, half length", []Bay{{KindOdd, 7.5, 46.5, 4}}, 1},
	} {
		o, err := TakeOff(Layout{Bays: c.bays}, p, 0)
		require.NoError(t, err, c.name)
		require.Equal(t, c.stock, o.Stock, c.name)
		coversEveryBay(t, Layout{Bays: c.bays}, p, o)
	}
}

func TestOrderOfAKnownWall(t *testing.T) {
	// 12 ft wall, precut studs, one 36 x 48 in window in the middle. By hand:
	// the window with its studs stands from 51 to 93 in; of the regular studs
	// those at 64 and 80 in go. Full height: 0-16, 16-32, 32-48 and beyond the
	// window 96-112, 112-128, 128-144, and slivers of 2-1/4 in each side
	// between 48 or 96 in and the window's studs.
	w := plainWall(97.125, 144)
	w.Openings = []Opening{{36, 48, 1}}
	l, err := w.Layout()
	require.NoError(t, err)
	require.Equal(t, []Bay{
		{KindFull, 14.5, 92.625, 4},
		{KindFull, 13.75, 92.625, 2},
		{KindOdd, 2.25, 92.625, 2},
		{KindAbove, 14.5, 6.125, 1},
		{KindAbove, 7.75, 6.125, 2},
		{KindBelow, 14.5, 31.5, 1},
		{KindBelow, 7.75, 31.5, 2},
	}, l.Bays)
	o, err := TakeOff(l, batt15, 0)
	require.NoError(t, err)
	// Six whole. One cut lengthwise gives both slivers (2-3/4 in) and, beside
	// them, one 8-1/4 in piece for under the window. One cut across gives the
	// rest: 31-7/8 twice and 6-1/2 three times, 83-1/4 in of 93.
	require.Equal(t, 8, o.Stock)
	require.Equal(t, 1, o.Packages)
	require.Zero(t, o.SparePieces)
	require.Zero(t, o.Plan.Gap)
	coversEveryBay(t, l, batt15, o)
}

func TestAtticTwoLayers(t *testing.T) {
	// 40 x 28 ft, 2x8 at 16 in: 30 spaces of 28 ft below, 14 rows of 24 in
	// blanket 40 ft long across.
	f := Floor{LengthIn: 480, WidthIn: 336, DepthIn: 7.25, SpacingIn: 16}
	below, err := f.Layout()
	require.NoError(t, err)
	require.Equal(t, 30, below.BayCount())
	require.InDelta(t, 1120, below.GrossFt2, 1e-9)
	p := Product{WidthIn: 16, LengthIn: 48, ThicknessIn: 8, PerPackage: 10}
	o, err := TakeOff(below, p, 0)
	require.NoError(t, err)
	require.Equal(t, 30*7, o.Stock)

	above, err := f.Across(24)
	require.NoError(t, err)
	require.Equal(t, []Bay{{KindAcross, 24, 480, 14}}, above.Bays)
	require.InDelta(t, 1120, above.ClearFt2, 1e-9)
	wide := Product{WidthIn: 24, LengthIn: 48, ThicknessIn: 12, PerPackage: 6}
	o, err = TakeOff(above, wide, 0)
	require.NoError(t, err)
	require.Equal(t, 140, o.Stock)

	// 23 in blanket: 14 rows and one of 14 in.
	above, err = f.Across(23)
	require.NoError(t, err)
	require.Equal(t, []Bay{{KindAcross, 23, 480, 14}, {KindAcross, 14, 480, 1}}, above.Bays)

	f.Rim = true
	floor, err := f.Layout()
	require.NoError(t, err)
	require.Equal(t, 333.0, floor.Bays[0].HeightIn)
}

func TestRimAndChase(t *testing.T) {
	f := Floor{LengthIn: 480, WidthIn: 336, DepthIn: 9.25, SpacingIn: 16, Rim: true}
	rim, err := f.RimLayout()
	require.NoError(t, err)
	require.Equal(t, 62, rim.BayCount(KindRim))
	require.InDelta(t, 2*(480+336)*9.25/144, rim.GrossFt2, 1e-9)
	o, err := TakeOff(rim, batt15, 0)
	require.NoError(t, err)
	coversEveryBay(t, rim, batt15, o)
	require.NotEmpty(t, o.Joints)

	c := Chase{
		ChimneyWidthIn: 24, ChimneyDepthIn: 20, ClearanceIn: 2, DepthIn: 3.5, SpacingIn: 16,
		StoreyIn: 97.125, Storeys: 2, Sides: 4,
	}
	w, err := c.Wall()
	require.NoError(t, err)
	require.Equal(t, []float64{35, 24, 24, 35, 35, 24, 24, 35}, w.LengthsIn)
	l, err := w.Layout()
	require.NoError(t, err)
	// 35 in sides: 13.75, 14.5, 0.75 in; 24 in sides: 13.75, 5.75 in.
	require.Equal(t, 4*3+4*2, l.BayCount())
	c.Sides = 3
	w, err = c.Wall()
	require.NoError(t, err)
	require.Equal(t, []float64{35, 24, 24, 35, 24, 24}, w.LengthsIn)
	c.ClearanceIn = 0
	_, err = c.Wall()
	require.ErrorIs(t, err, ErrSize)
}

func TestMerge(t *testing.T) {
	a, err := plainWall(97.125, 144).Layout()
	require.NoError(t, err)
	b, err := plainWall(97.125, 100).Layout()
	require.NoError(t, err)
	both, err := plainWall(97.125, 100, 144).Layout()
	require.NoError(t, err)
	require.Equal(t, both, Merge(a, b))
	require.Equal(t, both, Merge(b, a))
	b.DepthIn, b.SpacingIn = 3.5, 24
	m := Merge(a, b)
	require.Zero(t, m.DepthIn)
	require.Zero(t, m.SpacingIn)
	require.Zero(t, Merge().BayCount())
}

func TestClearSpans(t *testing.T) {
	// A stud inside a wider one hides nothing, and one that overlaps adds only
	// what it covers.
	got := clearSpans([]span{{0, 10}, {2, 4}, {12, 13.5}, {13, 14.5}, {20, 21}})
	require.Equal(t, []float64{2, 5.5}, got)
}
