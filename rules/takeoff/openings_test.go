package takeoff

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The header depths are the practice stated at Wall.Layout.
func TestHeaderDepths(t *testing.T) {
	for _, c := range []struct{ openingIn, want float64 }{
		{1, 5.5},
		{48, 5.5},
		{48.1, 7.25},
		{72, 7.25},
		{72.1, 9.25},
		{96, 9.25},
		{96.1, 11.25},
	} {
		require.Equal(t, c.want, headerIn(c.openingIn), "%v in", c.openingIn)
	}
}

// Worked by hand for 92-5/8 in studs under three plates of 1-1/2 in: from the
// wall's foot the top plates begin at 94-1/8 in, heads stand at 82-1/2 in.
func TestOverAndUnder(t *testing.T) {
	w, err := plainWall(97.125, 144).checked()
	require.NoError(t, err)
	for _, c := range []struct {
		o            Opening
		above, below float64
	}{
		{Opening{36, 48, 1}, 94.125 - 82.5 - 5.5, 82.5 - 48 - 1.5 - 1.5},
		{Opening{60, 48, 1}, 94.125 - 82.5 - 7.25, 82.5 - 48 - 1.5 - 1.5},
		{Opening{36, 82.5, 1}, 94.125 - 82.5 - 5.5, -3},
		{Opening{36, 90, 1}, 94.125 - 90 - 5.5, -3}, // its own height is its head
	} {
		above, below := w.overUnder(c.o)
		require.InDelta(t, c.above, above, 1e-9, "%+v", c.o)
		require.InDelta(t, c.below, below, 1e-9, "%+v", c.o)
	}
}

// A space of exactly one inch is counted, a sixteenth less is left to scraps.
// Worked by hand: an opening 36 in wide between side studs and two regular
// ones has three spaces.
func TestSpacesOfOneInch(t *testing.T) {
	count := func(heightIn, openingIn float64, k Kind) (int, Layout) {
		w := plainWall(heightIn, 144)
		w.Openings = []Opening{{36, openingIn, 1}}
		l, err := w.Layout()
		require.NoError(t, err)
		return l.BayCount(k), l
	}
	// Under: 82-1/2 less opening, sill and plate: 82.5 - 78.5 - 1.5 - 1.5 = 1.
	n, l := count(97.125, 78.5, KindBelow)
	require.Equal(t, 3, n)
	require.Equal(t, Bay{KindBelow, 14.5, 1, 1}, l.Bays[len(l.Bays)-2])
	n, _ = count(97.125, 78.5625, KindBelow)
	require.Zero(t, n)
	// Over: in a wall of 92 in the top plates begin at 89 in: 89 - 82.5 - 5.5.
	n, _ = count(92, 48, KindAbove)
	require.Equal(t, 3, n)
	n, _ = count(91.9375, 48, KindAbove)
	require.Zero(t, n)
}

// Worked by hand; a frame is the opening and four studs, 6 in, and a run's
// room is its length less its end studs, 3 in.
func TestOpeningsDealtToRuns(t *testing.T) {
	for _, c := range []struct {
		name   string
		runs   []float64
		wide   []float64
		longer []float64 // widths that the longer run gets
		other  []float64
	}{
		{"most room first", []float64{60, 100}, []float64{20}, []float64{20}, nil},
		// Rooms 100 and 50. 50 goes to the 100; of 50 and 50 left the longer
		// run takes the next too.
		{"equal room", []float64{53, 103}, []float64{44, 40}, []float64{44, 40}, nil},
		// Rooms 100 and 70: 40 to the 100, which leaves 60; 36 to the 70.
		{"spread", []float64{73, 103}, []float64{30, 34}, []float64{34}, []float64{30}},
		// Rooms 102 and 74, frames 71, 50, 46. Most room first: 71 to the 102,
		// 50 to the 74, and no place for 46. Least first: 71 to the 74.
		{"least room", []float64{77, 105}, []float64{65, 40, 44}, []float64{44, 40}, []float64{65}},
		// Rooms 210 and 100, frames 110, 55, 45, 40, 30, 30. Most room first
		// puts 55 beside 110 and has no place for the last 30. Least first: 110
		// leaves 100 and 100, the longer run takes 55 and then 45, as 45 is less
		// than 100; 40, 30 and 30 are the other's.
		{
			"least of equal room",
			[]float64{103, 213},
			[]float64{104, 49, 39, 34, 24, 24},
			[]float64{104, 49, 39},
			[]float64{34, 24, 24},
		},
	} {
		w := plainWall(97.125, c.runs...)
		for _, in := range c.wide {
			w.Openings = append(w.Openings, Opening{in, 48, 1})
		}
		w, err := w.checked()
		require.NoError(t, err, c.name)
		runs, err := w.placeOpenings()
		require.NoError(t, err, c.name)
		for i, want := range [][]float64{c.longer, c.other} {
			var got []float64
			room := runs[i].lengthIn - 3
			for _, o := range runs[i].openings {
				got = append(got, o.WidthIn)
				room -= o.WidthIn + 6
			}
			require.Equal(t, want, got, c.name)
			require.InDelta(t, room, runs[i].freeIn, 1e-9, c.name)
		}
	}
}

// Openings of one size and of several add up: 3 x 12 + 2 x 10 = 56 ft2 of
// 320, worked by hand.
func TestOpeningsAddUp(t *testing.T) {
	w := plainWall(96, FeetIn(25, 15)...)
	w.Openings = []Opening{{36, 48, 3}, {30, 48, 2}}
	l, err := w.Layout()
	require.NoError(t, err)
	require.InDelta(t, 320, l.GrossFt2, 1e-9)
	require.InDelta(t, 56, l.OpeningsFt2, 1e-9)
	require.InDelta(t, 264, l.NetFt2, 1e-9)
	// Plates and ends 2 x (25 + 8) + 2 x (15 + 8), three times 2 x (3 + 4) and
	// twice 2 x (2.5 + 4) round the openings.
	ft, err := w.SealantFt()
	require.NoError(t, err)
	require.InDelta(t, 66+46+42+26, ft, 1e-9)

	// Ordered together with a wall of 10 x 8 ft and one 12 ft2 opening.
	other := plainWall(96, 120)
	other.Openings = []Opening{{36, 48, 1}}
	o, err := other.Layout()
	require.NoError(t, err)
	m := Merge(l, o, l)
	require.InDelta(t, 320+80+320, m.GrossFt2, 1e-9)
	require.InDelta(t, 56+12+56, m.OpeningsFt2, 1e-9)
	require.InDelta(t, 720-124, m.NetFt2, 1e-9)
	require.InDelta(t, 2*l.ClearFt2+o.ClearFt2, m.ClearFt2, 1e-9)
}

func TestOpeningLimits(t *testing.T) {
	w := plainWall(97.125, 144)
	for _, c := range []struct {
		o    Opening
		text string
	}{
		{Opening{36, 97.126, 1}, "opening 97.126 in high, wall 97.125 in"},
		{Opening{math.NaN(), 48, 1}, "opening width NaN, accepted"},
		{Opening{36, math.Inf(1), 1}, "opening height +Inf, accepted"},
		{Opening{36, 48, -1}, "openings of one size -1, accepted 0 to 10000"},
		{Opening{36, 48, 10_001}, "openings of one size 10001, accepted 0 to 10000"},
		// 144 x 97.125 is the whole wall: not too large, but without room for studs.
		{Opening{144, 97.125, 1}, "1 openings and their side studs, runs [144] in"},
		{Opening{145, 97.125, 1}, "openings 97.8 ft2, wall 97.1 ft2"},
		{Opening{36, 97, 5}, "openings 121.2 ft2, wall 97.1 ft2"},
		{Opening{136, 48, 1}, "1 openings and their side studs, runs [144] in"},
	} {
		w.Openings = []Opening{c.o}
		_, err := w.Layout()
		require.ErrorContains(t, err, c.text)
	}
	w.Openings = []Opening{{36, 97.125, 1}}
	_, err := w.Layout()
	require.NoError(t, err, "as high as the wall")
	w.Openings = []Opening{{500, 500, 0}}
	_, err = w.Layout()
	require.NoError(t, err, "none of a size is no opening")

	w = plainWall(97.125, 100_000)
	w.Openings = []Opening{{1, 1, 9_000}, {2, 1, 1_000}}
	l, err := w.Layout()
	require.NoError(t, err, "10,000 openings in all")
	require.InDelta(t, 11_000.0/144, l.OpeningsFt2, 1e-9)
	w.Openings[1].Count++
	_, err = w.Layout()
	require.ErrorContains(t, err, "10001 openings, accepted up to 10000")
}

// The first bay at 16 in, 13-3/4 in, counts as usual, a 1/64 in less too; what
// is narrower is odd.
func TestOddBays(t *testing.T) {
	w, err := plainWall(97.125, 144).checked()
	require.NoError(t, err)
	require.Equal(t, KindFull, w.kindOf(13.75-1.0/64))
	require.Equal(t, KindOdd, w.kindOf(13.75-1.5/64))
	require.Equal(t, []float64{1.0 / 64}, clearSpans([]span{{0, 1}, {1 + 1.0/64, 2}}))
	require.Empty(t, clearSpans([]span{{0, 1}, {1 + 0.9/64, 2}}))
}
