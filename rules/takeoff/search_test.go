package takeoff

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand from the bound as it is stated at boundL2.
func TestBoundsByHand(t *testing.T) {
	for _, c := range []struct {
		name         string
		stock        float64
		demand       []Demand
		l1, l2, best int
	}{
		// 60 in of ten pieces, but no two share a stock of 10.
		{"all longer than half", 10, []Demand{{6, 10}}, 6, 10, 10},
		{"different, all longer than half", 10, []Demand{{9, 1}, {7, 2}, {6, 3}}, 5, 6, 6},
		// Beside 60 there is no room for 45: two alone, and 135 in two more.
		{"threshold in between", 100, []Demand{{60, 2}, {45, 3}}, 3, 4, 4},
		// At 30 the two of 60 leave 80 of 120: one more.
		{"fits beside", 100, []Demand{{60, 2}, {30, 4}}, 3, 3, 3},
		// 51 shares with nothing of 50.
		{"threshold of exactly half", 100, []Demand{{51, 2}, {50, 1}}, 2, 3, 3},
		// 60 and 40 are exactly one stock.
		{"fills it exactly", 100, []Demand{{60, 1}, {40, 1}}, 1, 1, 1},
		{"halves", 100, []Demand{{50, 4}}, 2, 2, 2},
		{"halves, one more", 100, []Demand{{50, 5}}, 3, 3, 3},
	} {
		got, err := Cut(c.stock, c.demand, 0)
		require.NoError(t, err, c.name)
		holds(t, got, c.demand)
		p, err := newProblem(c.stock, c.demand)
		require.NoError(t, err, c.name)
		require.Equal(t, c.l1, ceilDiv(p.total(p.need), p.stock), c.name)
		require.Equal(t, c.l2, p.boundL2(), c.name)
		require.Equal(t, c.best, got.Stock, c.name)
		require.Zero(t, got.Gap, c.name)
		if c.l2 == c.best {
			require.Zero(t, got.Steps, c.name)
		}
	}

	// Values of 0.6 and 0.4 stock pieces, of which no filling holds more than
	// one: 3 x 0.6 + 2 x 0.4 = 2.6 are three.
	p := problem{stock: 10, size: []int{6, 4}, need: []int{3, 2}}
	require.Equal(t, 3, p.boundFrom([]int{600, 400}, 1000))
	require.Equal(t, 2, p.boundFrom([]int{600, 400}, 1300), "exactly two")
	require.Equal(t, 3, p.boundFrom([]int{600, 400}, 1299))
	require.Equal(t, 2, p.boundFrom([]int{600, -400}, 1000), "nothing counts against it")
	require.Zero(t, p.boundFrom([]int{0, 0}, 0))
}

// Five of 40 in and two of 16 in out of 96 in, worked by hand: 40 + 40 + 16
// leaves nothing.
func TestPlanByHand(t *testing.T) {
	c, err := Cut(96, []Demand{{16, 1}, {40, 5}, {16, 1}, {30, 0}}, 0)
	require.NoError(t, err)
	require.Equal(t, CutPlan{
		StockIn: 96, Stock: 3,
		Patterns: []Pattern{
			{Count: 2, Cuts: []Demand{{40, 2}, {16, 1}}},
			{Count: 1, Cuts: []Demand{{40, 1}}, OffcutIn: 56},
		},
		LowerBound: 3,
	}, c)
	// Alike in 32nds of an inch: cut alike, shown at the longest.
	c, err = Cut(96, []Demand{{11.99, 3}, {12, 5}}, 0)
	require.NoError(t, err)
	require.Equal(t, []Pattern{{Count: 1, Cuts: []Demand{{12, 8}}}}, c.Patterns)

	// Equal fillings are one pattern; most used first, then longest first.
	require.Equal(t, []filling{{4, []int{0, 1}}, {3, []int{1, 0}}, {3, []int{0, 2}}}, merge([]filling{
		{2, []int{0, 1}},
		{3, []int{0, 2}},
		{1, []int{1, 0}},
		{2, []int{0, 1}},
		{2, []int{1, 0}},
	}))
}

// Two each of 5, 3 and 2 out of 10, worked by hand: with one piece of 5 at
// least there are 5+5, 5+3+2 and, an offcut of 1, 5+2+2. To 5+3 a 2 can still
// be added.
func TestFillingsByHand(t *testing.T) {
	p := problem{stock: 10, size: []int{5, 3, 2}, need: []int{2, 2, 2}}
	for _, c := range []struct {
		first, spare int
		want         [][]int
	}{
		{0, 1, [][]int{{2, 0, 0}, {1, 1, 1}, {1, 0, 2}}},
		{0, 9, [][]int{{2, 0, 0}, {1, 1, 1}, {1, 0, 2}}},
		{0, 0, [][]int{{2, 0, 0}, {1, 1, 1}}},
		{1, 0, [][]int{{0, 2, 2}}},
		{1, 9, [][]int{{0, 2, 2}}}, // all that is left
		{2, 5, [][]int{}},
		{2, 6, [][]int{{0, 0, 2}}},
	} {
		f := p.newFinder(p.need, 1000)
		for i := range c.first {
			f.left[i] = 0
		}
		require.Equal(t, c.want, f.fillingsWith(c.first, c.spare), "%+v", c)
		require.False(t, f.cut)
	}
	f := p.newFinder(p.need, 2)
	f.fillingsWith(0, 9)
	require.True(t, f.cut)
	require.Equal(t, 2, f.steps)
}

func TestFinderByHand(t *testing.T) {
	p := problem{stock: 10, size: []int{6, 4}, need: []int{2, 1}}
	f := p.newFinder(p.need, 1000)
	require.False(t, f.within(1), "16 out of 10")
	require.Zero(t, f.steps, "seen without a step")
	require.False(t, f.within(-1))
	require.True(t, f.within(2))
	require.Equal(t, []filling{{1, []int{1, 1}}, {1, []int{1, 0}}}, f.fillings())
	require.Equal(t, []int{0, 0}, f.left)
	require.True(t, f.within(0), "nothing left needs nothing")

	// What failed once is not tried again, nor with fewer; it may do with more.
	p = problem{stock: 10, size: []int{4}, need: []int{5}}
	f = p.newFinder(p.need, 1000)
	require.False(t, f.within(2))
	was := f.steps
	require.Positive(t, was)
	require.False(t, f.within(2))
	require.Equal(t, was, f.steps)
	require.Equal(t, []int{5}, f.left)
	require.True(t, f.within(3))

	// A search cut short has proven nothing.
	f = p.newFinder(p.need, 1)
	require.False(t, f.within(3))
	require.True(t, f.cut)
	require.Empty(t, f.failed)
}

func TestEqualPlansKeepTheFirst(t *testing.T) {
	first := []filling{{2, []int{1, 0}}, {1, []int{0, 1}}}
	s := solution{fillings: first}
	s.keepIfBetter([]filling{{3, []int{1, 1}}})
	require.Equal(t, first, s.fillings)
	s.keepIfBetter([]filling{{2, []int{1, 1}}})
	require.Equal(t, []filling{{2, []int{1, 1}}}, s.fillings)
}

// One exchange of the simplex, worked by hand: two sizes, each once in its own
// stock piece, and a filling that holds both. Both columns could leave; the
// first does, and the other is needed no more.
func TestExchangeByHand(t *testing.T) {
	start := problem{stock: 10, size: []int{6, 4}, need: []int{1, 1}}
	start.stock = 6
	tab := newTableau(start)
	require.Equal(t, [][]int{{1, 0}, {0, 1}}, tab.column)
	require.Equal(t, []int{valueScale, valueScale}, tab.values())
	require.True(t, tab.enter([]int{1, 1}))
	require.Equal(t, [][]int{{1, 1}, {0, 1}}, tab.column)
	require.Equal(t, []float64{1, 0}, tab.times)
	require.Equal(t, [][]float64{{1, 0}, {-1, 1}}, tab.inverse)
	require.Equal(t, []int{0, valueScale}, tab.values())
	require.False(t, tab.enter([]int{0, 0}), "nothing can leave for an empty filling")

	// Three of 4 and seven of 3 out of 12: alone three and four in a piece,
	// 1 + 7/4 pieces.
	tab = newTableau(problem{stock: 12, size: []int{4, 3}, need: []int{3, 7}})
	require.Equal(t, [][]int{{3, 0}, {0, 4}}, tab.column)
	require.InDeltaSlice(t, []float64{1, 1.75}, tab.times, 1e-12)
}

// The tables have a limit, at which they are still made.
func TestRelaxationLimits(t *testing.T) {
	many := func(sizes int) problem {
		p := problem{stock: 2 * sizes, need: slices.Repeat([]int{1}, sizes)}
		for i := range sizes {
			p.size = append(p.size, 2*sizes-i)
		}
		return p
	}
	// All longer than half a stock piece: one each.
	require.Equal(t, maxSizes, relax(many(maxSizes)).bound)
	require.Equal(t, relaxed{}, relax(many(maxSizes+1)))

	large := func(stock int) problem {
		return problem{stock: stock, size: []int{stock - 1, stock - 2}, need: []int{2, 1}}
	}
	require.Equal(t, 3, relax(large(maxTable/2)).bound)
	require.Equal(t, relaxed{}, relax(large(maxTable/2+1)))
}
