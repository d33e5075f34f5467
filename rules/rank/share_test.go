package rank_test

import (
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func shares(t testing.TB, options []rank.Option, region rank.Region) []float64 {
	t.Helper()
	got, err := rank.Shares(options, region, 0)
	require.NoError(t, err)
	var out []float64
	for _, s := range got {
		out = append(out, s.Share)
	}
	return out
}

func anyWeights(t testing.TB, n int) rank.Region {
	t.Helper()
	r, err := rank.AnyWeights(n)
	require.NoError(t, err)
	return r
}

func inOrder(t testing.TB, levels ...float64) rank.Region {
	t.Helper()
	r, err := rank.InOrder(levels)
	require.NoError(t, err)
	return r
}

func TestWorkedCaseShares(t *testing.T) {
	p := load(t)
	options := workedCase(t, p)
	for _, c := range []struct {
		region rank.Region
		rows   []shareRow
	}{{anyWeights(t, 5), p.WorkedCase.SharesAny}, {inOrder(t, 5, 4, 3, 2, 1), p.WorkedCase.SharesInOrder}} {
		got, err := rank.Shares(options, c.region, 0)
		require.NoError(t, err)
		require.Len(t, got, len(c.rows))
		for i, row := range c.rows {
			require.Equal(t, options[i].ID, got[i].ID)
			require.InDelta(t, frac(t, row.Share), got[i].Share, 1e-14)
			require.InDeltaSlice(t, row.Central, got[i].Central, 1e-9)
		}
	}
	wins, err := rank.RoundTo100(shares(t, options, inOrder(t, 5, 4, 3, 2, 1)))
	require.NoError(t, err)
	for i, o := range options {
		if want, ok := p.WorkedCase.WinsOf100[o.ID]; ok {
			require.Equal(t, want, wins[i])
		}
	}
	word, err := rank.StrengthOf(wins[2], false)
	require.NoError(t, err)
	require.Equal(t, p.WorkedCase.Word, word.String())
}

// Each of n options best at one priority and worst at the rest wins 1/n.
func TestSharesOfTheIdentity(t *testing.T) {
	for n := 2; n <= 6; n++ {
		values := make([][]float64, n)
		for i := range values {
			values[i] = make([]float64, n)
			values[i][i] = 1
		}
		for _, s := range shares(t, asOptions(values), anyWeights(t, n)) {
			require.InDelta(t, 1/float64(n), s, 1e-13, "n=%d", n)
		}
	}
}

func TestSharesInClosedForm(t *testing.T) {
	p := load(t)
	for _, row := range p.TwoPriorities {
		var values [][]float64
		for _, v := range row.Values {
			values = append(values, fracs(t, v))
		}
		require.InDeltaSlice(t, fracs(t, row.Shares), shares(t, asOptions(values), anyWeights(t, 2)), 1e-14)
	}
	for _, row := range p.HalfSimplex {
		a, b := make([]float64, len(row.Differences)), make([]float64, len(row.Differences))
		for k, d := range row.Differences {
			a[k], b[k] = 0.5+d/200, 0.5-d/200
		}
		got := shares(t, asOptions([][]float64{a, b}), anyWeights(t, len(a)))
		require.InDelta(t, frac(t, row.Share), got[0], 1e-13, "%v", row.Differences)
		require.InDelta(t, halfSimplex(row.Differences), got[0], 1e-12)
	}
	rng := seeded(13)
	for range 200 {
		options := randomOptions(rng, 2, 2+rng.IntN(5), 0)
		var d []float64
		for k, v := range options[0].Values {
			d = append(d, v-options[1].Values[k])
		}
		got := shares(t, options, anyWeights(t, len(d)))
		require.InDelta(t, halfSimplex(d), got[0], 1e-7, "%v", d)
	}
}

// halfSimplex is the closed form for one option against another: the sum over
// positive d_i of d_i^(n-1) / prod over j of (d_i - d_j), for distinct d_i. Its
// terms cancel when two d_i come close, hence the wide tolerance above.
func halfSimplex(d []float64) float64 {
	sum := 0.0
	for i, x := range d {
		if x <= 0 {
			continue
		}
		term := 1.0
		for j, y := range d {
			if j != i {
				term *= x / (x - y)
			}
		}
		sum += term
	}
	return sum
}

// regions gives one of each kind: any, in order, ties first, inside and last,
// a priority that does not matter.
func regions(t *testing.T) map[string]rank.Region {
	return map[string]rank.Region{
		"any": anyWeights(t, 5), "order": inOrder(t, 3, 5, 1, 4, 2), "tie first": inOrder(t, 5, 5, 5, 2, 1),
		"tie inside": inOrder(t, 5, 3, 3, 3, 1), "tie last": inOrder(t, 5, 4, 2, 2, 2), "two ties": inOrder(t, 1, 4, 4, 1, 1),
		"without one": inOrder(t, 2, 0, 2, 1, 5), "one alone": inOrder(t, 0, 0, 3, 0, 0), "nothing": inOrder(t, 0, 0, 0, 0, 0),
	}
}

// The two proofs that no piece is lost or counted twice: the shares add up to
// 1, and share times central weighting adds up to the centre of the region.
func TestSharesAddUpToTheWholeRegion(t *testing.T) {
	rng := seeded(14)
	for name, region := range regions(t) {
		for i := range 12 {
			options := randomOptions(rng, 1+rng.IntN(6), 5, 4*(i%3))
			got, err := rank.Shares(options, region, 0)
			require.NoError(t, err)
			sum, centre := 0.0, make([]float64, 5)
			for _, s := range got {
				sum += s.Share
				for k, w := range s.Central {
					centre[k] += s.Share * w
				}
			}
			require.InDelta(t, 1, sum, 1e-11, name)
			require.InDeltaSlice(t, region.Centre(), centre, 1e-11, name)
		}
	}
}

func TestCentreIsTheCentroidWeighting(t *testing.T) {
	rng := seeded(15)
	for range 60 {
		levels := randomLevels(rng, 1+rng.IntN(6))
		o, err := rank.OrderOf(levels)
		require.NoError(t, err)
		want, err := o.Weights(len(levels))
		require.NoError(t, err)
		require.InDeltaSlice(t, want, inOrder(t, levels...).Centre(), 1e-14, "%v", levels)
	}
}

// A tie is every way to break it: the share is the mean over those.
func TestTiedSharesAreTheMeanOfTheOrders(t *testing.T) {
	rng := seeded(16)
	for range 5 {
		options := randomOptions(rng, 4, 4, 0)
		want := make([]float64, 4)
		broken := [][]float64{{5, 4, 3, 2}, {5, 3, 4, 2}, {5, 4, 2, 3}, {5, 2, 4, 3}, {5, 3, 2, 4}, {5, 2, 3, 4}}
		for _, levels := range broken {
			for i, s := range shares(t, options, inOrder(t, levels...)) {
				want[i] += s / float64(len(broken))
			}
		}
		require.InDeltaSlice(t, want, shares(t, options, inOrder(t, 5, 3, 3, 3)), 1e-12)
		first := make([]float64, 4)
		for _, levels := range [][]float64{{5, 4, 3, 2}, {4, 5, 3, 2}} {
			for i, s := range shares(t, options, inOrder(t, levels...)) {
				first[i] += s / 2
			}
		}
		require.InDeltaSlice(t, first, shares(t, options, inOrder(t, 4, 4, 3, 2)), 1e-12)
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
	got, err := rank.Shares(options, anyWeights(t, 2), 0)
	require.NoError(t, err)
	require.Len(t, got, 4, "only options of the winner's tier")
	for i, want := range []float64{.3, .35, .35, 0} {
		require.InDelta(t, want, got[i].Share, 1e-14)
	}
	require.Nil(t, got[3].Central)
	require.InDeltaSlice(t, []float64{.85, .15}, got[0].Central, 1e-14)
	// A difference that is only rounding (0.1 + 0.2 against 0.3) tells no one apart.
	options = asOptions([][]float64{{0.30000000000000004, .5}, {.3, .5}})
	require.Equal(t, []float64{.5, .5}, shares(t, options, anyWeights(t, 2)))
	// Two that differ only where nothing weighs are twins as well.
	options = asOptions([][]float64{{.5, .5, 0}, {.5, .5, 1}})
	require.Equal(t, []float64{.5, .5}, shares(t, options, inOrder(t, 2, 1, 0)))
	require.InDeltaSlice(t, []float64{0, 1}, shares(t, options, inOrder(t, 3, 2, 1)), 1e-14)
}

func TestPermutingPermutesTheShares(t *testing.T) {
	rng := seeded(17)
	for range 30 {
		options := randomOptions(rng, 5, 4, 0)
		want := shares(t, options, anyWeights(t, 4))
		byOption, byPriority := rng.Perm(5), rng.Perm(4)
		var shuffled []rank.Option
		var expected []float64
		for _, i := range byOption {
			o := rank.Option{ID: options[i].ID, MeetsTarget: true}
			for _, k := range byPriority {
				o.Values = append(o.Values, options[i].Values[k])
			}
			shuffled, expected = append(shuffled, o), append(expected, want[i])
		}
		require.InDeltaSlice(t, expected, shares(t, shuffled, anyWeights(t, 4)), 1e-12)
	}
}

func TestBeatenOptionsChangeNoShare(t *testing.T) {
	rng := seeded(18)
	for range 20 {
		options := randomOptions(rng, 4, 4, 0)
		want := shares(t, options, anyWeights(t, 4))
		worse := rank.Option{ID: "worse", MeetsTarget: true, Values: slices.Clone(options[2].Values)}
		for k := range worse.Values {
			worse.Values[k] *= rng.Float64()
		}
		got := shares(t, append(options, worse), anyWeights(t, 4))
		require.InDeltaSlice(t, append(want, 0), got, 1e-12)
	}
}

func TestSharesCapAndLimits(t *testing.T) {
	options := workedCase(t, load(t))
	_, err := rank.Shares(options, anyWeights(t, 5), 20)
	require.ErrorIs(t, err, rank.ErrPieces)
	require.ErrorContains(t, err, "20")
	_, err = rank.Shares(options, anyWeights(t, 4), 0)
	require.ErrorIs(t, err, rank.ErrLength)
	_, err = rank.Shares(options, rank.Region{}, 0)
	require.ErrorIs(t, err, rank.ErrLength)
	require.Nil(t, rank.Region{}.Centre())
	for n, want := range map[int]error{-1: rank.ErrEmpty, 0: rank.ErrEmpty, 9: rank.ErrTooMany, 1 << 40: rank.ErrTooMany} {
		_, err := rank.AnyWeights(n)
		require.ErrorIs(t, err, want, "n=%d", n)
	}
	_, err = rank.InOrder([]float64{1, -1})
	require.ErrorIs(t, err, rank.ErrLevel)
	_, err = rank.InOrder([]float64{1, 1, 1, 1, 2, 2, 2, 2, 2})
	require.ErrorIs(t, err, rank.ErrTooMany)
	_, err = rank.Order{{0}, {0}}.Region(2)
	require.ErrorIs(t, err, rank.ErrOrder)
	_, err = rank.Order{{}}.Region(2)
	require.ErrorIs(t, err, rank.ErrEmpty)
	// An empty place in an order is no place.
	r, err := rank.Order{{}, {1}, {}, {0}}.Region(2)
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{.25, .75}, r.Centre(), 1e-15)
	require.InDelta(t, 1, shares(t, asOptions([][]float64{{.2}, {.7}}), anyWeights(t, 1))[1], 0)
}
