package takeoff

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Every figure in this file is worked by hand from the rule stated at the
// function.

func TestAreaByHand(t *testing.T) {
	// 100 ft2 of which 0.8 is clear, blanket of 15 x 96 in, 10 ft2 a piece.
	b := Product{WidthIn: 15, LengthIn: 96, PerPackage: 1}
	got, err := Area{Ft2: 100, Share: 0.8, How: ByClearShare}.Count(b)
	require.NoError(t, err)
	require.Equal(t, 8, got)
	got, err = Area{Ft2: 100.1, Share: 0.8, How: ByClearShare}.Count(b)
	require.NoError(t, err)
	require.Equal(t, 9, got)

	// A bay as wide as the blanket is filled, a wider one is not.
	_, err = Area{Ft2: 100, SpacingIn: 16.5, How: ByModule}.Count(b)
	require.NoError(t, err)
	_, err = Area{Ft2: 100, SpacingIn: 24, How: ByModule}.Count(b)
	require.ErrorContains(t, err, "bay 22.5 in, blanket 15 in")

	// 97-1/2 ft at 12 in: 12 pieces when each serves the 97-1/2 in of its bay
	// with the plates, 1170 / 93 = 12.6 when it serves its own length.
	for _, c := range []struct {
		bayIn float64
		want  int
	}{{97.5, 12}, {97.6, 13}, {0, 13}, {93, 13}, {90, 13}, {78, 15}} {
		got, err = Area{Ft2: 97.5, SpacingIn: 12, BayIn: c.bayIn, How: ByModule}.Count(batt15)
		require.NoError(t, err)
		require.Equal(t, c.want, got, "%v", c.bayIn)
	}

	_, err = Area{Ft2: 100, SpacingIn: 16, How: "by eye"}.Count(b)
	require.ErrorContains(t, err, `"by eye", accepted "area / module" or "area x clear share / piece"`)
}

// 100,000 and 10 % are 110,000, not one more: in binary they are a hair above,
// and the hair grows with the number.
func TestLargeNumbersRoundUpOnlyWhatIsThere(t *testing.T) {
	for _, n := range []int{100, 100_000, 200_000} {
		packs, spare, err := Packages(n, 0.1, 1)
		require.NoError(t, err)
		require.Equal(t, n+n/10, packs)
		require.Equal(t, n/10, spare)
	}
	require.Equal(t, 4, ceilInt(3.0001))
	require.Equal(t, 3, ceilInt(3))
	require.Zero(t, ceilInt(0))
}

func TestFloorByHand(t *testing.T) {
	// 40 x 28 ft, 2x10 at 16 in: 28 bays of 14-1/2 in and one of 13-3/4 in at
	// each side, at both ends; strips as long as the floor is wide less two
	// thicknesses.
	f := Floor{LengthIn: 480, WidthIn: 336, DepthIn: 9.25, SpacingIn: 16}
	rim, err := f.RimLayout()
	require.NoError(t, err)
	require.Equal(t, []Bay{
		{KindRim, 9.25, 333, 2},
		{KindRim, 14.5, 9.25, 56},
		{KindRim, 13.75, 9.25, 4},
	}, rim.Bays)
	require.InDelta(t, (9.25*333*2+9.25*14.5*56+9.25*13.75*4)/144, rim.ClearFt2, 1e-9)
	require.InDelta(t, 2*(480+336)*9.25/144, rim.GrossFt2, 1e-9)
	require.Zero(t, rim.DepthIn)
	require.Equal(t, 16.0, rim.SpacingIn)

	// A floor twice as wide as its joists are thick has no room for a strip.
	f = Floor{LengthIn: 480, WidthIn: 3, DepthIn: 9.25, SpacingIn: 16}
	rim, err = f.RimLayout()
	require.NoError(t, err)
	require.Equal(t, []Bay{{KindRim, 14.5, 9.25, 56}, {KindRim, 13.75, 9.25, 4}}, rim.Bays)

	// 3 x 3 in: no bay, no strip.
	_, err = Floor{LengthIn: 3, WidthIn: 3, DepthIn: 9.25, SpacingIn: 16}.RimLayout()
	require.ErrorIs(t, err, ErrNothing)
	require.ErrorContains(t, err, "rim of 3 x 3 in")
	_, err = Floor{LengthIn: 480, WidthIn: 3, DepthIn: 9.25, SpacingIn: 16, Rim: true}.Layout()
	require.ErrorContains(t, err, "floor 480 x 3 in leaves no clear bay")
	l, err := Floor{LengthIn: 480, WidthIn: 4, DepthIn: 9.25, SpacingIn: 16, Rim: true}.Layout()
	require.NoError(t, err)
	require.Equal(t, []Bay{{KindFull, 14.5, 1, 28}, {KindFull, 13.75, 1, 2}}, l.Bays)
	require.Equal(t, 9.25, l.DepthIn)
}

func TestAcrossByHand(t *testing.T) {
	for _, c := range []struct {
		widthIn float64
		want    []Bay
	}{
		{12, []Bay{{KindAcross, 12, 480, 1}}},
		{24, []Bay{{KindAcross, 24, 480, 1}}},
		{24 + 1.0/64, []Bay{{KindAcross, 24, 480, 1}, {KindAcross, 1.0 / 64, 480, 1}}},
		{24 + 0.9/64, []Bay{{KindAcross, 24, 480, 1}}},
		{336, []Bay{{KindAcross, 24, 480, 14}}},
		{340, []Bay{{KindAcross, 24, 480, 14}, {KindAcross, 4, 480, 1}}},
	} {
		l, err := Floor{LengthIn: 480, WidthIn: c.widthIn, DepthIn: 9.25, SpacingIn: 16}.Across(24)
		require.NoError(t, err)
		require.Equal(t, c.want, l.Bays, "%v", c.widthIn)
		require.Zero(t, l.DepthIn)
		require.InDelta(t, 480*c.widthIn/144, l.GrossFt2, 1e-9)
	}
}

// A remnant of 6 in is set; a shorter one is lengthened at the cost of the
// piece beside it, unless the blanket is shorter than two such.
func TestShortRemnants(t *testing.T) {
	for _, c := range []struct {
		pieceIn, bayIn float64
		want           []Demand
	}{
		{93, 99, []Demand{{93, 1}, {6, 1}}},
		{93, 98, []Demand{{92, 1}, {6, 1}}},
		{93, 94, []Demand{{88, 1}, {6, 1}}},
		{93, 192, []Demand{{93, 2}, {6, 1}}},
		{93, 191, []Demand{{93, 1}, {92, 1}, {6, 1}}},
		{12, 15, []Demand{{9, 1}, {6, 1}}},
		{11, 14, []Demand{{11, 1}, {3, 1}}},
	} {
		got, j := stack(c.bayIn, Product{LengthIn: c.pieceIn})
		require.Equal(t, c.want, got, "%v of %v", c.bayIn, c.pieceIn)
		require.Equal(t, c.bayIn, j.BayIn)
		require.Equal(t, c.want[len(c.want)-1].LengthIn, j.RemnantIn)
	}
	fit := Product{LengthIn: 93, FitLengthIn: 0.375}
	got, j := stack(93.375, fit)
	require.Equal(t, []Demand{{93, 1}}, got, "no gap wider than the fit")
	require.Equal(t, Joint{BayIn: 93.375, Whole: 1}, j)
	got, _ = stack(93.5, fit)
	require.Equal(t, []Demand{{87.5, 1}, {6.375, 1}}, got)
	got, j = stack(185.875, fit)
	require.Equal(t, []Demand{{93, 1}, {93, 1}}, got, "a remnant is cut no longer than the piece")
	require.Equal(t, 93.0, j.RemnantIn)
}

func TestCutWidths(t *testing.T) {
	for _, c := range []struct{ bayIn, want float64 }{
		{15, 15},
		{13.5, 15},
		{13.49, 13.99},
		{4, 4.5},
	} {
		require.InDelta(t, c.want, cutWidth(c.bayIn, batt15), 1e-9, "%v", c.bayIn)
	}
	// With a fit of 2 in a bay 1-3/4 in narrower would be cut wider than sold.
	require.Equal(t, 15.0, cutWidth(13.25, Product{WidthIn: 15, FitWidthIn: 2}))
	stands := Product{WidthIn: 16, FitWidthIn: 0.5, PressIn: StandPressInIn}
	require.Equal(t, 15.0, cutWidth(14.5, stands), "16 in between studs")
	stands.WidthIn = 15
	require.Equal(t, 15.0, cutWidth(13.75, stands), "15 in in the first bay")
}

func TestOrderByHand(t *testing.T) {
	// One bay 10 x 50 in out of a piece 15 x 100 in: a third is used.
	p := Product{WidthIn: 15, LengthIn: 100, ThicknessIn: 5, PerPackage: 4}
	l := Layout{DepthIn: 3.5, Bays: []Bay{{KindFull, 10, 50, 1}}, ClearFt2: 500.0 / 144}
	o, err := TakeOff(l, p, 0)
	require.NoError(t, err)
	require.Equal(t, 1, o.Stock)
	require.Equal(t, 1, o.Packages)
	require.Equal(t, 3, o.SparePieces)
	require.Equal(t, []StockCut{{1, []Slot{{50, []Piece{{10, 50, 1}}, 1}}, 50}}, o.Patterns)

	// Whole pieces and a second layer: rows across have no stud beside them.
	l = Layout{Bays: []Bay{{KindFull, 15, 100, 3}, {KindAcross, 15, 250, 2}, {KindOdd, 7, 100, 2}}}
	l.setBays(l.Bays)
	o, err = TakeOff(l, p, 0.5)
	require.NoError(t, err)
	// 3 and 2 x 2 whole, the two halves of 50 in out of one, the two of 7 in
	// side by side out of another.
	require.Equal(t, 9, o.Stock)
	require.Equal(t, 4, o.Packages, "9 and half of 9 are 13.5")
	require.Equal(t, 7, o.SparePieces)
	require.Equal(t, []StockCut{
		{7, []Slot{{100, []Piece{{15, 100, 1}}, 1}}, 0},
		{1, []Slot{{100, []Piece{{7, 100, 2}}, 1}}, 0},
		{1, []Slot{{50, []Piece{{15, 50, 1}}, 2}}, 0},
	}, o.Patterns)
	require.Equal(t, []Joint{{BayIn: 250, Bays: 2, Whole: 2, RemnantIn: 50}}, o.Joints)
}

// What was cut is counted again: a piece too few, and pieces that are all
// there but smaller than the bays.
func TestUncovered(t *testing.T) {
	l := Layout{Bays: []Bay{{KindFull, 15, 93, 2}}}
	l.setBays(l.Bays)
	o, err := TakeOff(l, batt15, 0)
	require.NoError(t, err)
	o.Patterns[0].Count = 1
	err = o.cover(l)
	require.ErrorIs(t, err, ErrUncovered)
	require.ErrorContains(t, err, "15 x 93 in: 2 wanted, 1 cut")
	o.Patterns[0].Count = 2
	require.NoError(t, o.cover(l))
	l.ClearFt2 = 20
	err = o.cover(l)
	require.ErrorIs(t, err, ErrUncovered)
	require.ErrorContains(t, err, "bays 20.00 ft2, pieces 19.38 ft2")
}

func TestSheetsAndHatchesByHand(t *testing.T) {
	// 120 in roll, 60 in lap, the most there may be: 336 in across are 60 and 4.6
	// rows of 60, 5 of 40 ft; 480 in along are 60 and 7 of 60, 7 of 28 ft, which is
	// less.
	s, err := GroundSheet(480, 336, 120, 60, 0)
	require.NoError(t, err)
	require.Equal(t, Sheet{Rows: 7, SheetFt2: 1960, SeamFt: 168}, s)
	s, err = GroundSheet(480, 6, 120, 12, 0)
	require.NoError(t, err)
	require.Equal(t, Sheet{Rows: 1, SheetFt2: 400}, s, "narrower than the lap")

	for _, c := range []struct {
		hatches, layers int
		long, short     float64
		want            int
	}{
		{1, 1, 93, 15, 1},
		{1, 3, 46.5, 15, 2}, // two strips out of a batt
		{1, 3, 46.6, 15, 3}, // one
		{1, 2, 31, 15, 1},   // three
		{3, 2, 31, 15, 2},   // six strips
		{3, 2, 31, 15.1, 4}, // twelve, two side by side
		{1, 1, 93.1, 15, 2}, // two end to end
		{2, 3, 186, 30, 24}, // two by two, twice, three layers
		{1, 1, 186.1, 15, 3},
	} {
		n, err := HatchPieces(c.hatches, c.short, c.long, c.layers, batt15)
		require.NoError(t, err)
		require.Equal(t, c.want, n, "%+v", c)
		turned, err := HatchPieces(c.hatches, c.long, c.short, c.layers, batt15)
		require.NoError(t, err)
		require.Equal(t, n, turned, "%+v", c)
	}

	// A bay of a foot takes one support, a hair more two; 30 in: 6 and 24 in.
	n, err := WireSupports([]Bay{{KindFull, 14.5, 30, 3}, {KindFull, 14.5, 30.5, 1}, {KindFull, 14.5, 4, 1}}, 18)
	require.NoError(t, err)
	require.Equal(t, 3*2+3+1, n)
}

func TestStripsSideBySide(t *testing.T) {
	for _, c := range []struct {
		name   string
		pieces []Piece
		want   []Slot
	}{
		// 9 + 5 in twice; the third of 9 has room for three of 2 in; four of
		// those are left for a slot of their own.
		{
			"what is left has other neighbours",
			[]Piece{{9, 93, 3}, {5, 93, 2}, {2, 40, 7}},
			[]Slot{
				{93, []Piece{{9, 93, 1}, {5, 93, 1}}, 2},
				{93, []Piece{{9, 93, 1}, {2, 40, 3}}, 1},
				{40, []Piece{{2, 40, 4}}, 1},
			},
		},
		// Seven of 2 in side by side, twice, and three.
		{
			"several alike",
			[]Piece{{2, 40, 17}},
			[]Slot{{40, []Piece{{2, 40, 7}}, 2}, {40, []Piece{{2, 40, 3}}, 1}},
		},
		{"thirds", []Piece{{5, 40, 6}}, []Slot{{40, []Piece{{5, 40, 3}}, 2}}},
		{
			"full width",
			[]Piece{{15, 93, 2}, {15, 40, 1}},
			[]Slot{{93, []Piece{{15, 93, 1}}, 2}, {40, []Piece{{15, 40, 1}}, 1}},
		},
	} {
		pieces := append([]Piece(nil), c.pieces...)
		require.Equal(t, c.want, pairStrips(pieces, 15), c.name)
		require.Equal(t, c.pieces, pieces, "%s: the list is not used up", c.name)
	}
}

// Slots of one length but of different strips: 4 x 50 in out of two pieces of
// 100 in are one cutting pattern, yet two ways to cut.
func TestPatternsSplitBySlots(t *testing.T) {
	p := Product{WidthIn: 15, LengthIn: 100, PerPackage: 1}
	wide, pair := []Piece{{15, 50, 1}}, []Piece{{7.5, 50, 2}}
	for _, c := range []struct {
		bays []Bay
		want []StockCut
	}{
		{[]Bay{{KindFull, 15, 50, 3}, {KindOdd, 7.5, 50, 2}}, []StockCut{
			{1, []Slot{{50, wide, 2}}, 0},
			{1, []Slot{{50, wide, 1}, {50, pair, 1}}, 0},
		}},
		{[]Bay{{KindFull, 15, 50, 2}, {KindOdd, 7.5, 50, 8}}, []StockCut{
			{2, []Slot{{50, pair, 2}}, 0},
			{1, []Slot{{50, wide, 2}}, 0},
		}},
		{[]Bay{{KindFull, 15, 50, 2}, {KindFull, 15, 40, 1}}, []StockCut{
			{1, []Slot{{50, wide, 2}}, 0},
			{1, []Slot{{40, []Piece{{15, 40, 1}}, 1}}, 60},
		}},
	} {
		l := Layout{Bays: c.bays}
		l.setBays(l.Bays)
		o, err := TakeOff(l, p, 0)
		require.NoError(t, err)
		require.Equal(t, c.want, o.Patterns)
		coversEveryBay(t, l, p, o)
	}
}
