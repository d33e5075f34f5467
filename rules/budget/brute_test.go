package budget

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// allSets lists every complete set, in the order in which ties are settled
// for one budget: value, then cost, then ids. Costs and values are added as
// they stand; the houses below use values that floats hold exactly.
func allSets(places []Place) []Set {
	sets := []Set{{}}
	for _, pl := range places {
		var next []Set
		for _, s := range sets {
			for j, o := range pl.Options {
				next = append(next, Set{
					Cost:  s.Cost + o.Cost,
					Value: s.Value + o.Value,
					Picks: append(slices.Clone(s.Picks), j),
					IDs:   append(slices.Clone(s.IDs), o.ID),
				})
			}
		}
		sets = next
	}
	slices.SortFunc(sets, func(a, b Set) int {
		return cmp.Or(cmp.Compare(b.Value, a.Value), cmp.Compare(a.Cost, b.Cost), slices.Compare(a.IDs, b.IDs))
	})
	return sets
}

func bruteBest(sets []Set, budget units.Cents) (Set, bool) {
	i := slices.IndexFunc(sets, func(s Set) bool { return s.Cost <= budget })
	if i < 0 {
		return Set{}, false
	}
	return sets[i], true
}

// bruteFront walks up from the cheapest: at each cost the best set.
func bruteFront(sets []Set) []Set {
	byCost := slices.Clone(sets)
	slices.SortStableFunc(byCost, func(a, b Set) int { return cmp.Compare(a.Cost, b.Cost) })
	var front []Set
	for _, s := range byCost {
		if len(front) == 0 || s.Value > front[len(front)-1].Value {
			front = append(front, s)
		}
	}
	return front
}

// randomHouse makes small houses. With few costs and values to draw from, ties
// of every kind are common.
func randomHouse(r *rand.Rand, maxPlaces, maxOptions int) []Place {
	costs := []int64{4, 30, 900, 100_000}[r.IntN(4)]
	values := []int{3, 12, 400}[r.IntN(3)]
	places := make([]Place, 1+r.IntN(maxPlaces))
	for i := range places {
		places[i].ID = fmt.Sprintf("p%d", i)
		names := r.Perm(maxOptions)
		for j := range 1 + r.IntN(maxOptions) {
			places[i].Options = append(places[i].Options, Option{
				ID:    string(rune('a' + names[j])),
				Cost:  units.Cents(r.Int64N(costs)),
				Value: float64(r.IntN(values)) / 4,
			})
		}
	}
	return places
}

func TestAgainstEverySet(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	for n := range 3000 {
		places := randomHouse(r, 4, 5)
		if n%100 == 0 {
			places = randomHouse(r, 5, 6)
		}
		sets := allSets(places)
		front := bruteFront(sets)
		for _, want := range front {
			require.Equal(t, want, mustBest(t, places, want.Cost).Set, "house %d: %v", n, places)
		}
		cheapest, dearest := front[0].Cost, front[len(front)-1].Cost
		for range 4 {
			budget := max(0, cheapest-2) + units.Cents(r.Int64N(int64(dearest-cheapest)+6))
			requireBest(t, places, sets, cheapest, budget)
		}
	}
}

func requireBest(t *testing.T, places []Place, sets []Set, cheapest, budget units.Cents) {
	t.Helper()
	c := mustBest(t, places, budget)
	want, ok := bruteBest(sets, budget)
	if !ok {
		require.Equal(t, cheapest-budget, c.Missing)
		want, _ = bruteBest(sets, cheapest)
	} else {
		require.Zero(t, c.Missing)
	}
	require.Equal(t, want, c.Set, "budget %d: %v", budget, places)
}

// In dollars: a real set within the budget, and never further from the best than what
// rounding up can add.
func TestDollarsAgainstEverySet(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 17))
	for range 600 {
		places := randomHouse(r, 4, 5)
		p, err := newProblem(places)
		require.NoError(t, err)
		sets := allSets(places)
		slack := units.Cents(99 * len(places))
		for _, s := range bruteFront(sets) {
			budget := s.Cost + units.Cents(r.IntN(300))
			c, err := p.chooseInDollars(int64(budget), DefaultMaxStates)
			require.NoError(t, err)
			require.LessOrEqual(t, c.Set.Cost, budget)
			requireConsistent(t, places, c.Set)
			requireNoWorse(t, p, c.Set, budget)
			if less, ok := bruteBest(sets, budget-slack); ok {
				require.GreaterOrEqual(t, c.Set.Value, less.Value)
			}
			most, _ := bruteBest(sets, budget)
			require.LessOrEqual(t, c.Set.Value, most.Value)
		}
	}
}

// requireNoWorse compares a choice in dollars with the two sets it is made
// from: the quick fill in cents and the best one counted in dollars.
func requireNoWorse(t *testing.T, p *problem, s Set, budget units.Cents) {
	t.Helper()
	from := []Set{p.set(p.newBound(min(int64(budget), p.dearest())).greedy)}
	q := p.inDollars()
	if dollars := int64(budget) / centsPerDollar; dollars >= q.cheapest() {
		picks, _, err := q.best(dollars, DefaultMaxStates)
		require.NoError(t, err)
		from = append(from, q.set(picks))
	}
	slices.SortStableFunc(from, func(a, b Set) int {
		return cmp.Or(cmp.Compare(b.Value, a.Value), cmp.Compare(a.Cost, b.Cost))
	})
	require.Equal(t, from[0].Value, s.Value)
	require.Equal(t, from[0].Cost, s.Cost)
}

// requireConsistent adds a set up again from the options it names.
func requireConsistent(t *testing.T, places []Place, s Set) {
	t.Helper()
	require.Len(t, s.Picks, len(places))
	cost, value := units.Cents(0), 0.0
	for i, pl := range places {
		o := pl.Options[s.Picks[i]]
		require.Equal(t, o.ID, s.IDs[i])
		cost, value = cost+o.Cost, value+o.Value
	}
	require.Equal(t, cost, s.Cost)
	require.InDelta(t, value, s.Value, 1e-6)
}
