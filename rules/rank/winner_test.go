package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// Taking the winner away again and again shows the whole order: those that
// meet the target, then by score, then the cheaper, then by id.
func TestWinnerTiersTiesAndExclusions(t *testing.T) {
	options := []rank.Option{
		{ID: "short but best", Values: []float64{1}},
		{ID: "out", Excluded: true}, // excluded before it was ever valued
		{ID: "b", Values: []float64{.5}, MeetsTarget: true, CostCents: 200},
		{ID: "c", Values: []float64{.5}, MeetsTarget: true, CostCents: 100},
		{ID: "a", Values: []float64{.5}, MeetsTarget: true, CostCents: 200},
		{ID: "short", Values: []float64{.2}},
		{ID: "best", Values: []float64{.9}, MeetsTarget: true},
		{ID: "also out", Excluded: true, Values: []float64{math.NaN()}},
	}
	for _, want := range []string{"best", "c", "a", "b", "short but best", "short"} {
		require.Equal(t, want, winner(t, options, []float64{1}))
		options = slices.DeleteFunc(options, func(o rank.Option) bool { return o.ID == want })
	}
	_, err := rank.Winner(options, []float64{1})
	require.ErrorIs(t, err, rank.ErrNoContender)
}

// Options that do not win can come and go without touching the one that does.
func TestOtherOptionsDoNotMatter(t *testing.T) {
	rng := seeded(4)
	for i := range 200 {
		options, weights := randomOptions(rng, 6, 4, 4*(i%2)), randomWeights(rng, 4)
		for j := range options {
			options[j].MeetsTarget = rng.IntN(3) > 0
		}
		best := winner(t, options, weights)
		for j, o := range options {
			fewer := slices.Delete(slices.Clone(options), j, j+1)
			excluded := slices.Clone(options)
			excluded[j].Excluded = true
			require.Equal(t, winner(t, fewer, weights), winner(t, excluded, weights), "excluding is the same as removing")
			if o.ID != best {
				require.Equal(t, best, winner(t, fewer, weights))
			}
		}
	}
}

func TestRaisingAValueKeepsTheWinner(t *testing.T) {
	rng := seeded(5)
	for i := range 300 {
		options, weights := randomOptions(rng, 5, 4, 5*(i%2)), randomWeights(rng, 4)
		best := winner(t, options, weights)
		k := rng.IntN(4)
		for _, o := range options {
			if o.ID == best {
				o.Values[k] += (1 - o.Values[k]) * rng.Float64()
			}
		}
		require.Equal(t, best, winner(t, options, weights))
	}
}

func TestWinnerDoesNotSeeTheOrderOfThings(t *testing.T) {
	rng := seeded(6)
	for i := range 200 {
		const n = 5
		options, weights := randomOptions(rng, 7, n, 3*(i%2)), randomWeights(rng, n)
		if i%4 < 2 {
			weights, _ = rank.EqualWeights(n)
		}
		want := winner(t, options, weights)
		perm, moved := rng.Perm(n), make([]float64, n)
		for k, p := range perm {
			moved[k] = weights[p]
		}
		for j, o := range options {
			options[j].Values = make([]float64, n)
			for k, p := range perm {
				options[j].Values[k] = o.Values[p]
			}
		}
		rng.Shuffle(len(options), func(a, b int) { options[a], options[b] = options[b], options[a] })
		require.Equal(t, want, winner(t, options, moved))
	}
}

// A priority under which all are alike moves every score by the same amount.
func TestAnEqualColumnChangesNothing(t *testing.T) {
	rng := seeded(7)
	for range 100 {
		options, weights := randomOptions(rng, 5, 3, 0), randomWeights(rng, 3)
		before := winner(t, options, weights)
		level, same := rng.Float64(), rng.Float64()
		for j := range options {
			options[j].Values = append(options[j].Values, same)
		}
		for k := range weights {
			weights[k] *= 1 - level
		}
		require.Equal(t, before, winner(t, options, append(weights, level)))
	}
}

func TestRefusedOptions(t *testing.T) {
	good, nan := rank.Option{ID: "a", Values: []float64{.5, .5}, MeetsTarget: true}, math.NaN()
	half := []float64{.5, .5}
	calls := map[string]func(options []rank.Option) error{
		"winner":   func(o []rank.Option) error { _, err := rank.Winner(o, half); return err },
		"crossing": func(o []rank.Option) error { _, _, err := rank.Crossing(o, half, 0, 1); return err },
		"shares":   func(o []rank.Option) error { _, err := rank.Shares(o, half); return err },
		"threats":  func(o []rank.Option) error { _, _, err := rank.Threats(o, make([]rank.Box, len(o)), half); return err },
	}
	for name, call := range calls {
		for _, c := range []struct {
			options []rank.Option
			want    error
		}{
			{nil, rank.ErrEmpty},
			{[]rank.Option{good, {ID: "b"}}, rank.ErrEmpty},
			{[]rank.Option{good, good}, rank.ErrID},
			{[]rank.Option{good, {Values: half}}, rank.ErrID},
			{[]rank.Option{good, {ID: "b", Values: []float64{.5}}}, rank.ErrLength},
			{[]rank.Option{good, {ID: "b", Values: []float64{.5, nan}}}, rank.ErrValue},
			{[]rank.Option{good, {ID: "b", Values: []float64{.5, 1.5}}}, rank.ErrValue},
			{[]rank.Option{{ID: "a", Excluded: true}}, rank.ErrNoContender},
		} {
			require.ErrorIs(t, call(c.options), c.want, "%s of %+v", name, c.options)
		}
	}
}

func TestRefusedWeightsAndLevels(t *testing.T) {
	options := randomOptions(seeded(9), 3, 2, 0)
	for _, c := range []struct {
		weights []float64
		want    error
	}{{[]float64{1}, rank.ErrLength}, {[]float64{.5, .6}, rank.ErrWeight}, {[]float64{math.NaN(), 1}, rank.ErrWeight}} {
		_, err := rank.Winner(options, c.weights)
		require.ErrorIs(t, err, c.want)
		_, _, err = rank.Threats(options, nil, c.weights)
		require.ErrorIs(t, err, c.want)
	}
	for _, c := range []struct {
		levels []float64
		want   error
	}{{[]float64{1}, rank.ErrLength}, {[]float64{6, 0}, rank.ErrLevel}, {[]float64{math.NaN(), 1}, rank.ErrLevel}} {
		_, _, err := rank.Crossing(options, c.levels, 0, 1)
		require.ErrorIs(t, err, c.want)
		_, err = rank.Shares(options, c.levels)
		require.ErrorIs(t, err, c.want)
	}
}
