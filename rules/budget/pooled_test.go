package budget

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// randomPooled is a small house whose blankets come in packages, some of them there
// already.
func randomPooled(r *rand.Rand, places, options, packs int) ([]PooledPlace, []Pack) {
	out, sold := make([]PooledPlace, places), make([]Pack, packs)
	for i := range sold {
		sold[i] = Pack{Holds: float64(1 + r.IntN(20)), Cost: units.Cents(1000 + r.IntN(20000)), Have: max(0, r.IntN(8)-5)}
	}
	for i := range out {
		out[i].ID = fmt.Sprintf("p%d", i)
		for j := range 1 + r.IntN(options) {
			o := PooledOption{Option: Option{ID: fmt.Sprintf("o%d", j), Cost: units.Cents(r.IntN(9000)), Value: float64(r.IntN(400)) / 10}}
			for _, k := range r.Perm(packs)[:r.IntN(min(3, packs+1))] {
				o.Uses = append(o.Uses, Use{k, float64(r.IntN(600)) / 10})
			}
			out[i].Options = append(out[i].Options, o)
		}
	}
	return out, sold
}

// pooledOf are places whose options share nothing.
func pooledOf(places []Place) []PooledPlace {
	out := make([]PooledPlace, len(places))
	for i, p := range places {
		out[i].ID = p.ID
		for _, o := range p.Options {
			out[i].Options = append(out[i].Options, PooledOption{Option: o})
		}
	}
	return out
}

// everyPooled is the best set by trying all, and the cheapest.
func everyPooled(places []PooledPlace, packs []Pack, budget units.Cents) (best, cheapest Set) {
	picks := make([]int, len(places))
	found, any := false, false
	for {
		s := Set{Cost: PooledCost(places, packs, picks)}
		for i, at := range picks {
			s.Value += places[i].Options[at].Value
		}
		if !any || s.Cost < cheapest.Cost {
			cheapest, any = s, true
		}
		const tie = 1e-9
		if s.Cost <= budget && (!found || s.Value > best.Value+tie || s.Value > best.Value-tie && s.Cost < best.Cost) {
			best, found = s, true
		}
		i := 0
		for ; i < len(picks); i++ {
			if picks[i]++; picks[i] < len(places[i].Options) {
				break
			}
			picks[i] = 0
		}
		if i == len(picks) {
			return best, cheapest
		}
	}
}

// Against trying every set, on 2,000 small houses: the same value and cost, and where
// the budget is too small the same amount missing.
func TestPooledAgainstEverySet(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 1))
	short := 0
	for n := range 2000 {
		places, packs := randomPooled(r, 1+r.IntN(5), 5, 1+r.IntN(4))
		budget := units.Cents(r.IntN(300000))
		best, cheapest := everyPooled(places, packs, budget)
		got, err := BestPooled(places, packs, budget)
		require.NoError(t, err)
		require.True(t, got.Proved, n)
		require.Equal(t, PooledCost(places, packs, got.Set.Picks), got.Set.Cost)
		if cheapest.Cost > budget {
			short++
			require.Equal(t, cheapest.Cost, got.Set.Cost, n)
			require.Equal(t, cheapest.Cost-budget, got.Missing, n)
			continue
		}
		require.Zero(t, got.Missing)
		require.InDelta(t, best.Value, got.Set.Value, 1e-6, n)
		require.Equal(t, best.Cost, got.Set.Cost, n)
	}
	require.Greater(t, short, 100)
	require.Less(t, short, 1900)
}

// Without packs it is the plain knapsack, whose answers are held to published and
// generated optima and to another solver.
func TestPooledWithoutPacksIsBest(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 2))
	for range 300 {
		plain := realHouse(r, 12, 12)
		low, high := span(plain)
		budget := low + units.Cents(r.Int64N(int64(high-low)+1))
		want := mustBest(t, plain, budget)
		got, err := BestPooled(pooledOf(plain), nil, budget)
		require.NoError(t, err)
		require.InDelta(t, want.Set.Value, got.Set.Value, 1e-6)
		require.LessOrEqual(t, got.Set.Cost, budget)
	}
}

// A budget that is a set's own price gives a set at least as good, and more money is
// never worth less.
func TestPooledMoreMoneyIsWorthNoLess(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 3))
	for range 100 {
		places, packs := randomPooled(r, 10, 12, 6)
		last, cost := -1.0, units.Cents(0)
		for budget := units.Cents(20000); budget < 600000; budget += 20000 {
			got, err := BestPooled(places, packs, budget)
			require.NoError(t, err)
			if got.Missing > 0 || !got.Proved {
				continue
			}
			require.GreaterOrEqual(t, got.Set.Value, last-1e-9)
			require.LessOrEqual(t, got.Set.Cost, budget)
			last, cost = got.Set.Value, got.Set.Cost
		}
		if cost > 0 {
			again, err := BestPooled(places, packs, cost)
			require.NoError(t, err)
			require.InDelta(t, last, again.Set.Value, 1e-9)
		}
	}
}

// What the search finds when it is cut short is within the budget, and it says so.
func TestPooledCutShortIsSaid(t *testing.T) {
	r := rand.New(rand.NewPCG(14, 4))
	cut := 0
	for range 200 {
		places, packs := randomPooled(r, 12, 12, 4)
		got, err := bestPooled(places, packs, 500000, 40)
		require.NoError(t, err)
		if !got.Proved {
			cut++
		}
		if got.Missing == 0 {
			require.LessOrEqual(t, got.Set.Cost, units.Cents(500000))
		}
		require.Equal(t, PooledCost(places, packs, got.Set.Picks), got.Set.Cost)
	}
	require.Greater(t, cut, 100)
}

func TestPooledRefusesWhatCannotBe(t *testing.T) {
	one := []PooledPlace{{ID: "a", Options: []PooledOption{{Option: Option{ID: "x"}, Uses: []Use{{0, 1}}}}}}
	for name, packs := range map[string][]Pack{
		"holds nothing": {{Holds: 0, Cost: 1}}, "costs less than nothing": {{Holds: 1, Cost: -1}}, "fewer than none there": {{Holds: 1, Have: -1}}, "none such": {},
	} {
		_, err := BestPooled(one, packs, 10)
		require.ErrorIs(t, err, ErrPack, name)
	}
	_, err := BestPooled(one, []Pack{{Holds: 1}}, -1)
	require.ErrorIs(t, err, ErrBudget)
	_, err = BestPooled(nil, nil, 1)
	require.ErrorIs(t, err, ErrNoPlaces)
}
