package takeoff

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// holds checks a plan against its demand: every piece cut, none longer than
// the stock, nothing cut that was not asked for.
func holds(t *testing.T, c CutPlan, demand []Demand) {
	t.Helper()
	want, got := map[float64]int{}, map[float64]int{}
	for _, d := range demand {
		if d.Count > 0 {
			want[d.LengthIn] += d.Count
		}
	}
	stock := 0
	for _, p := range c.Patterns {
		require.Positive(t, p.Count)
		sum := 0.0
		for _, q := range p.Cuts {
			require.Positive(t, q.Count)
			got[q.LengthIn] += q.Count * p.Count
			sum += q.LengthIn * float64(q.Count)
		}
		require.LessOrEqual(t, sum, c.StockIn+1e-9)
		require.InDelta(t, c.StockIn-sum, p.OffcutIn, 1e-9)
		stock += p.Count
	}
	require.Equal(t, want, got)
	require.Equal(t, c.Stock, stock)
	require.GreaterOrEqual(t, c.Steps, 0)
	require.Equal(t, c.Gap, c.Stock-c.LowerBound)
	require.GreaterOrEqual(t, c.Gap, 0)
}

func TestPublishedCutting(t *testing.T) {
	p := load(t)
	require.Len(t, p.Cutting, 36)
	steps := 0
	defer func() {
		// All 36 are proven within a quarter of the budget of one: what prunes
		// the search and what it remembers is at work.
		require.Less(t, steps, DefaultBudget/4)
	}()
	for _, row := range p.Cutting {
		t.Run(row.ID, func(t *testing.T) {
			name := p.name(t, row.From)
			c, err := Cut(row.StockIn, row.demand(), 0)
			require.NoError(t, err, name)
			holds(t, c, row.demand())
			steps += c.Steps
			require.Equal(t, row.Optimum, c.Stock, name)
			require.Equal(t, row.Optimum, c.LowerBound, name)
			pr, err := newProblem(row.StockIn, row.demand())
			require.NoError(t, err, name)
			require.Equal(t, row.L1, ceilDiv(pr.total(pr.need), pr.stock), name)
			if row.L2 > 0 {
				require.Equal(t, row.L2, pr.boundL2(), name)
			}
			require.Equal(t, row.FFD, stockUsed(pr.greedy(pr.need)), name)
		})
	}
}

// The published linear optima, from the relaxation itself.
func TestPublishedRelaxation(t *testing.T) {
	p := load(t)
	for _, row := range p.Cutting {
		if row.LP == 0 {
			continue
		}
		pr, err := newProblem(row.StockIn, row.demand())
		require.NoError(t, err)
		r := relax(pr)
		sum := 0.0
		for _, x := range r.times {
			sum += x
		}
		// Patterns here never hold more pieces than are wanted, which can only
		// raise the published figure, and never past the optimum.
		require.GreaterOrEqual(t, sum, row.LP-1e-5, p.name(t, row.From))
		require.LessOrEqual(t, sum, float64(row.Optimum)+1e-5, p.name(t, row.From))
		if row.ID == "textbook-100" || row.ID == "paper-94" {
			require.InDelta(t, row.LP, sum, 1e-5, p.name(t, row.From))
		}
	}
}

// fewest tries every way of adding pieces one by one to bins; it shares
// nothing with the package.
func fewest(stock int, sizes []int) int {
	best := len(sizes)
	var bins []int
	var put func(i int)
	put = func(i int) {
		if len(bins) >= best {
			return
		}
		if i == len(sizes) {
			best = len(bins)
			return
		}
		for b := range bins {
			if bins[b]+sizes[i] <= stock {
				bins[b] += sizes[i]
				put(i + 1)
				bins[b] -= sizes[i]
			}
		}
		bins = append(bins, sizes[i])
		put(i + 1)
		bins = bins[:len(bins)-1]
	}
	put(0)
	return best
}

func TestCutAgainstTryingEverything(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	for range 400 {
		stock := 20 + rng.IntN(80)
		n := 1 + rng.IntN(9)
		sizes := make([]int, n)
		demand := make([]Demand, n)
		for i := range sizes {
			sizes[i] = 1 + rng.IntN(stock*3/5)
			demand[i] = Demand{float64(sizes[i]), 1}
		}
		c, err := Cut(float64(stock), demand, 0)
		require.NoError(t, err)
		holds(t, c, demand)
		want := fewest(stock, sizes)
		require.Equal(t, want, c.Stock, "%d: %v", stock, sizes)
		require.Zero(t, c.Gap)

		// Instances this small seldom get as far as the search: ask it directly.
		pr, err := newProblem(float64(stock), demand)
		require.NoError(t, err)
		f := pr.newFinder(pr.need, 1_000_000)
		require.False(t, f.within(want-1), "%d: %v", stock, sizes)
		require.False(t, f.cut)
		require.True(t, f.within(want), "%d: %v", stock, sizes)
		require.LessOrEqual(t, relax(pr).bound, want)
	}
}

func TestCutBudget(t *testing.T) {
	p := load(t)
	short := 0
	for _, row := range p.Cutting {
		for _, budget := range []int{1, 500} {
			c, err := Cut(row.StockIn, row.demand(), budget)
			require.NoError(t, err)
			holds(t, c, row.demand())
			require.GreaterOrEqual(t, c.Stock, row.Optimum)
			require.LessOrEqual(t, c.LowerBound, row.Optimum)
			require.LessOrEqual(t, c.Steps, budget)
			if c.Gap > 0 {
				require.Equal(t, budget, c.Steps, "given up with steps left")
			}
			if c.Gap == 0 {
				break // proven already
			}
			short++
		}
	}
	require.Positive(t, short, "a budget of one step must leave gaps somewhere")
}

func TestCutSearchAlone(t *testing.T) {
	// Without the relaxation the search has to prove these on its own: twelve,
	// where the length bound says eleven.
	p := load(t)
	for _, row := range p.Cutting {
		if row.ID != "greedy-96a" && row.ID != "greedy-94" && row.ID != "greedy-480" && row.ID != "greedy-96b" {
			continue
		}
		pr, err := newProblem(row.StockIn, row.demand())
		require.NoError(t, err)
		s := solution{fillings: pr.greedy(pr.need), lb: pr.boundL2()}
		pr.improve(&s, relaxed{}, 5_000_000)
		require.Equal(t, row.Optimum, stockUsed(s.fillings), row.ID)
		require.Equal(t, row.Optimum, s.lb, row.ID)

		// The steps are those of the search for each number tried, no more.
		steps := 0
		for target := pr.boundL2(); target <= row.Optimum; target++ {
			f := pr.newFinder(pr.need, 5_000_000)
			f.within(target)
			steps += f.steps
		}
		require.Equal(t, steps, s.steps, row.ID)
	}
}

func TestCutRounding(t *testing.T) {
	// Three thirds fill a foot; a hair more does not. Lengths are rounded up,
	// so a plan can waste but never come out short.
	for _, c := range []struct {
		stock, piece float64
		pieces, want int
	}{
		{12, 4, 3, 1},
		{12, 4.001, 3, 2},
		{92.99, 92.99, 2, 2},
		{92.99, 92.98, 2, 2},
		{93, 31 + 1e-9, 3, 1},
		{0.05, 0.05, 3, 3},
		{96, 45.625 + 0.375, 4, 2},
	} {
		got, err := Cut(c.stock, []Demand{{c.piece, c.pieces}}, 0)
		require.NoError(t, err)
		require.Equal(t, c.want, got.Stock, "%v from %v", c.piece, c.stock)
	}
}

func TestCutErrors(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, stock := range []float64{0, -1, nan, inf, -inf, 1e9, 0.02} {
		_, err := Cut(stock, []Demand{{0.02, 1}}, 0)
		require.ErrorIs(t, err, ErrSize, "%v", stock)
	}
	for _, l := range []float64{0, -1, nan, inf, 1e-9} {
		_, err := Cut(96, []Demand{{l, 1}}, 0)
		require.ErrorIs(t, err, ErrSize, "%v", l)
	}
	_, err := Cut(96, []Demand{{96.01, 1}}, 0)
	require.ErrorIs(t, err, ErrStock)
	require.ErrorContains(t, err, "96.01")
	for _, n := range []int{-1, maxPieces + 1, math.MaxInt} {
		_, err = Cut(96, []Demand{{12, n}}, 0)
		require.ErrorIs(t, err, ErrCount)
	}
	_, err = Cut(96, []Demand{{12, maxPieces}, {13, 1}}, 0)
	require.ErrorIs(t, err, ErrCount)
	_, err = Cut(96, []Demand{{12, 1}}, -1)
	require.ErrorIs(t, err, ErrCount)
	_, err = Cut(96, nil, 0)
	require.ErrorIs(t, err, ErrNothing)
	_, err = Cut(96, []Demand{{12, 0}}, 0)
	require.ErrorIs(t, err, ErrNothing)
}

func TestCutLarge(t *testing.T) {
	demand := []Demand{{91.875, 100_000}, {10.5, 60_000}, {33, 30_000}, {20.25, 10_000}}
	c, err := Cut(93, demand, 0)
	require.NoError(t, err)
	holds(t, c, demand)
	require.LessOrEqual(t, float64(c.Gap), 0.001*float64(c.Stock))
}

func TestKnapsackAgainstTryingEverything(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 17))
	for range 200 {
		p := problem{stock: 10 + rng.IntN(60)}
		var value []int
		for range 1 + rng.IntN(4) {
			p.size = append(p.size, 1+rng.IntN(p.stock))
			p.need = append(p.need, 1+rng.IntN(4))
			value = append(value, rng.IntN(50)-5)
		}
		best := 0
		var try func(i, room, worth int)
		try = func(i, room, worth int) {
			if i == len(p.size) {
				best = max(best, worth)
				return
			}
			for n := 0; n <= p.need[i] && n*p.size[i] <= room; n++ {
				try(i+1, room-n*p.size[i], worth+n*value[i])
			}
		}
		try(0, p.stock, 0)
		most, count := newKnapsack(p).solve(value)
		require.Equal(t, best, most)
		worth := 0
		for i, n := range count {
			require.LessOrEqual(t, n, p.need[i])
			worth += n * value[i]
		}
		require.Equal(t, best, worth)
		require.LessOrEqual(t, p.total(count), p.stock)
	}
}

// A length of which none are wanted changes nothing, least of all the values
// of the others.
func TestCutNoneOfALength(t *testing.T) {
	p := load(t)
	for _, row := range p.Cutting {
		if row.ID != "greedy-96a" && row.ID != "greedy-480" {
			continue
		}
		want, err := Cut(row.StockIn, row.demand(), 0)
		require.NoError(t, err)
		got, err := Cut(row.StockIn, append(row.demand(), Demand{row.StockIn / 3, 0}, Demand{1, 0}), 0)
		require.NoError(t, err)
		require.Equal(t, want, got, row.ID)
	}
}
