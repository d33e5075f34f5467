package rank

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The cases of this file are worked by hand.

func TestEndsOfASpan(t *testing.T) {
	s := span{low: 0.2, high: 0.6}
	for _, c := range []struct{ t, nearest, farthest float64 }{
		{0.1, 0.2, 0.6}, {0.3, 0.3, 0.6}, {0.7, 0.6, 0.2}, {0.59, 0.59, 0.2}, {0.41, 0.41, 0.2}, {0.2, 0.2, 0.6}, {0.6, 0.6, 0.2},
	} {
		require.Equal(t, c.nearest, s.nearest(c.t), c.t)
		require.Equal(t, c.farthest, s.farthest(c.t), c.t)
	}
	require.Equal(t, span{low: 0.1, high: 0.6}, s.around(0.1))
	require.Equal(t, span{low: 0.2, high: 0.9}, s.around(0.9))
	require.Equal(t, s, s.around(0.4))
}

func TestLeadsCutTheSpan(t *testing.T) {
	for _, c := range []struct {
		what  string
		lines []line
		want  span
		ok    bool
	}{
		{"no rival", nil, span{0, 1, -1, -1}, true},
		{"rising through 0.25", []line{{-0.5, 2}}, span{0.25, 1, 0, -1}, true},
		{"falling through 0.75", []line{{1.5, -2}}, span{0, 0.75, -1, 0}, true},
		{"both", []line{{-0.5, 2}, {1.5, -2}}, span{0.25, 0.75, 0, 1}, true},
		{"the tighter of two", []line{{-0.1, 1}, {-0.4, 1}, {0.9, -1}, {0.6, -1}}, span{0.4, 0.6, 1, 3}, true},
		{"through one point: the steepest", []line{{-0.5, 1}, {-1, 2}, {0.6, -1}, {1.2, -2}}, span{0.5, 0.6, 1, 3}, true},
		{"through one point, the steepest first", []line{{-1, 2}, {-0.5, 1}, {1.2, -2}, {0.6, -1}}, span{0.5, 0.6, 0, 2}, true},
		{"level and ahead", []line{{0.1, 0}}, span{0, 1, -1, -1}, true},
		{"level and a tie", []line{{0, 0}}, span{0, 1, -1, -1}, true},
		{"one point", []line{{-0.5, 1}, {0.5, -1}}, span{0.5, 0.5, 0, 1}, true},
	} {
		s, ok := leads(c.lines, 0, 1)
		require.Equal(t, c.ok, ok, c.what)
		require.InDelta(t, c.want.low, s.low, 1e-12, c.what)
		require.InDelta(t, c.want.high, s.high, 1e-12, c.what)
		require.Equal(t, []int{c.want.lowBy, c.want.highBy}, []int{s.lowBy, s.highBy}, c.what)
	}
	for what, lines := range map[string][]line{
		"level and behind": {{-0.1, 0}},
		"never both":       {{-0.7, 1}, {0.3, -1}},
		"only beyond":      {{-1.5, 1}},
	} {
		_, ok := leads(lines, 0, 1)
		require.False(t, ok, what)
	}
}

func TestScaleBeyondItsAnchors(t *testing.T) {
	for _, s := range []Scale{{Best: 1, Worst: 3}, {Best: 3, Worst: 1}} {
		require.Equal(t, s.Worst, s.At(-0.5))
		require.Equal(t, s.Best, s.At(1.5))
		require.Equal(t, 1.5, Scale{Best: 1, Worst: 3}.At(0.75))
	}
	for _, c := range []struct {
		s       Scale
		x, v    float64
		clamped bool
	}{
		{Scale{1, 3}, 1, 1, false},
		{Scale{1, 3}, 3, 0, false},
		{Scale{1, 3}, 0.9, 1, true},
		{Scale{1, 3}, 3.1, 0, true},
		{Scale{1, 3}, 2.5, 0.25, false},
		{Scale{3, 1}, 3.1, 1, true},
		{Scale{3, 1}, 0.9, 0, true},
		{Scale{3, 1}, 2.5, 0.75, false},
	} {
		v, clamped := c.s.Value(c.x)
		require.Equal(t, []any{c.v, c.clamped}, []any{v, clamped}, "%+v", c)
	}
	// Anchors at the ends of what a float holds.
	require.InDelta(t, 0.75, along(-1.6e308, 1.6e308, 0.8e308), 1e-12)
	require.InDelta(t, 0.25, along(1.6e308, -1.6e308, 0.8e308), 1e-12)
}

func TestCurves(t *testing.T) {
	require.NoError(t, Curve{{0, 0}, {1, 1}}.Check(), "two points are enough")
	require.ErrorIs(t, Curve{{0, 0}}.Check(), ErrScale)
	require.NoError(t, Curve{{0, 1}, {1, 1}, {2, 0}}.Check(), "level, then falling")
	require.NoError(t, Curve{{0, 0}, {1, 0}, {2, 1}}.Check(), "level, then rising")
	require.ErrorIs(t, Curve{{0, 0}, {1, 1}, {2, 0.5}}.Check(), ErrScale)
	require.ErrorIs(t, Curve{{0, 0}, {0, 1}}.Check(), ErrScale)
	require.ErrorIs(t, Curve{{0, 0}, {1, 1.1}}.Check(), ErrScale)
	require.ErrorIs(t, Curve{{0, -0.1}, {1, 1}}.Check(), ErrScale)
	c := Curve{{10, 0.2}, {20, 0.6}, {40, 1}}
	for x, want := range map[float64]float64{10: 0.2, 15: 0.4, 20: 0.6, 30: 0.8, 40: 1} {
		v, clamped := c.Value(x)
		require.InDelta(t, want, v, 1e-12, x)
		require.False(t, clamped, x)
	}
	v, clamped := c.Value(9.9)
	require.Equal(t, []any{0.2, true}, []any{v, clamped})
	v, clamped = c.Value(40.1)
	require.Equal(t, []any{1.0, true}, []any{v, clamped})
	v, _ = c.Value(math.NaN())
	require.True(t, math.IsNaN(v))
}

// Two moves of one size: the earlier priority is named.
func TestTheEarlierOfTwoEqualMoves(t *testing.T) {
	options := []Option{{ID: "a", Values: []float64{1, 0}}, {ID: "b", Values: []float64{0, 1}}}
	for i := range options {
		options[i].MeetsTarget = true
	}
	m, ok, err := WeightToWin(options, []float64{0.75, 0.25}, "b")
	require.NoError(t, err)
	require.True(t, ok)
	require.Equal(t, 0, m.Priority)
	require.InDelta(t, 0.75, m.From, 1e-12)
	require.InDelta(t, 0.5, m.To, 1e-12)
	require.InDelta(t, 0, m.Until, 1e-12)
}

// Reasons stop once they carry four fifths of the lead, at three at the most.
func TestReasonsCarryMostOfTheLead(t *testing.T) {
	for _, c := range []struct {
		what    string
		points  []float64
		reasons []int
		covered float64
		enough  bool
		against int // -1 for none
	}{
		{"exactly four fifths", []float64{2, 8}, []int{1}, 0.8, true, -1},
		{"a little less", []float64{2.1, 7.9}, []int{1, 0}, 1, true, -1},
		{"three at the most", []float64{3, 3, 3, 3}, []int{0, 1, 2}, 0.75, false, -1},
		{"one against", []float64{10, -4, 0}, []int{0}, 10.0 / 6, true, 1},
		{"the larger of two against", []float64{10, -1, -4}, []int{0}, 2, true, 2},
		{"no lead", []float64{4, -6}, []int{0}, 0, false, 1},
		{"nothing at all", []float64{0, 0}, nil, 0, false, -1},
	} {
		var e Explanation
		for k, p := range c.points {
			e.All = append(e.All, Reason{k, p})
			e.LeadPoints += p
		}
		e.pick()
		var reasons []int
		for _, r := range e.For {
			reasons = append(reasons, r.Priority)
		}
		require.Equal(t, c.reasons, reasons, c.what)
		require.InDelta(t, c.covered, e.Covered, 1e-9, c.what)
		require.Equal(t, c.enough, e.Enough, c.what)
		if c.against < 0 {
			require.Nil(t, e.Against, c.what)
			continue
		}
		require.Equal(t, c.against, e.Against.Priority, c.what)
	}
}
