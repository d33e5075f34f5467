package rank_test

import (
	"fmt"
	"math"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestRoundParts(t *testing.T) {
	for _, c := range []struct {
		parts []float64
		score rank.Tenths
		want  []rank.Tenths
	}{
		{[]float64{33.34, 33.33, 33.33}, 1000, []rank.Tenths{334, 333, 333}},
		{[]float64{0.06, 0.06, 0.06}, 2, []rank.Tenths{1, 1, 0}},
		{[]float64{0.1, 0.2, 0.3}, 6, []rank.Tenths{1, 2, 3}},
		{[]float64{-0.16, 0.33}, 2, []rank.Tenths{-1, 3}},
		{[]float64{0, 0}, 0, []rank.Tenths{0, 0}},
	} {
		score, got, err := rank.RoundParts(c.parts)
		require.NoError(t, err)
		require.Equal(t, c.score, score, "%v", c.parts)
		require.Equal(t, c.want, got, "%v", c.parts)
	}
	for _, parts := range [][]float64{{math.NaN()}, {math.Inf(1)}, {1, -1e300}} {
		_, _, err := rank.RoundParts(parts)
		require.ErrorIs(t, err, rank.ErrParts)
	}
	_, _, err := rank.RoundParts(nil)
	require.ErrorIs(t, err, rank.ErrEmpty)
}

func TestRoundTo100(t *testing.T) {
	third := 1.0 / 3
	for _, c := range []struct {
		shares []float64
		want   []int
	}{
		{[]float64{third, third, third}, []int{34, 33, 33}},
		{[]float64{.005, .995}, []int{0, 100}},
		{[]float64{.5037624701, .4529189106, .0290420168, .0142766025}, []int{50, 45, 3, 2}},
		{[]float64{1}, []int{100}},
		{[]float64{.29, .71}, []int{29, 71}},
	} {
		got, err := rank.RoundTo100(c.shares)
		require.NoError(t, err)
		require.Equal(t, c.want, got, "%v", c.shares)
	}
	rng := seeded(19)
	for range 300 {
		list := randomWeights(rng, 1+rng.IntN(9))
		got, err := rank.RoundTo100(list)
		require.NoError(t, err)
		sum := 0
		for i, n := range got {
			sum += n
			require.InDelta(t, 100*list[i], n, 1)
		}
		require.Equal(t, 100, sum)
	}
	for _, bad := range [][]float64{{.5}, {1.5, -.5}, {math.NaN(), 1}} {
		_, err := rank.RoundTo100(bad)
		require.ErrorIs(t, err, rank.ErrShare, fmt.Sprint(bad))
	}
	_, err := rank.RoundTo100(nil)
	require.ErrorIs(t, err, rank.ErrEmpty)
}
