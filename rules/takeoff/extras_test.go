package takeoff

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// These conventions have no published source; the figures are counted by hand
// from the convention as it is stated beside each function.
func TestExtrasByHand(t *testing.T) {
	floor := []Bay{{KindFull, 14.5, 144, 10}, {KindOdd, 6, 12, 1}, {KindOdd, 6, 13, 1}}
	// 144 in: at 6, 24, 42 ... 132 and 138: 1 + ceil(132/18) = 9.
	n, err := WireSupports(floor, 18)
	require.NoError(t, err)
	require.Equal(t, 90+1+2, n)
	n, err = WireSupports(floor, 12)
	require.NoError(t, err)
	require.Equal(t, 120+1+2, n)

	n, err = Staples([]Bay{{KindFull, 14.5, 92.625, 9}}, 8)
	require.NoError(t, err)
	require.Equal(t, 9*2*13, n)

	n, err = Baffles([]Bay{{KindFull, 14.5, 336, 30}}, 2)
	require.NoError(t, err)
	require.Equal(t, 60, n)

	// 40 x 28 ft earth, 10 ft roll, 12 in laps, 6 in up: 29 ft across in rows
	// of 9 ft net: 10 + 9 + 9 = 28 is short, so 4 rows of 41 ft, 1,640 ft2; 41 ft
	// along are 10 + 4 x 9 = 46, 5 rows of 29 ft, 1,450 ft2, which is less.
	s, err := GroundSheet(480, 336, 120, 12, 6)
	require.NoError(t, err)
	require.Equal(t, Sheet{Rows: 5, SheetFt2: 1450, SeamFt: 116}, s)
	s, err = GroundSheet(480, 324, 120, 12, 6)
	require.NoError(t, err)
	require.Equal(t, 3, s.Rows, "28 ft is exactly three rows")

	// 136 ft of 97-1/8 in wall, 120 in roll: one row and its lap.
	s, err = RetarderSheet(1632, 97.125, 120, 6)
	require.NoError(t, err)
	require.Equal(t, Sheet{Rows: 1, SheetFt2: 1365}, s)

	w := plainWall(96, 144, 96)
	w.Openings = []Opening{{36, 48, 1}, {36, 80, 1}}
	ft, err := w.SealantFt()
	require.NoError(t, err)
	require.InDelta(t, 2*(12+8)+2*(8+8)+2*(3+4)+2*(3+80.0/12), ft, 1e-9)

	// One hatch 30 x 22 in, three layers of 15 x 93 in batts: two strips a
	// layer, three strips out of a batt.
	n, err = HatchPieces(1, 22, 30, 3, batt15)
	require.NoError(t, err)
	require.Equal(t, 2, n)
	n, err = HatchPieces(2, 54, 22, 1, short)
	require.NoError(t, err)
	require.Equal(t, 8, n, "longer than the piece: two end to end")
	n, err = HatchPieces(0, 54, 22, 1, short)
	require.NoError(t, err)
	require.Zero(t, n)
}

// A sheet always covers what it is laid on, and one row less would not.
func TestSheetRowsCover(t *testing.T) {
	for across := 20.0; across < 1200; across += 7.3 {
		for _, roll := range []float64{48, 120, 240} {
			s, err := RetarderSheet(100, across, roll, 12)
			require.NoError(t, err)
			cover := func(n int) float64 { return float64(n)*(roll-12) + 12 }
			require.GreaterOrEqual(t, cover(s.Rows), across-1e-6)
			if s.Rows > 1 {
				require.Less(t, cover(s.Rows-1), across)
			}
		}
	}
}
