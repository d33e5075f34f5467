package units_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// What is there is never shown as nothing. Ounces are
// avoirdupois, 28.349523125 g by definition (NIST Handbook 44, appendix C,
// from memory); a square foot is 0.09290304 m2 by definition.
func TestMoistureSaysATrace(t *testing.T) {
	for _, c := range []struct {
		g      float64
		us, si string
	}{
		{0, "0 oz/ft2", "0 g/m2"},
		{0.2, "a trace", "a trace"},
		{10, "a trace", "10 g/m2"},    // 0.033 oz
		{20, "0.1 oz/ft2", "20 g/m2"}, // 0.066 oz
		{3846, "12.6 oz/ft2", "3846 g/m2"},
		{-0.1, "0 oz/ft2", "0 g/m2"},
	} {
		require.Equal(t, c.us, units.US.Moisture(c.g), c.g)
		require.Equal(t, c.si, units.SI.Moisture(c.g), c.g)
	}
}
