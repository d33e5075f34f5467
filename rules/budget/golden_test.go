package budget

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Source "tiny" (computed by brute force).
func TestTinyAnswers(t *testing.T) {
	data := load(t)
	places := tinyPlaces(data)
	for _, want := range data.Tiny.Front {
		c := mustBest(t, places, units.Cents(want[0]))
		require.Equal(t, units.Cents(want[0]), c.Set.Cost)
		require.Equal(t, want[1], c.Set.Value)
	}
	for _, a := range data.Tiny.Answers {
		c := mustBest(t, places, a.Budget)
		require.Equal(t, a.Missing, c.Missing, "budget %d", a.Budget)
		require.Equal(t, a.Picks, c.Set.Picks, "budget %d", a.Budget)
		require.Equal(t, a.Value, c.Set.Value, "budget %d", a.Budget)
		require.Equal(t, a.Cost, c.Set.Cost, "budget %d", a.Budget)
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
		c := mustBest(t, places, row.Budget)
		require.Equal(t, row.Optimum, c.Set.Value)
	}
}

// Source "generated" (computed): optimum and its cost.
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

// The family with value in step with cost is what the cap is for.
func TestTooManyStatesIsSaid(t *testing.T) {
	data := load(t)
	places, budget := generate(data.Generated.Seed, "strong", 4, 20)
	p, err := newProblem(places)
	require.NoError(t, err)
	_, _, err = p.best(int64(budget), 500)
	require.ErrorIs(t, err, ErrTooManyStates)
	require.ErrorContains(t, err, "500")

	c, err := best(places, budget, 500)
	require.NoError(t, err)
	require.True(t, c.Rounded)
}

// Source "office" (read): each step up costs $414, then $1117, a point.
func TestStepsOfOnePlace(t *testing.T) {
	data := load(t)
	place := Place{ID: "office"}
	for _, o := range data.Office.Offices {
		place.Options = append(place.Options, Option{o.ID, units.FromDollars(o.Dollars), o.Benefit})
	}
	bought := func(i int) Set {
		c := mustBest(t, []Place{place}, place.Options[i].Cost)
		require.Equal(t, []string{place.Options[i].ID}, c.Set.IDs)
		return c.Set
	}
	for i, want := range data.Office.PerPoint {
		a, b := bought(i), bought(i+1)
		// Published to the dollar, 1116.50 upward.
		require.InDelta(t, want, (b.Cost-a.Cost).Dollars()/(b.Value-a.Value), 0.51)
	}
}
