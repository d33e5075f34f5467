package rank_test

import (
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

func TestRobustWinnerExamples(t *testing.T) {
	half := []float64{.5, .5}
	options := asOptions([][]float64{{.8, .6}, {.6, .6}, {.2, .2}}) // 70, 60, 20
	boxes := exactBoxes(options)
	r, err := rank.RobustWinner(options, boxes, half)
	require.NoError(t, err)
	require.True(t, r.Holds() && r.HoldsAlone())
	require.Equal(t, "o0", r.Winner)

	boxes[0].Low[0] = .7   // 65: holds against 60
	boxes[1].High[1] = .72 // 66: holds against 70, but not against 65
	r, err = rank.RobustWinner(options, boxes, half)
	require.NoError(t, err)
	require.False(t, r.Holds())
	require.True(t, r.HoldsAlone())
	require.Len(t, r.Threats, 1)
	require.Equal(t, "o1", r.Threats[0].ID)
	require.InDelta(t, -1, r.Threats[0].WorstLeadPoints, 1e-12)

	boxes[1].High[1] = 1 // 80: passes 70 alone
	r, err = rank.RobustWinner(options, boxes, half)
	require.NoError(t, err)
	require.False(t, r.HoldsAlone())

	// A tie in the worst corner goes to the cheaper, as it would in Rank.
	boxes = exactBoxes(options)
	boxes[0].Low[0] = .6
	for cost, holds := range map[int64]bool{1: true, -1: false} {
		options[1].CostCents = cost
		r, err = rank.RobustWinner(options, boxes, half)
		require.NoError(t, err)
		require.Equal(t, holds, r.Holds())
	}
}

// Against ranking every combination of ends: scores are linear, so no inner
// point of a box can do what no corner does.
func TestRobustWinnerAgainstEveryCorner(t *testing.T) {
	rng := seeded(22)
	const n, m = 2, 3
	seen := map[bool]int{}
	for i := range 120 {
		options, weights := randomOptions(rng, m, n, 5*(i%2)), randomWeights(t, rng, n)
		boxes := exactBoxes(options)
		for j, o := range options {
			for k, v := range o.Values {
				boxes[j].Low[k] = v - .3*v*rng.Float64()
				boxes[j].High[k] = v + .3*(1-v)*rng.Float64()
			}
		}
		best := winner(t, options, weights)
		rivals := map[string]bool{}
		for corner := range 1 << (m * n) {
			at := slices.Clone(options)
			for j := range at {
				at[j].Values = make([]float64, n)
				for k := range n {
					at[j].Values[k] = boxes[j].Low[k]
					if corner>>(j*n+k)&1 == 1 {
						at[j].Values[k] = boxes[j].High[k]
					}
				}
			}
			r, err := rank.Rank(at, weights)
			require.NoError(t, err)
			for _, id := range ids(r) {
				if id == best {
					break
				}
				rivals[id] = true
			}
		}
		got, err := rank.RobustWinner(options, boxes, weights)
		require.NoError(t, err)
		require.Equal(t, best, got.Winner)
		require.Equal(t, len(rivals) == 0, got.Holds())
		for _, threat := range got.Threats {
			require.True(t, rivals[threat.ID])
			delete(rivals, threat.ID)
		}
		require.Empty(t, rivals)
		seen[got.Holds()]++
	}
	require.Greater(t, min(seen[true], seen[false]), 10, "both answers must occur")
}

func TestHoldsAloneMovesOneOption(t *testing.T) {
	rng := seeded(23)
	for range 100 {
		options, weights := randomOptions(rng, 4, 3, 0), randomWeights(t, rng, 3)
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
		got, err := rank.RobustWinner(options, boxes, weights)
		require.NoError(t, err)
		require.Equal(t, holds, got.HoldsAlone())
	}
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
		{rank.Box{Low: []float64{.1, nan()}, High: []float64{.6, .6}}, rank.ErrValue},
		{rank.Box{Low: []float64{.1, .1}, High: []float64{.6, 1.6}}, rank.ErrValue},
		{rank.Box{}, rank.ErrLength},
	} {
		boxes := exactBoxes(options)
		boxes[0] = c.box
		_, err := rank.RobustWinner(options, boxes, half)
		require.ErrorIs(t, err, c.want, "%+v", c.box)
	}
	_, err := rank.RobustWinner(options, nil, half)
	require.ErrorIs(t, err, rank.ErrLength)
	// An option that cannot win needs no range.
	options = append(options, rank.Option{ID: "out", Excluded: true}, rank.Option{ID: "short", Values: half})
	_, err = rank.RobustWinner(options, append(exactBoxes(options[:2]), rank.Box{}, rank.Box{}), half)
	require.NoError(t, err)
}
