package rank_test

import (
	"math"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

// moved gives weights with those of the group adding up to t, proportions kept.
func moved(weights []float64, group []int, t float64) []float64 {
	in, now := make(map[int]bool), 0.0
	for _, k := range group {
		in[k], now = true, now+weights[k]
	}
	out := make([]float64, len(weights))
	for k, w := range weights {
		if in[k] {
			out[k] = w / now * t
		} else {
			out[k] = w / (1 - now) * (1 - t)
		}
	}
	return out
}

func TestTextbookCrossover(t *testing.T) {
	p := load(t)
	options, _ := textbook(t, p)
	// The book moves the unrounded weights: with the rounded 32, 26 .. the
	// crossover would be 52.2 %, and the ends 82.6 and 60.6.
	weights, err := rank.Proportional(p.Textbook.RawSwings)
	require.NoError(t, err)
	row := p.Textbook.Group
	s, err := rank.GroupSwitch(options, weights, row.Members)
	require.NoError(t, err)
	require.Equal(t, row.Rival, s.LowTo)
	require.Empty(t, s.HighTo)
	require.InDelta(t, frac(t, row.WinnerLeadsAbove), s.Low, 1e-13)
	require.InDelta(t, row.CrossoverPercent, 100*s.Low, 0.05, "as printed")
	require.InDelta(t, 0.81, s.Weight, 0.005, "as printed")
	require.InDelta(t, 1, s.High, 0)
	for _, c := range []struct {
		at, want float64
	}{{0, frac(t, row.RivalAllOutside)}, {1, frac(t, row.RivalAllInside)}} {
		points, _, err := rank.Score(moved(weights, row.Members, c.at), options[4].Values)
		require.NoError(t, err)
		require.InDelta(t, c.want, points, 1e-10)
	}
	require.Equal(t, row.Winner, winner(t, options, moved(weights, row.Members, s.Low+1e-9)))
	require.Equal(t, row.Rival, winner(t, options, moved(weights, row.Members, s.Low-1e-9)))
}

func TestWorkedCaseIntervals(t *testing.T) {
	p := load(t)
	weights, err := rank.ROC(5)
	require.NoError(t, err)
	got, err := rank.WeightSwitches(workedCase(t, p), weights)
	require.NoError(t, err)
	for k, row := range p.WorkedCase.Intervals {
		require.Equal(t, k, got[k].Priority)
		require.InDelta(t, frac(t, row.Weight), got[k].Weight, 1e-15)
		require.InDelta(t, frac(t, row.Low), got[k].Low, 1e-13)
		require.InDelta(t, frac(t, row.High), got[k].High, 1e-13)
		require.Equal(t, row.LowTo, got[k].LowTo)
		require.Equal(t, row.HighTo, got[k].HighTo)
	}
}

// Every stated end is evaluated just inside and just outside, and an end that
// is not stated is walked to.
func TestWeightSwitchesSwitch(t *testing.T) {
	rng := seeded(10)
	const step = 1e-6
	ends := 0
	for range 150 {
		n := 2 + rng.IntN(4)
		options, weights := randomOptions(rng, 2+rng.IntN(4), n, 0), randomWeights(t, rng, n)
		best := winner(t, options, weights)
		got, err := rank.WeightSwitches(options, weights)
		require.NoError(t, err)
		for k, s := range got {
			require.True(t, s.Low <= s.Weight && s.Weight <= s.High)
			at := func(x float64) string { return winner(t, options, moved(weights, []int{k}, x)) }
			if s.High-s.Low < 4*step || s.Low > 0 && s.Low < step || s.High < 1 && s.High > 1-step {
				continue
			}
			require.Equal(t, best, at(s.Low+step))
			require.Equal(t, best, at(s.High-step))
			require.Equal(t, s.LowTo == "", s.Low == 0)
			require.Equal(t, s.HighTo == "", s.High == 1)
			if s.LowTo != "" {
				require.Equal(t, s.LowTo, at(s.Low-step))
				ends++
			}
			if s.HighTo != "" {
				require.Equal(t, s.HighTo, at(s.High+step))
				ends++
			}
		}
	}
	require.Greater(t, ends, 200)
}

func TestWeightSwitchAtTheEdges(t *testing.T) {
	// A weight of 1 leaves the others without proportions: they count as equal.
	options := asOptions([][]float64{{1, 0, 0}, {0, 1, .2}})
	got, err := rank.WeightSwitches(options, []float64{1, 0, 0})
	require.NoError(t, err)
	require.InDelta(t, .6/1.6, got[0].Low, 1e-15)
	require.Equal(t, "o1", got[0].LowTo)
	// From a weight of 0 upwards: lead 1-t against t.
	require.InDelta(t, .5, got[1].High, 1e-15)
	// One priority always weighs 1, and nothing can move.
	got, err = rank.WeightSwitches(asOptions([][]float64{{.4}, {.6}}), []float64{1})
	require.NoError(t, err)
	require.Equal(t, []rank.WeightSwitch{{Weight: 1, Low: 0, High: 1}}, got)
	// Level now and worse one way: the interval ends where it stands.
	got, err = rank.WeightSwitches(asOptions([][]float64{{1, 0}, {0, 1}}), []float64{.5, .5})
	require.NoError(t, err)
	require.Equal(t, rank.WeightSwitch{Priority: 0, Weight: .5, Low: .5, High: 1, LowTo: "o1"}, got[0])
	// Two rivals that draw level at one point: the steeper is ahead beyond it.
	for _, values := range [][][]float64{{{.4, .6}, {.6, .4}, {.8, .2}}, {{.4, .6}, {.8, .2}, {.6, .4}}} {
		at := asOptions(values)
		steep := winner(t, at, []float64{.9, .1})
		got, err := rank.WeightSwitches(at, []float64{.2, .8})
		require.NoError(t, err)
		require.InDelta(t, .5, got[0].High, 1e-15)
		require.InDelta(t, .5, got[1].Low, 1e-15)
		require.Equal(t, []string{steep, steep}, []string{got[0].HighTo, got[1].LowTo})
	}
	// A short option cannot take over, however good.
	options = append(options, rank.Option{ID: "short", Values: []float64{1, 1, 1}})
	got, err = rank.WeightSwitches(options, []float64{.8, .1, .1})
	require.NoError(t, err)
	for _, s := range got {
		require.NotEqual(t, "short", s.LowTo)
		require.NotEqual(t, "short", s.HighTo)
	}
}

// With values in tenths and weights that are no round binary figures, ties
// stand where rounding puts them; the weight now must still lie inside.
func TestTheWeightNowLiesInItsStretch(t *testing.T) {
	rng := seeded(28)
	for range 2000 {
		levels := randomLevels(rng, 4)
		weights, _, err := rank.PriorityWeights(levels)
		require.NoError(t, err)
		got, err := rank.WeightSwitches(randomOptions(rng, 5, 4, 10), weights)
		require.NoError(t, err)
		for k, s := range got {
			require.Equal(t, weights[k], s.Weight)
			require.True(t, s.Low <= s.Weight && s.Weight <= s.High, "%+v", s)
		}
	}
}

// levelWinner is the oracle for level switches: it ranks, nothing else.
func levelWinner(t *testing.T, options []rank.Option, levels []float64, p int, x float64) string {
	t.Helper()
	at := append([]float64(nil), levels...)
	at[p] = x
	w, _, err := rank.PriorityWeights(at)
	require.NoError(t, err)
	return winner(t, options, w)
}

func TestLevelSwitchesSwitch(t *testing.T) {
	rng := seeded(11)
	const step = 1e-6
	changes := 0
	for i := range 250 {
		n := 2 + rng.IntN(4)
		options := randomOptions(rng, 2+rng.IntN(4), n, 4*(i%2)) // every other one full of ties
		levels := randomLevels(rng, n)
		for p := range levels { // levels need not be whole
			if i%3 == 0 && levels[p] < rank.MaxLevel {
				levels[p] += float64(rng.IntN(4)) / 4
			}
		}
		got, err := rank.LevelSwitches(options, levels)
		require.NoError(t, err)
		for p, s := range got {
			at := func(x float64) string { return levelWinner(t, options, levels, p, x) }
			best := at(levels[p])
			checkWhole(t, s, best, at)
			for _, c := range []*rank.LevelChange{s.Up, s.Down} {
				if c == nil || c.Jump || i%2 == 1 {
					continue
				}
				out := step
				if c == s.Down {
					out = -step
				}
				changes++
				require.Equal(t, best, at(c.Beyond-out))
				require.Equal(t, c.To, at(c.Beyond+out))
			}
		}
	}
	require.Greater(t, changes, 100)
}

// checkWhole walks the whole levels outwards to the first other winner.
func checkWhole(t *testing.T, s rank.LevelSwitch, best string, at func(float64) string) {
	t.Helper()
	var up, down *rank.LevelChange
	for x := math.Floor(s.Level) + 1; x <= rank.MaxLevel && up == nil; x++ {
		if id := at(x); id != best {
			up = &rank.LevelChange{Whole: int(x), ToWhole: id}
		}
	}
	for x := math.Ceil(s.Level) - 1; x >= 0 && down == nil; x-- {
		if id := at(x); id != best {
			down = &rank.LevelChange{Whole: int(x), ToWhole: id}
		}
	}
	for _, c := range [][2]*rank.LevelChange{{up, s.Up}, {down, s.Down}} {
		want, got := c[0], c[1]
		require.Equal(t, want == nil, got == nil, "%+v", s)
		if want != nil {
			require.Equal(t, want.Whole, got.Whole)
			require.Equal(t, want.ToWhole, got.ToWhole)
			require.NotEqual(t, best, got.To)
		}
	}
}

func TestLevelSwitchExamples(t *testing.T) {
	// Lead at levels (3, x): 3*0.6 - x*0.4, gone at x = 4.5.
	options := asOptions([][]float64{{.9, .2}, {.3, .6}})
	got, err := rank.LevelSwitches(options, []float64{3, 2})
	require.NoError(t, err)
	require.Nil(t, got[1].Down)
	require.InDelta(t, 4.5, got[1].Up.Beyond, 1e-12)
	require.Equal(t, "o1", got[1].Up.To)
	require.Equal(t, 5, got[1].Up.Whole)
	// Downwards: x*0.6 - 2*0.4, gone at x = 4/3.
	require.InDelta(t, 4.0/3, got[0].Down.Beyond, 1e-12)
	require.Equal(t, 1, got[0].Down.Whole)
	c, ok := got[0].Nearest()
	require.True(t, ok)
	require.Equal(t, *got[0].Down, c)
	c, ok = got[1].Nearest()
	require.True(t, ok)
	require.Equal(t, *got[1].Up, c)

	// From nothing preferred, one level above 0 decides alone.
	got, err = rank.LevelSwitches(options, []float64{0, 0})
	require.NoError(t, err)
	require.Nil(t, got[0].Up)
	require.Equal(t, &rank.LevelChange{To: "o1", Whole: 1, ToWhole: "o1", Jump: true}, got[1].Up)
	// And back to nothing preferred.
	got, err = rank.LevelSwitches(options, []float64{0, 3})
	require.NoError(t, err)
	require.Equal(t, &rank.LevelChange{To: "o0", ToWhole: "o0", Jump: true}, got[1].Down)

	one, err := rank.LevelSwitches(options[:1], []float64{1, 2})
	require.NoError(t, err)
	_, ok = one[0].Nearest()
	require.False(t, ok)
}

func TestNearestTakesTheSmallerMove(t *testing.T) {
	up, down := &rank.LevelChange{Beyond: 4.5}, &rank.LevelChange{Beyond: 1.2}
	for _, c := range []struct {
		level float64
		want  *rank.LevelChange
	}{{4, up}, {2, down}} {
		got, ok := rank.LevelSwitch{Level: c.level, Up: up, Down: down}.Nearest()
		require.True(t, ok)
		require.Equal(t, *c.want, got)
	}
}
