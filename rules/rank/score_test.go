package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// textbook gives the office-location case and its published weights.
func textbook(t *testing.T, p published) ([]rank.Option, []float64) {
	t.Helper()
	var options []rank.Option
	for _, row := range p.Textbook.Options {
		o := rank.Option{ID: row.ID, MeetsTarget: true}
		for _, v := range row.ValuesOf100 {
			o.Values = append(o.Values, v/100)
		}
		options = append(options, o)
	}
	return options, proportional(p.Textbook.WeightsPercent)
}

func TestTextbookScores(t *testing.T) {
	p := load(t)
	options, weights := textbook(t, p)
	for i, row := range p.Textbook.Options {
		points, parts, err := rank.Score(weights, options[i].Values)
		require.NoError(t, err)
		require.InDelta(t, row.Total, points, 0.05, "%s, as printed (%s)", row.ID, row.Mark)
		for k, w := range p.Textbook.WeightsPercent {
			require.InDelta(t, w*row.ValuesOf100[k]/100, parts[k], 1e-12)
		}
	}
	require.Equal(t, "A", winner(t, options, weights))
	for k, w := range proportional(p.Textbook.RawSwings) {
		require.InDelta(t, p.Textbook.WeightsPercent[k], 100*w, 0.7, "printed after rounding to add up to 100")
	}
}

// Of three weights moved together the winner of the book leads above its
// crossover and the rival below it. The book moves the unrounded weights: with
// the rounded 32, 26 .. the crossover would be 52.2 %.
func TestTextbookCrossover(t *testing.T) {
	p := load(t)
	options, _ := textbook(t, p)
	row, weights := p.Textbook.Group, proportional(p.Textbook.RawSwings)
	moved := func(at float64) []float64 {
		now, out := 0.0, slices.Clone(weights)
		for _, k := range row.Members {
			now += weights[k]
		}
		for k := range out {
			if slices.Contains(row.Members, k) {
				out[k] *= at / now
			} else {
				out[k] *= (1 - at) / (1 - now)
			}
		}
		return out
	}
	at := frac(t, row.WinnerLeadsAbove)
	require.InDelta(t, row.CrossoverPercent, 100*at, 0.05, "as printed")
	require.Equal(t, row.Winner, winner(t, options, moved(at+1e-9)))
	require.Equal(t, row.Winner, winner(t, options, moved(1)))
	require.Equal(t, row.Rival, winner(t, options, moved(at-1e-9)))
	for _, c := range []struct {
		at, want float64
	}{{0, frac(t, row.RivalAllOutside)}, {1, frac(t, row.RivalAllInside)}} {
		points, _, err := rank.Score(moved(c.at), options[4].Values)
		require.NoError(t, err)
		require.InDelta(t, c.want, points, 1e-10)
	}
}

func TestWorkedCaseCentroidScores(t *testing.T) {
	p := load(t)
	var weights []float64
	for _, row := range p.CentroidWeights {
		if row.Priorities == 5 {
			weights = fracs(t, row.Weights)
		}
	}
	for i, o := range workedCase(t, p) {
		points, _, err := rank.Score(weights, o.Values)
		require.NoError(t, err)
		require.InDelta(t, 100*frac(t, p.WorkedCase.CentroidScores[i]), points, 1e-12)
	}
	require.Equal(t, p.WorkedCase.Winner, winner(t, workedCase(t, p), weights))
}

// Scaled by the best and worst of the set, an option that never wins turns the
// order of two others; on fixed scales it cannot.
func TestRankReversal(t *testing.T) {
	row := load(t).Reversal
	weights := fracs(t, row.Weights)
	score := func(ids []string, scale func(k int) rank.Curve) map[string]float64 {
		out := make(map[string]float64)
		for _, id := range ids {
			var values []float64
			for k, raw := range row.RawOf100[id] {
				v, clamped := scale(k).Value(raw)
				require.False(t, clamped)
				values = append(values, v)
			}
			points, _, err := rank.Score(weights, values)
			require.NoError(t, err)
			out[id] = points / 100
		}
		return out
	}
	ofSet := func(ids []string) func(k int) rank.Curve {
		return func(k int) rank.Curve {
			best, worst := math.Inf(-1), math.Inf(1)
			for _, id := range ids {
				best = math.Max(best, row.RawOf100[id][k])
				worst = math.Min(worst, row.RawOf100[id][k])
			}
			return straight(best, worst)
		}
	}
	fixed := func(int) rank.Curve { return straight(100, 0) }
	few, all := []string{"A", "B", "C"}, []string{"A", "B", "C", row.Added}
	same := func(want map[string]string, got map[string]float64) {
		for id, x := range got {
			require.InDelta(t, frac(t, want[id]), x, 1e-14, id)
		}
	}
	same(row.MinMaxBefore, score(few, ofSet(few)))
	same(row.MinMaxAfter, score(all, ofSet(all)))
	same(row.FixedScale, score(few, fixed))
	same(row.FixedScale, score(all, fixed))
	before, after := score(few, ofSet(few)), score(all, ofSet(all))
	require.True(t, before["B"] > before["A"] && after["A"] > after["B"], "the counter-example must turn")
}

func TestPartsAddUp(t *testing.T) {
	rng := seeded(3)
	for range 500 {
		n := 1 + rng.IntN(7)
		points, parts, err := rank.Score(randomWeights(rng, n), randomOptions(rng, 1, n, 0)[0].Values)
		require.NoError(t, err)
		sum := 0.0
		for _, x := range parts {
			sum += x
		}
		require.Equal(t, points, sum, "exactly, not within a tolerance")
		require.True(t, points >= 0 && points <= 100+1e-9)

		score, tenths, err := rank.RoundParts(parts)
		require.NoError(t, err)
		require.InDelta(t, points, score.Points(), 0.05+1e-9)
		whole := rank.Tenths(0)
		for k, x := range tenths {
			whole += x
			require.Less(t, math.Abs(x.Points()-parts[k]), 0.1)
		}
		require.Equal(t, score, whole)
	}
}

func TestAboutEqual(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		want bool
	}{{70, 65.1, true}, {65.1, 70, true}, {70, 65, false}, {70, 60, false}, {0.3, 5.3, false}, {5, 5, true}} {
		require.Equal(t, c.want, rank.AboutEqual(c.a, c.b, 5), "%v and %v", c.a, c.b)
	}
}

func TestRefusedScores(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		weights, values []float64
		want            error
	}{
		{nil, nil, rank.ErrEmpty},
		{[]float64{1}, []float64{1, 1}, rank.ErrLength},
		{[]float64{.5, .6}, []float64{1, 1}, rank.ErrWeight},
		{[]float64{1.5, -.5}, []float64{1, 1}, rank.ErrWeight},
		{[]float64{nan, 1}, []float64{1, 1}, rank.ErrWeight},
		{[]float64{inf, 0}, []float64{1, 1}, rank.ErrWeight},
		{[]float64{1}, []float64{1.01}, rank.ErrValue},
		{[]float64{1}, []float64{-1}, rank.ErrValue},
		{[]float64{1}, []float64{nan}, rank.ErrValue},
		{[]float64{1}, []float64{inf}, rank.ErrValue},
	} {
		_, _, err := rank.Score(c.weights, c.values)
		require.ErrorIs(t, err, c.want, "%+v", c)
	}
}
