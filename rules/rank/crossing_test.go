package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// The published stretches of single weights, the others in proportion: a level
// x beside the rest of the levels is the weight x/(x + rest).
func TestWorkedCaseIntervals(t *testing.T) {
	p := load(t)
	options, levels, sum := workedCase(t, p), make([]float64, 5), 0.0
	for k, row := range p.WorkedCase.Intervals {
		levels[k] = rank.MaxLevel * frac(t, row.Weight)
		sum += levels[k]
	}
	for k, row := range p.WorkedCase.Intervals {
		rest := sum - levels[k]
		for _, end := range []struct {
			weight, to string
			step       float64
		}{{row.Low, row.LowTo, -1}, {row.High, row.HighTo, 1}} {
			level, to, err := rank.Crossing(options, levels, k, end.step)
			require.NoError(t, err)
			require.Equal(t, end.to, to)
			if to != "" {
				require.InDelta(t, frac(t, end.weight), level/(level+rest), 1e-13)
			}
		}
	}
}

func TestCrossingsByHand(t *testing.T) {
	crossing := func(values [][]float64, levels []float64, p int, step float64) (float64, string) {
		level, to, err := rank.Crossing(asOptions(values), levels, p, step)
		require.NoError(t, err)
		return level, to
	}
	values := [][]float64{{.9, .2}, {.3, .6}}
	for _, c := range []struct {
		what   string
		values [][]float64
		levels []float64
		p      int
		step   float64
		want   float64
		to     string
	}{
		{"lead 3 x 0.6 - x 0.4", values, []float64{3, 2}, 1, 1, 4.5, "o1"},
		{"lead x 0.6 - 2 x 0.4", values, []float64{3, 2}, 0, -1, 4.0 / 3, "o1"},
		{"the lead grows", values, []float64{3, 2}, 1, -1, 0, ""},
		{"gone only past the highest level", values, []float64{5, 2}, 1, 1, 5, ""},
		{"from nothing preferred, one level above 0 decides alone", values, []float64{0, 0}, 1, 1, 0, "o1"},
		{"level now, worse one way", [][]float64{{1, 0}, {0, 1}}, []float64{2, 2}, 0, -1, 2, "o1"},
		{"two draw level at one point: the steeper, last", [][]float64{{.4, .6}, {.6, .4}, {.8, .2}}, []float64{1, 4}, 0, 1, 4, "o2"},
		{"two draw level at one point: the steeper, first", [][]float64{{.4, .6}, {.8, .2}, {.6, .4}}, []float64{1, 4}, 0, 1, 4, "o1"},
		{"no rival", values[:1], []float64{1, 2}, 0, 1, 5, ""},
	} {
		level, to := crossing(c.values, c.levels, c.p, c.step)
		require.InDelta(t, c.want, level, 1e-12, c.what)
		require.Equal(t, c.to, to, c.what)
	}
	// A short option cannot take over, however good.
	short := append(asOptions(values), rank.Option{ID: "short", Values: []float64{1, 1}})
	_, to, err := rank.Crossing(short, []float64{3, 2}, 1, 1)
	require.NoError(t, err)
	require.Equal(t, "o1", to)
}

// Just before a crossing the winner stands and just past it the one named has
// taken over; where none is named the winner stands to the end of the levels.
func TestCrossingsCross(t *testing.T) {
	rng := seeded(11)
	const hair = 1e-6
	crossed, stood := 0, 0
	for range 250 {
		n := 2 + rng.IntN(4)
		options, levels := randomOptions(rng, 2+rng.IntN(4), n, 0), randomLevels(rng, n)
		for p := range levels {
			at := func(x float64) string {
				moved := slices.Clone(levels)
				moved[p] = math.Min(math.Max(x, 0), rank.MaxLevel)
				w, err := rank.PriorityWeights(moved)
				require.NoError(t, err)
				return winner(t, options, w)
			}
			rest := slices.Max(slices.Concat(levels[:p], levels[p+1:]))
			for _, step := range []float64{1, -1} {
				level, to, err := rank.Crossing(options, levels, p, step)
				require.NoError(t, err)
				if rest == 0 {
					continue // alone, any level weighs everything: tried by hand above
				}
				require.Equal(t, at(levels[p]), at(level-step*hair))
				if to == "" {
					stood++
					continue
				}
				crossed++
				require.Equal(t, to, at(level+step*hair))
			}
		}
	}
	require.Greater(t, min(crossed, stood), 100)
}

// With values in tenths ties stand where rounding puts them: a crossing must
// still not lie behind the level it is looked for from.
func TestACrossingIsNeverBehind(t *testing.T) {
	rng := seeded(28)
	for range 2000 {
		options, levels := randomOptions(rng, 5, 4, 10), randomLevels(rng, 4)
		for p, now := range levels {
			for _, step := range []float64{1, -1} {
				level, _, err := rank.Crossing(options, levels, p, step)
				require.NoError(t, err)
				require.GreaterOrEqual(t, (level-now)*step, 0.0, "%v, priority %d", levels, p)
			}
		}
	}
}
