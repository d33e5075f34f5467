package rank_test

import (
	"math"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestPriorityWeightsAreProportional(t *testing.T) {
	w, err := rank.PriorityWeights([]float64{3, 1, 4, 0, 2})
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{.3, .1, .4, 0, .2}, w, 1e-15)
	w, err = rank.PriorityWeights([]float64{0, 0, 0, 0})
	require.NoError(t, err)
	require.Equal(t, []float64{.25, .25, .25, .25}, w)
}

func TestRefusedWeights(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, levels := range [][]float64{{-1, 2}, {5.01}, {nan, 1}, {1, inf}, {-inf}} {
		_, err := rank.PriorityWeights(levels)
		require.ErrorIs(t, err, rank.ErrLevel, "%v", levels)
	}
	_, err := rank.PriorityWeights(nil)
	require.ErrorIs(t, err, rank.ErrEmpty)
	_, err = rank.EqualWeights(0)
	require.ErrorIs(t, err, rank.ErrEmpty)
}
