package rank_test

import (
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// near is three standard errors of a share counted in 4,000 draws: 3 x
// sqrt(0.5 x 0.5/4000).
const near = 0.024

func shares(t testing.TB, options []rank.Option, levels ...float64) []float64 {
	t.Helper()
	got, err := rank.Shares(options, levels)
	require.NoError(t, err)
	var out []float64
	for i, s := range got {
		require.Equal(t, options[i].ID, s.ID)
		out = append(out, s.Share)
	}
	return out
}

func falling(n int) []float64 {
	levels := make([]float64, n)
	for k := range levels {
		levels[k] = rank.MaxLevel - float64(k)/2
	}
	return levels
}

// The mean of all weightings that keep an order is its rank-order-centroid
// weighting, which is published; what is tied shares the mean of its places.
func TestDrawnWeightingsMeanTheCentroid(t *testing.T) {
	p := load(t)
	mean := func(levels []float64) []float64 {
		out := make([]float64, len(levels))
		drawn := rank.Drawn(levels)
		for _, w := range drawn {
			for k, x := range w {
				out[k] += x / float64(len(drawn))
			}
		}
		return out
	}
	// No weight varies more than one spread evenly over a half of 0 to 1, whose
	// standard deviation is 0.5/sqrt(12): three errors of its mean are 0.007.
	const nearMean = 0.007
	require.Len(t, p.CentroidWeights, 7)
	for _, row := range p.CentroidWeights {
		require.InDeltaSlice(t, fracs(t, row.Weights), mean(falling(row.Priorities)), nearMean, row.Source)
	}
	for _, row := range p.CentroidDecimals {
		require.InDeltaSlice(t, row.Weights, mean(falling(len(row.Weights))), nearMean+0.005, row.Source)
	}
	for _, row := range p.CentroidTies {
		require.InDeltaSlice(t, fracs(t, row.Weights), mean(row.Levels), nearMean, row.Source)
	}
}

func TestDrawnWeightingsKeepTheOrder(t *testing.T) {
	for _, levels := range [][]float64{
		{3, 5, 1, 4, 2}, {5, 5, 5, 2, 1}, {5, 3, 3, 3, 1}, {1, 4, 4, 1, 1}, {2, 0, 2, 1, 5}, {0, 0, 3, 0, 0}, {2.5, 2.25},
	} {
		for _, w := range rank.Drawn(levels) {
			sum := 0.0
			for k, x := range w {
				sum += x
				require.False(t, levels[k] == 0 && x != 0, "%v at %v", w, levels)
				for j := range w {
					require.False(t, levels[k] > levels[j] && x < w[j], "%v at %v", w, levels)
				}
			}
			require.InDelta(t, 1, sum, 1e-12)
		}
	}
	// Nothing preferred is the same as all preferred alike.
	require.Equal(t, rank.Drawn([]float64{4, 4, 4}), rank.Drawn([]float64{0, 0, 0}))
}

func TestWorkedCaseShares(t *testing.T) {
	p := load(t)
	options := workedCase(t, p)
	for _, c := range []struct {
		levels []float64
		rows   []shareRow
	}{{[]float64{3, 3, 3, 3, 3}, p.WorkedCase.SharesAny}, {[]float64{5, 4, 3, 2, 1}, p.WorkedCase.SharesInOrder}} {
		got := shares(t, options, c.levels...)
		require.Len(t, got, len(c.rows))
		for i, row := range c.rows {
			require.InDelta(t, frac(t, row.Share), got[i], near)
		}
	}
	wins, err := rank.RoundTo100(shares(t, options, 5, 4, 3, 2, 1))
	require.NoError(t, err)
	for i, o := range options {
		if want, ok := p.WorkedCase.WinsOf100[o.ID]; ok {
			require.InDelta(t, want, wins[i], 100*near)
		}
	}
	word, err := rank.StrengthOf(wins[2], false)
	require.NoError(t, err)
	require.Equal(t, p.WorkedCase.Word, word.String())
}

func TestSharesInClosedForm(t *testing.T) {
	p := load(t)
	for _, row := range p.TwoPriorities {
		var values [][]float64
		for _, v := range row.Values {
			values = append(values, fracs(t, v))
		}
		require.InDeltaSlice(t, fracs(t, row.Shares), shares(t, asOptions(values), 1, 1), near)
	}
	for _, row := range p.HalfSimplex {
		a, b := make([]float64, len(row.Differences)), make([]float64, len(row.Differences))
		for k, d := range row.Differences {
			a[k], b[k] = 0.5+d/200, 0.5-d/200
		}
		got := shares(t, asOptions([][]float64{a, b}), make([]float64, len(a))...)
		require.InDelta(t, frac(t, row.Share), got[0], near, "%v", row.Differences)
	}
	// By hand: the first weighs w, from 1/2 to 1, and a leads b where
	// 0.3 w > 0.7 (1-w), so from 0.7 to 1, which is 3 parts of 5.
	two := asOptions([][]float64{{.7, .2}, {.4, .9}})
	require.InDeltaSlice(t, []float64{.6, .4}, shares(t, two, 5, 3), near)
	// The other way round from 0 to 1/2: b leads throughout.
	require.InDeltaSlice(t, []float64{0, 1}, shares(t, two, 3, 5), 1e-9)
	// Only the first weighs anything.
	require.InDeltaSlice(t, []float64{1, 0}, shares(t, two, 1, 0), 1e-9)
}

// Each of n options best at one priority and worst at the rest wins 1/n.
func TestAlikeOptionsShareAlike(t *testing.T) {
	for n := 1; n <= 6; n++ {
		values, levels := make([][]float64, n), make([]float64, n)
		for i := range values {
			values[i] = make([]float64, n)
			values[i][i], levels[i] = 1, 2
		}
		for _, s := range shares(t, asOptions(values), levels...) {
			require.InDelta(t, 1/float64(n), s, near, "n=%d", n)
		}
	}
}

func TestSharesOfTwinsTheBeatenAndTheTiers(t *testing.T) {
	v := func(x ...float64) []float64 { return x }
	options := []rank.Option{
		{ID: "left", Values: v(.7, .2), MeetsTarget: true},
		{ID: "right", Values: v(.4, .9), MeetsTarget: true},
		{ID: "right again", Values: v(.4, .9), MeetsTarget: true},
		{ID: "beaten", Values: v(.3, .8), MeetsTarget: true},
		{ID: "short", Values: v(1, 1)},
		{ID: "out", Excluded: true},
	}
	got := shares(t, options, 2, 2)
	require.Len(t, got, 4, "only options of the winner's tier")
	require.InDeltaSlice(t, []float64{.3, .35, .35, 0}, got, near)
	require.Equal(t, got[1], got[2], "twins share evenly")
	require.Zero(t, got[3], "what another beats under every priority never wins")
	// A difference that is only rounding (0.1 + 0.2 against 0.3) tells no one apart.
	require.InDeltaSlice(t, v(.5, .5), shares(t, asOptions([][]float64{{0.30000000000000004, .5}, {.3, .5}}), 1, 1), 1e-9)
	// Two that differ only where nothing weighs are twins as well.
	options = asOptions([][]float64{{.5, .5, 0}, {.5, .5, 1}})
	require.InDeltaSlice(t, v(.5, .5), shares(t, options, 2, 1, 0), 1e-9)
	require.InDeltaSlice(t, v(0, 1), shares(t, options, 3, 2, 1), 1e-9)
}

func TestSharesAddUpAndStay(t *testing.T) {
	rng := seeded(14)
	for i := range 60 {
		n := 1 + rng.IntN(6)
		options, levels := randomOptions(rng, 1+rng.IntN(6), n, 4*(i%3)), randomLevels(rng, n)
		got := shares(t, options, levels...)
		sum := 0.0
		for _, s := range got {
			sum += s
		}
		require.InDelta(t, 1, sum, 1e-9)
		require.Equal(t, got, shares(t, options, levels...), "the same every time")
		slices.Reverse(options)
		slices.Reverse(got)
		require.InDeltaSlice(t, got, shares(t, options, levels...), 1e-9, "whatever the order of the options")
	}
}
