package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// A figure typed with its SI unit is taken, and shown in SI as it was typed;
// what is kept is in the units of the file.
func TestFiguresMayBeTypedInSI(t *testing.T) {
	for _, c := range []struct{ key, typed, shown string }{
		{"shape.length_ft", "12.5 m", "12.5 m"},
		{"place.framing.spacing_in", "600 mm", "600 mm"},
		{"place.framing.spacing_in", "60 cm", "600 mm"},
		{"place.area_ft2", "30 m2", "30 m2"},
		{"place.existing_r", "RSI 3.7", "RSI 3.7"},
		{"place.lengths_ft", "12 m, 8.5 m", "12 m, 8.5 m"},
		{"place.lengths_ft", "12 m, 10 ft", "12 m, 3.05 m"},
	} {
		q, ok := fixture.List(t).Find(c.key)
		require.True(t, ok, c.key)
		a, err := q.Parse(c.typed)
		require.NoError(t, err, c.typed)
		require.Equal(t, c.shown, q.Show(a, units.SI), c.typed)
	}
	q, _ := fixture.List(t).Find("place.openings")
	a, err := q.Parse("2 of 914 mm x 1219 mm")
	require.NoError(t, err)
	require.Equal(t, []string{"2 of 36 in x 48 in"}, a.List)
	// Openings are kept to the sixteenth, as they are measured.
	require.Equal(t, "2 of 914 mm x 1219 mm", q.Show(a, units.SI))
	require.Equal(t, "2 of 36 in x 48 in", q.Show(a, units.US))
	q, _ = fixture.List(t).Find("place.framing.spacing_in")
	for _, wrong := range []string{"600", "-600 mm", "60 m", "600 mmm"} {
		_, err := q.Parse(wrong)
		require.Error(t, err, wrong)
	}
}

// A comma for a decimal point is never read as two lengths, one of them in the
// other unit.
func TestDecimalCommaIsNotTwoLengths(t *testing.T) {
	q, _ := fixture.List(t).Find("place.lengths_ft")
	for _, wrong := range []string{"12,5 m", "12 m, 40", "12,5m; 8 m"} {
		_, err := q.Parse(wrong)
		require.ErrorContains(t, err, "a unit behind each", wrong)
	}
	for _, right := range []string{"40, 28", "12 m, 8.5 m", "40, 12 ft 6 in"} {
		_, err := q.Parse(right)
		require.NoError(t, err, right)
	}
}

// What is wrong with a label is said in the units that are shown.
func TestLabelProblemsFollowTheUnits(t *testing.T) {
	q := house.Quote{Pieces: 10, WidthIn: 15, LengthIn: 93, CoverageFt2: 50}
	require.ErrorContains(t, q.Check(units.US), "coverage 50 ft2, but 10 pieces of 15 x 93 in are 96.9 ft2;")
	require.ErrorContains(t, q.Check(units.SI), "coverage 4.6 m2, but 10 pieces of 381 x 2362 mm are 9 m2;")
	for typed, want := range map[string]float64{"12.38 per m2": 1.15, "12.38 a square meter": 1.15, "1.15 per ft2": 1.15} {
		usd, per, err := house.ParsePrice(typed, units.SI)
		require.NoError(t, err, typed)
		require.Equal(t, house.PerFt2, per, typed)
		require.InDelta(t, want, usd, 0.001, typed)
	}
	_, _, err := house.ParsePrice("much", units.SI)
	require.ErrorContains(t, err, "or 12.38 per m2")
}
