package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func TestExplainTheWorkedCase(t *testing.T) {
	p := load(t)
	weights, err := rank.ROC(5)
	require.NoError(t, err)
	e, err := rank.Explain(workedCase(t, p), weights, "a2", "a1")
	require.NoError(t, err)
	// 191/300 - 1871/3000, and by hand 137/300 x 30, -77/300 x 55, 47/300 x 40,
	// -9/100 x 55 and 1/25 x 10 points.
	require.InDelta(t, 3.9/3, e.LeadPoints, 1e-12)
	for k, want := range []float64{13.7, -14.1166666667, 6.2666666667, -4.95, 0.4} {
		require.Equal(t, k, e.All[k].Priority)
		require.InDelta(t, want, e.All[k].Points, 1e-9)
	}
	require.Equal(t, []rank.Reason{e.All[0]}, e.For)
	require.Equal(t, e.All[1], *e.Against)
	require.InDelta(t, 13.7/1.3, e.Covered, 1e-9)
	require.True(t, e.Enough)
}

func TestExplainPicksFewReasons(t *testing.T) {
	equal := []float64{.2, .2, .2, .2, .2}
	zero := make([]float64, 5)
	for _, c := range []struct {
		name    string
		values  []float64
		rival   []float64
		want    []int
		enough  bool
		against int // -1 for none
	}{
		{"one carries it", []float64{.9, .1, .1, 0, 0}, zero, []int{0}, true, -1},
		{"two of three", []float64{.1, .4, .5, 0, 0}, zero, []int{2, 1}, true, -1},
		{"four fifths exactly", []float64{.2, .4, .4, 0, 0}, zero, []int{1, 2}, true, -1},
		{"spread too thin", []float64{.5, .5, .5, .5, .5}, zero, []int{0, 1, 2}, false, -1},
		{"something against", []float64{.5, 0, .5, 0, 0}, []float64{0, .3, 0, .6, 0}, []int{0}, true, 3},
		{"two against one", []float64{.5, 0, .6, 0, 0}, []float64{0, .1, 0, .2, 0}, []int{2, 0}, true, 3},
		{"behind", []float64{.1, 0, 0, 0, 0}, []float64{0, .5, 0, 0, 0}, []int{0}, false, 1},
		{"alike", zero, zero, nil, false, -1},
	} {
		e, err := rank.Explain(asOptions([][]float64{c.values, c.rival}), equal, "o0", "o1")
		require.NoError(t, err)
		var got []int
		for _, r := range e.For {
			got = append(got, r.Priority)
		}
		require.Equal(t, c.want, got, c.name)
		require.Equal(t, c.enough, e.Enough, c.name)
		if c.against < 0 {
			require.Nil(t, e.Against, c.name)
		} else {
			require.Equal(t, c.against, e.Against.Priority, c.name)
		}
	}
}

func TestReasonsAreTheLargestAndAddUp(t *testing.T) {
	rng := seeded(24)
	for i := range 300 {
		n := 1 + rng.IntN(6)
		options, weights := randomOptions(rng, 4, n, 3*(i%2)), randomWeights(t, rng, n)
		r, err := rank.Rank(options, weights)
		require.NoError(t, err)
		a, b := r.Ranked[0], r.Ranked[1]
		e, err := rank.Explain(options, weights, a.Option.ID, b.Option.ID)
		require.NoError(t, err)
		sum := 0.0
		for k, reason := range e.All {
			sum += reason.Points
			require.InDelta(t, a.Parts[k]-b.Parts[k], reason.Points, 1e-12)
		}
		require.Equal(t, e.LeadPoints, sum)
		require.InDelta(t, b.BehindPoints, e.LeadPoints, 1e-10)
		require.LessOrEqual(t, len(e.For), 3)
		covered, named := 0.0, map[int]bool{}
		for _, reason := range e.For {
			require.Positive(t, reason.Points)
			require.False(t, named[reason.Priority], "no reason twice")
			named[reason.Priority] = true
			require.Less(t, covered, .8*e.LeadPoints+1e-9, "no more reasons than needed")
			covered += reason.Points
		}
		for _, reason := range e.All {
			for _, picked := range e.For {
				require.True(t, named[reason.Priority] || reason.Points <= picked.Points+1e-9)
			}
			require.True(t, reason.Points > -1e-9 || e.Against.Points <= reason.Points)
		}
		if e.LeadPoints > 1e-9 {
			require.Equal(t, covered >= .8*e.LeadPoints-1e-9, e.Enough)
			require.True(t, e.Enough || len(e.For) == 3)
		}
	}
}

// Each move that is said to make an option win does so, and a smaller one does not.
func TestWeightToWin(t *testing.T) {
	rng := seeded(25)
	found, none := 0, 0
	for range 200 {
		n := 2 + rng.IntN(4)
		options, weights := randomOptions(rng, 2+rng.IntN(4), n, 0), randomWeights(t, rng, n)
		best := winner(t, options, weights)
		for _, o := range options {
			m, ok, err := rank.WeightToWin(options, weights, o.ID)
			require.NoError(t, err)
			if o.ID == best {
				require.False(t, ok)
				continue
			}
			size := math.Abs(m.To - m.From)
			for k := range weights {
				// Walk every weight on a grid: no move shorter than the one given wins.
				for x := 0.0; x <= 1; x += 1.0 / 64 {
					if !ok || math.Abs(x-weights[k]) < size-1e-9 {
						require.NotEqual(t, o.ID, winner(t, options, moved(weights, []int{k}, x)), "priority %d at %v beats %+v", k, x, m)
					}
				}
			}
			if !ok {
				none++
				continue
			}
			found++
			require.InDelta(t, weights[m.Priority], m.From, 0)
			at := func(x float64) string { return winner(t, options, moved(weights, []int{m.Priority}, x)) }
			inside := (m.Until - m.To) * 1e-3
			if math.Abs(inside) < 1e-7 {
				continue
			}
			require.Equal(t, o.ID, at(m.To+inside), "%+v", m)
			require.Equal(t, o.ID, at(m.Until-inside), "%+v", m)
			require.NotEqual(t, o.ID, at(m.To-math.Copysign(math.Min(1e-7, size), inside)), "%+v", m)
		}
	}
	require.Greater(t, min(found, none), 50, "both answers must occur")
}

// Level at a single point with both neighbours leading beside it wins nothing.
func TestATouchIsNoWin(t *testing.T) {
	options := asOptions([][]float64{{1, 0}, {0, 1}, {.5, .5}})
	_, ok, err := rank.WeightToWin(options, []float64{.75, .25}, "o2")
	require.NoError(t, err)
	require.False(t, ok)
}

func TestLevelToWin(t *testing.T) {
	rng := seeded(26)
	found, none := 0, 0
	for i := range 200 {
		n := 1 + rng.IntN(4)
		options, levels := randomOptions(rng, 2+rng.IntN(3), n, 4*(i%2)), randomLevels(rng, n)
		for _, o := range options {
			m, ok, err := rank.LevelToWin(options, levels, o.ID)
			require.NoError(t, err)
			best := levelWinner(t, options, levels, 0, levels[0])
			if ok {
				found++
				require.NotEqual(t, o.ID, best)
				require.Equal(t, o.ID, levelWinner(t, options, levels, m.Priority, float64(m.To)))
			} else if o.ID != best {
				none++
			}
			for p := range levels {
				for x := 0.0; x <= rank.MaxLevel; x++ {
					if o.ID != best && (!ok || math.Abs(x-levels[p]) < math.Abs(float64(m.To)-m.From)) {
						require.NotEqual(t, o.ID, levelWinner(t, options, levels, p, x))
					}
				}
			}
		}
	}
	require.Greater(t, min(found, none), 50)
	// Up before down, the earlier priority before the later.
	options := []rank.Option{{ID: "a", Values: []float64{1, 0}, CostCents: 1}, {ID: "b", Values: []float64{0, 1}, CostCents: 2}}
	m, ok, err := rank.LevelToWin(options, []float64{2, 2}, "b")
	require.NoError(t, err)
	require.True(t, ok)
	require.Equal(t, rank.LevelMove{Priority: 1, From: 2, To: 3}, m)
}

func TestValuesToWin(t *testing.T) {
	rng := seeded(27)
	found := 0
	for range 200 {
		n := 1 + rng.IntN(5)
		options, weights := randomOptions(rng, 4, n, 0), randomWeights(t, rng, n)
		best := winner(t, options, weights)
		for j, o := range options {
			moves, err := rank.ValuesToWin(options, weights, o.ID)
			require.NoError(t, err)
			if o.ID == best {
				require.Empty(t, moves)
				continue
			}
			with := func(k int, v float64) string {
				at := slices.Clone(options)
				at[j].Values = slices.Clone(o.Values)
				at[j].Values[k] = clampTo01(v)
				return winner(t, at, weights)
			}
			possible := map[int]bool{}
			last := 0.0
			for _, m := range moves {
				found++
				possible[m.Priority] = true
				require.GreaterOrEqual(t, m.To-m.From, last, "smallest first")
				last = m.To - m.From
				require.Equal(t, o.Values[m.Priority], m.From)
				require.Equal(t, o.ID, with(m.Priority, m.To+1e-6))
				require.NotEqual(t, o.ID, with(m.Priority, m.To-1e-6))
			}
			for k := range weights {
				if !possible[k] {
					require.NotEqual(t, o.ID, with(k, 1))
				}
			}
		}
	}
	require.Greater(t, found, 100)
	// Nothing is bought by a priority that weighs nothing.
	moves, err := rank.ValuesToWin(asOptions([][]float64{{.5, .5}, {.4, 0}}), []float64{1, 0}, "o1")
	require.NoError(t, err)
	require.Equal(t, []rank.ValueMove{{Priority: 0, From: .4, To: .5}}, moves)
}

func clampTo01(v float64) float64 { return math.Min(math.Max(v, 0), 1) }
