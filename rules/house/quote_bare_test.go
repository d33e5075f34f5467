package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
)

// 9.9 on a label that shows square meters is 107 square feet (1 ft is 0.3048 m,
// exact): a bare figure is asked about where both can stand.
func TestABareFigureOfALabel(t *testing.T) {
	for _, c := range []struct {
		key, typed string
		s          units.System
		asked      bool
	}{
		{"coverage_ft2", "9.9", units.SI, true},
		{"coverage_ft2", "9.9 m2", units.SI, false},
		{"coverage_ft2", "107 ft2", units.SI, false},
		{"coverage_ft2", "107", units.US, false},
		{"coverage_ft2", "", units.SI, false},
		{"width_in", "15", units.SI, true},
		{"width_in", "380 mm", units.SI, false},
		{"length_in", "93", units.SI, true},
		{"pieces", "11", units.SI, false},
		{"have", "2", units.SI, false},
	} {
		q, ok := house.QuoteQuestion(c.key)
		require.True(t, ok)
		require.Equal(t, c.asked, house.BareOnLabel(q, c.typed, c.s) != "", "%+v", c)
	}
	q, _ := house.QuoteQuestion("coverage_ft2")
	v, err := q.Parse("9.9 m2")
	require.NoError(t, err)
	require.InDelta(t, 9.9/(0.3048*0.3048), v.Number, 1e-6)
}
