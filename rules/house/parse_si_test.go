package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

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
	q, _ = fixture.List(t).Find("place.framing.spacing_in")
	for _, wrong := range []string{"600", "-600 mm", "60 m", "600 mmm"} {
		_, err := q.Parse(wrong)
		require.Error(t, err, wrong)
	}
}
