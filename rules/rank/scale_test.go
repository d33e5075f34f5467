package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestScaleAtItsAnchorsBetweenAndBeyond(t *testing.T) {
	for _, row := range load(t).Scales {
		s := rank.Scale{Best: row.Best, Worst: row.Worst}
		require.NoError(t, s.Check())
		for _, at := range row.At {
			v, clamped := s.Value(at[0])
			require.InDelta(t, at[1], v, 1e-12, "%s at %v", row.Quantity, at[0])
			require.Equal(t, slices.Contains(row.Beyond, at[0]), clamped, "%s at %v", row.Quantity, at[0])
			if !clamped {
				require.InDelta(t, at[0], s.At(v), 1e-9, "%s back from %v", row.Quantity, v)
			}
		}
	}
}

func TestCurveAgainstReferenceOutput(t *testing.T) {
	for _, row := range load(t).Curves {
		var c rank.Curve
		for _, p := range row.Corners {
			c = append(c, rank.Point{X: p[0], V: p[1]})
		}
		require.NoError(t, c.Check())
		for _, at := range row.At {
			v, clamped := c.Value(at[0])
			require.InDelta(t, at[1], v, 1e-12, "at %v (%s)", at[0], row.Source)
			require.Equal(t, slices.Contains(row.Beyond, at[0]), clamped, "at %v", at[0])
		}
	}
}

// A change of unit multiplies quantity and anchors alike and must change nothing.
func TestScaleDoesNotSeeTheUnit(t *testing.T) {
	rng := seeded(1)
	for range 500 {
		best, worst, x := rng.NormFloat64(), rng.NormFloat64(), 2*rng.NormFloat64()
		dollars, c1 := rank.Scale{Best: best, Worst: worst}.Value(x)
		cents, c2 := rank.Scale{Best: 100 * best, Worst: 100 * worst}.Value(100 * x)
		require.InDelta(t, dollars, cents, 1e-9)
		require.Equal(t, c1, c2)
	}
}

func TestBrokenScales(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, s := range []rank.Scale{{}, {Best: 3, Worst: 3}, {Best: nan}, {Worst: inf}, {Best: -inf, Worst: 1}} {
		require.ErrorIs(t, s.Check(), rank.ErrScale, "%+v", s)
		v, _ := s.Value(1)
		require.True(t, math.IsNaN(v), "%+v", s)
		require.True(t, math.IsNaN(s.At(0.5)), "%+v", s)
	}
	for name, c := range map[string]rank.Curve{
		"empty": nil, "one point": {{0, 1}}, "x back": {{1, 1}, {0, 0}}, "x twice": {{1, 1}, {1, 0}},
		"value above 1": {{0, 2}, {1, 0}}, "value below 0": {{0, 1}, {1, -0.1}}, "no number": {{0, nan}, {1, 0}},
		"endless": {{0, 1}, {inf, 0}}, "turns back": {{0, 1}, {1, 0}, {2, 1}},
	} {
		require.ErrorIs(t, c.Check(), rank.ErrScale, name)
		v, _ := c.Value(0.5)
		require.True(t, math.IsNaN(v), name)
	}
	v, clamped := rank.Scale{Best: 1}.Value(nan)
	require.True(t, math.IsNaN(v) && !clamped, "an unknown quantity must stay unknown")
	require.True(t, math.IsNaN(rank.Scale{Best: 1}.At(nan)))
	v, _ = rank.Scale{Best: math.MaxFloat64, Worst: -math.MaxFloat64}.Value(0)
	require.InDelta(t, .5, v, 1e-15, "anchors further apart than a float can say")
	v, clamped = rank.Scale{Best: 1}.Value(inf)
	require.True(t, v == 1 && clamped)
}

// FuzzScale: whatever the numbers, a sound scale gives a value in 0..1 that
// never falls towards the best anchor.
func FuzzScale(f *testing.F) {
	f.Add(4.0, 20.0, 12.0, 13.0)
	f.Add(math.MaxFloat64, -math.MaxFloat64, 0.0, 1.0)
	f.Add(5e-324, 0.0, 0.0, 5e-324)
	f.Add(1.0, math.Nextafter(1, 2), 1.0, 2.0)
	f.Fuzz(func(t *testing.T, best, worst, x, y float64) {
		s := rank.Scale{Best: best, Worst: worst}
		if s.Check() != nil || math.IsNaN(x) || math.IsNaN(y) {
			t.Skip()
		}
		if (best > worst) != (x < y) {
			x, y = y, x
		}
		vx, _ := s.Value(x)
		vy, _ := s.Value(y)
		if !(vx >= 0 && vx <= vy && vy <= 1) {
			t.Fatalf("%+v: %v is worth %v, %v is worth %v", s, x, vx, y, vy)
		}
	})
}
