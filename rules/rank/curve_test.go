package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// straight is the curve of a scale with two anchors.
func straight(best, worst float64) rank.Curve {
	c := rank.Curve{{X: best, V: 1}, {X: worst, V: 0}}
	if best > worst {
		slices.Reverse(c)
	}
	return c
}

func TestCurveAtItsCornersBetweenAndBeyond(t *testing.T) {
	check := func(c rank.Curve, at [][2]float64, beyond []float64, source string) {
		t.Helper()
		require.NoError(t, c.Check())
		for _, p := range at {
			v, clamped := c.Value(p[0])
			require.InDelta(t, p[1], v, 1e-12, "at %v (%s)", p[0], source)
			require.Equal(t, slices.Contains(beyond, p[0]), clamped, "at %v (%s)", p[0], source)
		}
	}
	p := load(t)
	for _, row := range p.Curves {
		var c rank.Curve
		for _, corner := range row.Corners {
			c = append(c, rank.Point{X: corner[0], V: corner[1]})
		}
		check(c, row.At, row.Beyond, row.Source)
	}
	for _, row := range p.Scales {
		check(straight(row.Best, row.Worst), row.At, row.Beyond, row.Quantity)
	}
}

func TestBrokenCurves(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for name, c := range map[string]rank.Curve{
		"empty": nil, "one point": {{0, 1}}, "x back": {{1, 1}, {0, 0}}, "x twice": {{1, 1}, {1, 0}},
		"value above 1": {{0, 2}, {1, 0}}, "value below 0": {{0, 1}, {1, -0.1}}, "no number": {{0, nan}, {1, 0}},
		"endless": {{0, 1}, {inf, 0}}, "turns back": {{0, 1}, {1, 0}, {2, 1}}, "turns down again": {{0, 0}, {1, 1}, {2, 0.5}},
	} {
		require.ErrorIs(t, c.Check(), rank.ErrScale, name)
		v, _ := c.Value(0.5)
		require.True(t, math.IsNaN(v), name)
	}
	require.NoError(t, rank.Curve{{0, 1}, {1, 1}, {2, 0}}.Check(), "level, then falling")
	require.NoError(t, rank.Curve{{0, 0}, {1, 0}, {2, 1}}.Check(), "level, then rising")
	v, clamped := straight(1, 0).Value(nan)
	require.True(t, math.IsNaN(v) && !clamped, "an unknown quantity must stay unknown")
	v, clamped = straight(1, 0).Value(inf)
	require.True(t, v == 1 && clamped)
}
