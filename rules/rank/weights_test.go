package rank_test

import (
	"math"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestCentroidWeightsTable(t *testing.T) {
	p := load(t)
	require.Len(t, p.CentroidWeights, 7)
	for _, row := range p.CentroidWeights {
		got, err := rank.ROC(row.Priorities)
		require.NoError(t, err)
		require.InDeltaSlice(t, fracs(t, row.Weights), got, 1e-15, "n=%d", row.Priorities)
	}
	for _, row := range p.CentroidDecimals {
		got, err := rank.ROC(len(row.Weights))
		require.NoError(t, err)
		half := 0.5000001 * math.Pow(10, -float64(row.Digits))
		require.InDeltaSlice(t, row.Weights, got, half, row.Source)
	}
}

func TestTiesShareTheMeanOfTheirPlaces(t *testing.T) {
	for _, row := range load(t).CentroidTies {
		o, err := rank.OrderOf(row.Levels)
		require.NoError(t, err)
		got, err := o.Weights(len(row.Levels))
		require.NoError(t, err)
		require.InDeltaSlice(t, fracs(t, row.Weights), got, 1e-15)
	}
}

func TestOrderOfLevels(t *testing.T) {
	for _, c := range []struct {
		levels []float64
		want   rank.Order
	}{
		{[]float64{3, 1, 4, 2, 3}, rank.Order{{2}, {0, 4}, {3}, {1}}},
		{[]float64{0, 5, 0}, rank.Order{{1}}},
		{[]float64{0, 0, 0}, rank.Order{{0, 1, 2}}},
		{[]float64{2, 2}, rank.Order{{0, 1}}},
	} {
		got, err := rank.OrderOf(c.levels)
		require.NoError(t, err)
		require.Equal(t, c.want, got)
	}
	// What does not matter weighs exactly nothing.
	w, err := rank.Order{{2}, {0}}.Weights(4)
	require.NoError(t, err)
	require.Equal(t, []float64{0.25, 0, 0.75, 0}, w)
}

func TestPriorityWeightsAreProportional(t *testing.T) {
	w, equal, err := rank.PriorityWeights([]float64{3, 1, 4, 0, 2})
	require.NoError(t, err)
	require.False(t, equal)
	require.InDeltaSlice(t, []float64{.3, .1, .4, 0, .2}, w, 1e-15)
	w, equal, err = rank.PriorityWeights([]float64{0, 0, 0, 0})
	require.NoError(t, err)
	require.True(t, equal, "nothing preferred must be said")
	require.Equal(t, []float64{.25, .25, .25, .25}, w)
}

func TestEveryWeightingAddsUpToOne(t *testing.T) {
	rng := seeded(2)
	for range 300 {
		n := 1 + rng.IntN(8)
		levels := randomLevels(rng, n)
		w, _, err := rank.PriorityWeights(levels)
		require.NoError(t, err)
		o, err := rank.OrderOf(levels)
		require.NoError(t, err)
		c, err := o.Weights(n)
		require.NoError(t, err)
		for _, list := range [][]float64{w, c} {
			sum := 0.0
			for k, x := range list {
				sum += x
				for j := range list {
					require.False(t, levels[k] > levels[j] && x < list[j], "levels %v weights %v", levels, list)
				}
			}
			require.InDelta(t, 1, sum, 1e-14)
		}
	}
}

func TestRefusedWeights(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, levels := range [][]float64{{-1, 2}, {5.01}, {nan, 1}, {1, inf}, {-inf}} {
		_, _, err := rank.PriorityWeights(levels)
		require.ErrorIs(t, err, rank.ErrLevel, "%v", levels)
		_, err = rank.OrderOf(levels)
		require.ErrorIs(t, err, rank.ErrLevel, "%v", levels)
	}
	for _, raw := range [][]float64{{-1, 2}, {nan}, {1, nan}, {inf, 1}, {0, 0}} {
		_, err := rank.Proportional(raw)
		require.ErrorIs(t, err, rank.ErrWeight, "%v", raw)
	}
	w, err := rank.Proportional([]float64{math.MaxFloat64, math.MaxFloat64})
	require.NoError(t, err)
	require.Equal(t, []float64{.5, .5}, w)
	for _, f := range []func() error{
		func() error { _, err := rank.Proportional(nil); return err },
		func() error { _, _, err := rank.PriorityWeights(nil); return err },
		func() error { _, err := rank.EqualWeights(0); return err },
		func() error { _, err := rank.ROC(-3); return err },
		func() error { _, err := rank.Order{}.Weights(3); return err },
		func() error { _, err := rank.OrderOf(nil); return err },
	} {
		require.ErrorIs(t, f(), rank.ErrEmpty)
	}
	for _, o := range []rank.Order{{{0}, {0}}, {{0, 0}}, {{3}}, {{-1}}} {
		_, err := o.Weights(3)
		require.ErrorIs(t, err, rank.ErrOrder, "%v", o)
	}
}
