package budget

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Source "tiny" (computed by brute force).
func TestTinyFrontAndAnswers(t *testing.T) {
	data := load(t)
	places := tinyPlaces(data)
	f, err := Frontier(places)
	require.NoError(t, err)
	require.Len(t, f.Points, len(data.Tiny.Front))
	for i, want := range data.Tiny.Front {
		require.Equal(t, Point{units.Cents(want[0]), want[1]}, f.Points[i])
	}
	for _, a := range data.Tiny.Answers {
		c, err := Best(places, a.Budget)
		require.NoError(t, err)
		require.Equal(t, a.Missing, c.Missing, "budget %d", a.Budget)
		require.Equal(t, a.Picks, c.Set.Picks, "budget %d", a.Budget)
		require.Equal(t, a.Value, c.Set.Value, "budget %d", a.Budget)
		require.Equal(t, a.Cost, c.Set.Cost, "budget %d", a.Budget)
		i, ok := at(f, a.Budget)
		require.Equal(t, a.Missing == 0, ok)
		if ok {
			s, err := f.Set(i)
			require.NoError(t, err)
			require.Equal(t, c.Set, s)
		}
	}
}

// Source "greedy" (computed): filling along the hull stops short of the best.
func TestTinyGreedyIsBeaten(t *testing.T) {
	data := load(t)
	places := tinyPlaces(data)
	for _, row := range data.Greedy.Rows {
		p, err := newProblem(places)
		require.NoError(t, err)
		quick := p.cheapestChoice()
		p.fill(int64(row.Budget), quick)
		require.Equal(t, row.Greedy, points(p.valueOf(quick)))
		if row.GreedyCents > 0 {
			require.Equal(t, row.GreedyCents, p.paidOf(quick))
		}
		c, err := Best(places, row.Budget)
		require.NoError(t, err)
		require.Equal(t, row.Optimum, c.Set.Value)
	}
}

// Source "generated" (computed): optimum, its cost, and the size of the
// frontier up to the budget.
func TestGeneratedOptima(t *testing.T) {
	data := load(t)
	for _, row := range data.Generated.Rows {
		t.Run(row.name(), func(t *testing.T) {
			slow := row.Places == 1000 && row.Family != "unc"
			if slow && testing.Short() {
				t.Skip("seconds")
			}
			places, budget := generate(data.Generated.Seed, row.Family, row.Places, data.Generated.Options)
			require.Equal(t, row.Budget, budget, "the generator must be the one described")
			c, err := best(places, budget, 20_000_000)
			require.NoError(t, err)
			require.Zero(t, c.Missing)
			require.InDelta(t, row.Value, c.Set.Value, 1e-6)
			require.Equal(t, row.Cost, c.Set.Cost)
			requireConsistent(t, places, c.Set)
			t.Logf("states %d", c.States)
		})
	}
}

func TestGeneratedFronts(t *testing.T) {
	data := load(t)
	for _, row := range data.Generated.Rows {
		if row.FrontWithin == 0 {
			continue
		}
		t.Run(row.name(), func(t *testing.T) {
			if testing.Short() && (row.Family == "strong" || row.Family == "weak") {
				t.Skip("half a second")
			}
			places, budget := generate(data.Generated.Seed, row.Family, row.Places, data.Generated.Options)
			f, err := Frontier(places)
			require.NoError(t, err)
			i, ok := at(f, budget)
			require.True(t, ok)
			t.Logf("points %d, within budget %d, states %d", len(f.Points), i+1, f.States)
			require.InDelta(t, row.Value, f.Points[i].Value, 1e-6)
			require.Equal(t, row.FrontWithin, i+1)
			s, err := f.Set(i)
			require.NoError(t, err)
			c, err := Best(places, budget)
			require.NoError(t, err)
			require.Equal(t, s, c.Set)
			if row.Places > 5 {
				require.Less(t, c.States, f.States/50, "the bound must spare most of the work")
			}
		})
	}
}

// The family with value in step with cost is what the cap is for.
func TestTooManyStatesIsSaid(t *testing.T) {
	data := load(t)
	places, budget := generate(data.Generated.Seed, "strong", 4, 20)
	p, err := newProblem(places)
	require.NoError(t, err)
	_, err = p.front(7_000)
	require.ErrorIs(t, err, ErrTooManyStates)
	_, _, err = p.best(int64(budget), 500)
	require.ErrorIs(t, err, ErrTooManyStates)
	require.ErrorContains(t, err, "500")

	f, err := frontier(places, 7_000)
	require.NoError(t, err)
	exact, err := Frontier(places)
	require.NoError(t, err)
	requireWithinSlack(t, exact, f, 396)
	c, err := best(places, budget, 500)
	require.NoError(t, err)
	require.True(t, c.Rounded)

	_, err = frontier(places, 3)
	require.True(t, errors.Is(err, ErrTooManyStates), "even dollars need more")
}

// Source "office" (read): each step up costs $414, then $1117, a point.
func TestFrontierOfOnePlace(t *testing.T) {
	data := load(t)
	place := Place{ID: "office"}
	for _, o := range data.Office.Offices {
		place.Options = append(place.Options, Option{o.ID, units.FromDollars(o.Dollars), o.Benefit})
	}
	f, err := Frontier([]Place{place})
	require.NoError(t, err)
	require.Len(t, f.Points, len(data.Office.Offices))
	for i, want := range data.Office.PerPoint {
		a, b := f.Points[i], f.Points[i+1]
		// Published to the dollar, 1116.50 upward.
		require.InDelta(t, want, (b.Cost-a.Cost).Dollars()/(b.Value-a.Value), 0.51)
	}
	for _, bad := range []int{-1, len(f.Points)} {
		_, err = f.Set(bad)
		require.ErrorIs(t, err, ErrPoint)
	}
}
