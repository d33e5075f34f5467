package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestRankTiersTiesAndExclusions(t *testing.T) {
	one := []float64{1}
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
	r, err := rank.Rank(options, one)
	require.NoError(t, err)
	require.Equal(t, []string{"best", "c", "a", "b", "short but best", "short"}, ids(r))
	require.Equal(t, []string{"also out", "out"}, []string{r.Excluded[0].ID, r.Excluded[1].ID})
	require.Len(t, r.Excluded, 2)
	for i, want := range []float64{0, 40, 40, 40, 0, 80} {
		require.Equal(t, i+1, r.Ranked[i].Place)
		require.InDelta(t, want, r.Ranked[i].BehindPoints, 1e-12)
	}
	second, ok := r.RunnerUp()
	require.True(t, ok)
	require.Equal(t, "c", second.Option.ID)
}

func TestRunnerUpIsOfTheWinnersTier(t *testing.T) {
	r, err := rank.Rank([]rank.Option{{ID: "a", Values: []float64{0}, MeetsTarget: true}, {ID: "b", Values: []float64{1}}}, []float64{1})
	require.NoError(t, err)
	_, ok := r.RunnerUp()
	require.False(t, ok)
	r, err = rank.Rank([]rank.Option{{ID: "a", Excluded: true}}, []float64{1})
	require.NoError(t, err)
	_, ok = r.Winner()
	require.False(t, ok)
}

// Options that do not win can come and go without touching the rest.
func TestOtherOptionsDoNotMatter(t *testing.T) {
	rng := seeded(4)
	for i := range 200 {
		options, weights := randomOptions(rng, 6, 4, 4*(i%2)), randomWeights(t, rng, 4)
		for j := range options {
			options[j].MeetsTarget = rng.IntN(3) > 0
		}
		full, err := rank.Rank(options, weights)
		require.NoError(t, err)
		out := full.Ranked[1+rng.IntN(5)].Option.ID
		if i%3 == 0 { // excluding is the same as removing
			options[slices.IndexFunc(options, func(o rank.Option) bool { return o.ID == out })].Excluded = true
		} else {
			options = slices.DeleteFunc(options, func(o rank.Option) bool { return o.ID == out })
		}
		fewer, err := rank.Rank(options, weights)
		require.NoError(t, err)
		want := slices.DeleteFunc(ids(full), func(id string) bool { return id == out })
		require.Equal(t, want, ids(fewer))
	}
}

func TestRaisingAValueNeverLowersTheRank(t *testing.T) {
	rng := seeded(5)
	place := func(options []rank.Option, weights []float64, id string) int {
		r, err := rank.Rank(options, weights)
		require.NoError(t, err)
		return slices.Index(ids(r), id)
	}
	for i := range 300 {
		options, weights := randomOptions(rng, 5, 4, 5*(i%2)), randomWeights(t, rng, 4)
		o := &options[rng.IntN(5)]
		before := place(options, weights, o.ID)
		k := rng.IntN(4)
		o.Values[k] += (1 - o.Values[k]) * rng.Float64()
		require.LessOrEqual(t, place(options, weights, o.ID), before)
	}
}

func TestRankDoesNotSeeTheOrderOfThings(t *testing.T) {
	rng := seeded(6)
	for i := range 200 {
		n := 5
		options, weights := randomOptions(rng, 7, n, 3*(i%2)), randomWeights(t, rng, n)
		if i%4 < 2 {
			weights, _ = rank.EqualWeights(n)
		}
		want, err := rank.Rank(options, weights)
		require.NoError(t, err)
		perm := rng.Perm(n)
		shuffled, moved := slices.Clone(options), make([]float64, n)
		for k, p := range perm {
			moved[k] = weights[p]
		}
		for j, o := range shuffled {
			shuffled[j].Values = make([]float64, n)
			for k, p := range perm {
				shuffled[j].Values[k] = o.Values[p]
			}
		}
		rng.Shuffle(len(shuffled), func(a, b int) { shuffled[a], shuffled[b] = shuffled[b], shuffled[a] })
		got, err := rank.Rank(shuffled, moved)
		require.NoError(t, err)
		require.Equal(t, ids(want), ids(got))
	}
}

// A priority under which all are alike moves every score by the same amount.
func TestAnEqualColumnChangesNothing(t *testing.T) {
	rng := seeded(7)
	for range 100 {
		options, weights := randomOptions(rng, 5, 3, 0), randomWeights(t, rng, 3)
		before, err := rank.Rank(options, weights)
		require.NoError(t, err)
		level, same := rng.Float64(), rng.Float64()
		for j := range options {
			options[j].Values = append(options[j].Values, same)
		}
		for k := range weights {
			weights[k] *= 1 - level
		}
		after, err := rank.Rank(options, append(weights, level))
		require.NoError(t, err)
		require.Equal(t, ids(before), ids(after))
	}
}

func TestDominated(t *testing.T) {
	v := func(x ...float64) []float64 { return x }
	got, err := rank.Dominated([]rank.Option{
		{ID: "even", Values: v(.5, .5), MeetsTarget: true},
		{ID: "twin", Values: v(.5, .5), MeetsTarget: true},
		{ID: "worse", Values: v(.5, .4), MeetsTarget: true},
		{ID: "apart", Values: v(.9, .1), MeetsTarget: true},
		{ID: "strong but short", Values: v(1, 1)},
		{ID: "weak and short", Values: v(.1, .1)},
		{ID: "out", Excluded: true, Values: v(0, 0)},
	})
	require.NoError(t, err)
	require.Equal(t, []string{"worse", "weak and short"}, got)
}

func TestDominatedNeverWins(t *testing.T) {
	rng := seeded(8)
	found := 0
	for range 100 {
		options := randomOptions(rng, 6, 3, 4)
		names, err := rank.Dominated(options)
		require.NoError(t, err)
		found += len(names)
		for range 10 {
			require.NotContains(t, names, winner(t, options, randomWeights(t, rng, 3)))
		}
	}
	require.Positive(t, found)
}

func TestRefusedOptions(t *testing.T) {
	good, nan := rank.Option{ID: "a", Values: []float64{.5, .5}, MeetsTarget: true}, math.NaN()
	half := []float64{.5, .5}
	region, err := rank.AnyWeights(2)
	require.NoError(t, err)
	calls := map[string]func(options []rank.Option) error{
		"rank":      func(o []rank.Option) error { _, err := rank.Rank(o, half); return err },
		"dominated": func(o []rank.Option) error { _, err := rank.Dominated(o); return err },
		"weights":   func(o []rank.Option) error { _, err := rank.WeightSwitches(o, half); return err },
		"group":     func(o []rank.Option) error { _, err := rank.GroupSwitch(o, half, []int{0}); return err },
		"levels":    func(o []rank.Option) error { _, err := rank.LevelSwitches(o, half); return err },
		"shares":    func(o []rank.Option) error { _, err := rank.Shares(o, region, 0); return err },
		"robust": func(o []rank.Option) error {
			_, err := rank.RobustWinner(o, make([]rank.Box, len(o)), half)
			return err
		},
		"explain":   func(o []rank.Option) error { _, err := rank.Explain(o, half, "a", "b"); return err },
		"to weight": func(o []rank.Option) error { _, _, err := rank.WeightToWin(o, half, "a"); return err },
		"to level":  func(o []rank.Option) error { _, _, err := rank.LevelToWin(o, half, "a"); return err },
		"to value":  func(o []rank.Option) error { _, err := rank.ValuesToWin(o, half, "a"); return err },
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
		} {
			require.ErrorIs(t, call(c.options), c.want, "%s of %+v", name, c.options)
		}
		out := call([]rank.Option{{ID: "a", Excluded: true}})
		if name == "rank" || name == "dominated" {
			require.NoError(t, out, name)
		} else {
			require.ErrorIs(t, out, rank.ErrNoContender, name)
		}
	}
}

func TestRefusedWeightsAndNames(t *testing.T) {
	options := randomOptions(seeded(9), 3, 2, 0)
	for _, c := range []struct {
		weights []float64
		want    error
	}{{[]float64{1}, rank.ErrLength}, {[]float64{.5, .6}, rank.ErrWeight}, {[]float64{math.NaN(), 1}, rank.ErrWeight}} {
		_, err := rank.Rank(options, c.weights)
		require.ErrorIs(t, err, c.want)
		_, err = rank.WeightSwitches(options, c.weights)
		require.ErrorIs(t, err, c.want)
		_, err = rank.RobustWinner(options, nil, c.weights)
		require.ErrorIs(t, err, c.want)
	}
	for _, c := range []struct {
		levels []float64
		want   error
	}{{[]float64{1}, rank.ErrLength}, {[]float64{6, 0}, rank.ErrLevel}, {[]float64{math.NaN(), 1}, rank.ErrLevel}} {
		_, err := rank.LevelSwitches(options, c.levels)
		require.ErrorIs(t, err, c.want)
		_, _, err = rank.LevelToWin(options, c.levels, "o0")
		require.ErrorIs(t, err, c.want)
	}
	half := []float64{.5, .5}
	for _, group := range [][]int{nil, {0, 1}, {0, 0}, {2}, {-1}} {
		_, err := rank.GroupSwitch(options, half, group)
		require.ErrorIs(t, err, rank.ErrOrder, "%v", group)
	}
	options[0].MeetsTarget = false
	for _, id := range []string{"", "nobody", "o0"} {
		_, err := rank.Explain(options, half, id, "o1")
		require.ErrorIs(t, err, rank.ErrNotContender)
		_, err = rank.Explain(options, half, "o1", id)
		require.ErrorIs(t, err, rank.ErrNotContender)
		_, _, err = rank.WeightToWin(options, half, id)
		require.ErrorIs(t, err, rank.ErrNotContender)
		_, _, err = rank.LevelToWin(options, half, id)
		require.ErrorIs(t, err, rank.ErrNotContender)
		_, err = rank.ValuesToWin(options, half, id)
		require.ErrorIs(t, err, rank.ErrNotContender)
	}
}
