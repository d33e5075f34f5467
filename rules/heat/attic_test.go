package heat

import (
	"math"
	"testing"

	"battwright/rules/units"

	"github.com/stretchr/testify/require"
)

// R-25 between 2x8 joists with R-38 across them is meant to be about R-62; the
// bottom blanket is 8 in pressed to the 7.25 in of the joist, R-24.
func TestCrossedAttic(t *testing.T) {
	bottomR, err := CompressedR(25, 8, 7.25)
	require.NoError(t, err)
	require.InDelta(t, 24, bottomR, 0.5)
	const wood = 9.06 // 1.25 an inch

	b, err := BoundsOf([]Layer{Plain(1.06), Framed(bottomR, wood, 0.06), Plain(38), Plain(0.61)})
	require.NoError(t, err)
	require.Less(t, b.Parallel, bottomR+38+1.67, "the joists cost something")
	require.Greater(t, b.Parallel, 61.0)

	// Left uncovered, the same joists would cost far more: the top layer is
	// what makes them harmless.
	bare, err := BoundsOf([]Layer{Plain(1.67), Framed(bottomR+38, wood, 0.06)})
	require.NoError(t, err)
	require.Greater(t, b.Parallel-bare.Parallel, 5.0)
}

func TestCeilingLoad(t *testing.T) {
	require.InEpsilon(t, units.M3PerFt3/units.KgPerLb, lbFt3PerKgM3, 1e-8)
	p := figures(t)
	c := p.CeilingLoad
	require.Len(t, c.Rows, 4)
	for _, row := range c.Rows {
		load, err := CeilingLoad(c.LabelR/row.RPerIn, row.KgM3)
		require.NoError(t, err)
		require.InDelta(t, row.LbFt2, load, c.Within, "%s: %s", row.Fiber, p.source(t, c.Source))
	}
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := CeilingLoad(bad, 12)
		require.ErrorIs(t, err, ErrOutOfRange)
		_, err = CeilingLoad(12, bad)
		require.ErrorIs(t, err, ErrOutOfRange)
	}
}
