package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestStrengthWords(t *testing.T) {
	for _, c := range []struct {
		wins  int
		shaky bool
		want  string
	}{
		{100, false, "clear"},
		{80, false, "clear"},
		{79, false, "fairly clear"},
		{60, false, "fairly clear"},
		{59, false, "close call"},
		{0, false, "close call"},
		{100, true, "fairly clear"},
		{80, true, "fairly clear"},
		{60, true, "fairly clear"},
		{59, true, "close call"},
	} {
		got, err := rank.StrengthOf(c.wins, c.shaky)
		require.NoError(t, err)
		require.Equal(t, c.want, got.String(), "%+v", c)
	}
	for _, wins := range []int{-1, 101} {
		_, err := rank.StrengthOf(wins, false)
		require.ErrorIs(t, err, rank.ErrShare)
	}
}

func exactBoxes(options []rank.Option) []rank.Box {
	var boxes []rank.Box
	for _, o := range options {
		boxes = append(boxes, rank.Box{Low: slices.Clone(o.Values), High: slices.Clone(o.Values)})
	}
	return boxes
}

func TestThreatsByHand(t *testing.T) {
	half := []float64{.5, .5}
	options := asOptions([][]float64{{.8, .6}, {.6, .6}, {.2, .2}}) // 70, 60, 20
	boxes := exactBoxes(options)
	threats := func() []string {
		best, rivals, err := rank.Threats(options, boxes, half)
		require.NoError(t, err)
		require.Equal(t, "o0", best)
		return rivals
	}
	require.Empty(t, threats())
	boxes[0].Low[0] = .7   // 65: holds against 60
	boxes[1].High[1] = .72 // 66: holds against 70, and no two move at once
	require.Empty(t, threats())
	boxes[1].High[1] = 1 // 80: passes 70
	require.Equal(t, []string{"o1"}, threats())
	// A tie at the worst end goes to the cheaper, as it would in Winner.
	boxes = exactBoxes(options)
	boxes[0].Low[0] = .6
	for cost, want := range map[int64]int{1: 0, -1: 1} {
		options[1].CostCents = cost
		require.Len(t, threats(), want)
	}
}

// Against naming the winner at both ends of each box in turn.
func TestThreatsMoveOneOption(t *testing.T) {
	rng := seeded(23)
	seen := map[bool]int{}
	for range 100 {
		options, weights := randomOptions(rng, 4, 3, 0), randomWeights(rng, 3)
		boxes := exactBoxes(options)
		for j, o := range options {
			for k, v := range o.Values {
				boxes[j].Low[k], boxes[j].High[k] = v*(1-.2*rng.Float64()), v+(1-v)*.2*rng.Float64()
			}
		}
		best, holds := winner(t, options, weights), true
		for j := range options {
			for _, end := range [][]float64{boxes[j].Low, boxes[j].High} {
				at := slices.Clone(options)
				at[j].Values = end
				holds = holds && winner(t, at, weights) == best
			}
		}
		got, rivals, err := rank.Threats(options, boxes, weights)
		require.NoError(t, err)
		require.Equal(t, best, got)
		require.Equal(t, holds, len(rivals) == 0)
		seen[holds]++
	}
	require.Greater(t, min(seen[true], seen[false]), 10, "both answers must occur")
}

func TestRefusedBoxes(t *testing.T) {
	options := asOptions([][]float64{{.5, .5}, {.4, .4}})
	half := []float64{.5, .5}
	for _, c := range []struct {
		box  rank.Box
		want error
	}{
		{rank.Box{Low: []float64{.6, .5}, High: []float64{.7, .5}}, rank.ErrBox},
		{rank.Box{Low: []float64{.1, .1}, High: []float64{.4, .5}}, rank.ErrBox},
		{rank.Box{Low: []float64{.1}, High: []float64{.6, .6}}, rank.ErrLength},
		{rank.Box{Low: []float64{.1, math.NaN()}, High: []float64{.6, .6}}, rank.ErrValue},
		{rank.Box{Low: []float64{.1, .1}, High: []float64{.6, 1.6}}, rank.ErrValue},
		{rank.Box{}, rank.ErrLength},
	} {
		boxes := exactBoxes(options)
		boxes[0] = c.box
		_, _, err := rank.Threats(options, boxes, half)
		require.ErrorIs(t, err, c.want, "%+v", c.box)
	}
	_, _, err := rank.Threats(options, nil, half)
	require.ErrorIs(t, err, rank.ErrLength)
	// An option that cannot win needs no range.
	options = append(options, rank.Option{ID: "out", Excluded: true}, rank.Option{ID: "short", Values: half})
	_, _, err = rank.Threats(options, append(exactBoxes(options[:2]), rank.Box{}, rank.Box{}), half)
	require.NoError(t, err)
}
