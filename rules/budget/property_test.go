package budget

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// realHouse makes houses with plain decimal values, larger than brute force
// allows.
func realHouse(r *rand.Rand, maxPlaces, maxOptions int) []Place {
	places := make([]Place, 1+r.IntN(maxPlaces))
	for i := range places {
		places[i].ID = fmt.Sprintf("p%d", i)
		for j := range 1 + r.IntN(maxOptions) {
			places[i].Options = append(places[i].Options, Option{
				ID: fmt.Sprintf("o%d", j), Cost: units.Cents(r.Int64N(60_000)), Value: 100 * r.Float64(),
			})
		}
	}
	return places
}

func span(places []Place) (cheapest, dearest units.Cents) {
	for _, pl := range places {
		low, high := pl.Options[0].Cost, pl.Options[0].Cost
		for _, o := range pl.Options {
			low, high = min(low, o.Cost), max(high, o.Cost)
		}
		cheapest, dearest = cheapest+low, dearest+high
	}
	return cheapest, dearest
}

func mustBest(t *testing.T, places []Place, budget units.Cents) Choice {
	t.Helper()
	c, err := best(places, budget, DefaultMaxStates)
	require.NoError(t, err)
	return c
}

func TestMoreMoneyNeverBuysLess(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 1))
	for range 60 {
		places := realHouse(r, 7, 12)
		last := -math.MaxFloat64
		cheapest, dearest := span(places)
		for budget := cheapest; budget <= dearest; budget += max(1, (dearest-cheapest)/20) {
			c := mustBest(t, places, budget)
			require.GreaterOrEqual(t, c.Set.Value, last)
			last = c.Set.Value
		}
	}
}

func TestBoundOptimumGreedy(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 1))
	for range 300 {
		places := realHouse(r, 8, 10)
		cheapest, dearest := span(places)
		budget := cheapest + units.Cents(r.Int64N(int64(dearest-cheapest)+1))
		p, err := newProblem(places)
		require.NoError(t, err)
		b := p.newBound(min(int64(budget), p.dearest()))
		require.LessOrEqual(t, p.paidOf(b.greedy), int64(budget))
		best := mustBest(t, places, budget)
		value := int64(math.Round(best.Set.Value * valueUnits))
		require.GreaterOrEqual(t, b.short(value), int64(0), "bound over optimum")
		require.GreaterOrEqual(t, value, b.value, "optimum over greedy")
		require.GreaterOrEqual(t, b.slack(len(places), int64(best.Set.Cost), value), int64(0))
	}
}

// Any price put on money gives a bound and so the right answer; a poor one
// only costs time. Rounding the price, as long sums force it to be, is safe.
func TestAnswerDoesNotHangOnTheScale(t *testing.T) {
	r := rand.New(rand.NewPCG(26, 1))
	for range 200 {
		places := randomHouse(r, 4, 5)
		for i := range places {
			for j := range places[i].Options {
				o := &places[i].Options[j]
				o.Cost *= MaxCost / 200_000
				o.Value = math.Round(o.Value*4) * 2_000 * float64(1-2*r.IntN(2))
			}
		}
		sets := allSets(places)
		cheapest, dearest := span(places)
		budget := cheapest + units.Cents(r.Int64N(int64(dearest-cheapest)+1))
		want, ok := bruteBest(sets, budget)
		require.True(t, ok)
		require.Equal(t, want, mustBest(t, places, budget).Set)
	}
}

// The largest input accepted stays inside 63 bits, and many alike places stay
// quick to tell apart.
func TestLargestSums(t *testing.T) {
	const open = 600
	for _, sign := range []float64{1, -1} {
		places := make([]Place, MaxPlaces)
		for i := range places {
			places[i] = Place{fmt.Sprintf("p%d", i), []Option{{"a", MaxCost, sign * MaxValue}}}
			if i < open {
				places[i].Options = []Option{{"a", MaxCost, MaxValue}, {"b", 0, -MaxValue}, {"c", 1, -MaxValue / 2}}
			}
		}
		rest := (MaxPlaces - open) * sign * MaxValue
		c := mustBest(t, places, math.MaxInt64)
		require.Equal(t, rest+open*MaxValue, c.Set.Value)
		require.Equal(t, units.Cents(MaxPlaces*MaxCost), c.Set.Cost)

		// Money for half of them and one cent each for the others; alike
		// places are settled by id, so the dear ones come first.
		c = mustBest(t, places, (MaxPlaces-open/2)*MaxCost+open/2)
		require.Equal(t, rest+open/4*MaxValue, c.Set.Value)
		for i := range open {
			require.Equal(t, map[bool]string{true: "a", false: "c"}[i < open/2], c.Set.IDs[i])
		}
	}
}

func TestDecimalsTieExactly(t *testing.T) {
	places := []Place{
		{"x", []Option{{"b", 100, 0.3}, {"a", 100, 0.1}}},
		{"y", []Option{{"b", 100, 0.2}, {"c", 200, 0.4}}},
		{"z", []Option{{"a", 100, 0.3}, {"b", 100, 0.3}}},
	}
	c := mustBest(t, places, 300)
	require.Equal(t, []string{"b", "b", "a"}, c.Set.IDs)
	require.Equal(t, 0.8, c.Set.Value)
}

// Values one step apart are apart, and many equal options are settled by id
// however they are listed.
func TestOneStepAndManyEquals(t *testing.T) {
	c := mustBest(t, []Place{
		{"x", []Option{{"a", 0, 0}, {"b", 10, 1}}},
		{"y", []Option{{"a", 0, 0}, {"b", 10, 1 + 1e-9}}},
	}, 10)
	require.Equal(t, []string{"a", "b"}, c.Set.IDs)
	equal := Place{ID: "x"}
	for _, k := range rand.New(rand.NewPCG(27, 1)).Perm(100) {
		equal.Options = append(equal.Options, Option{fmt.Sprintf("o%02d", k), 50, 7})
	}
	require.Equal(t, []string{"o00"}, mustBest(t, []Place{equal}, 50).Set.IDs)
}

// Options that cost the same in whole dollars are told apart by the cents.
func TestDollarsKeepTheCheaper(t *testing.T) {
	p, err := newProblem([]Place{{"x", []Option{{"a", 199, 5}, {"b", 150, 4}, {"c", 120, 3}}}})
	require.NoError(t, err)
	c, err := p.chooseInDollars(160, DefaultMaxStates)
	require.NoError(t, err)
	require.Equal(t, []string{"b"}, c.Set.IDs, "within two dollars only to the cent")

	yes := func(id string, cost units.Cents, value float64) Place {
		return Place{id, []Option{{"0", 0, 0}, {"1", cost, value}}}
	}

	// The quick fill takes p and q for 4.00; r alone is worth as much.
	p, err = newProblem([]Place{yes("p", 100, 6), yes("q", 300, 4), yes("r", 350, 10)})
	require.NoError(t, err)
	c, err = p.chooseInDollars(400, DefaultMaxStates)
	require.NoError(t, err)
	require.Equal(t, []string{"0", "0", "1"}, c.Set.IDs)
}

// best is the plain knapsack, by which BestPooled begins.
func best(places []Place, budget units.Cents, maxStates int) (Choice, error) {
	p, err := newProblem(places)
	if err != nil {
		return Choice{}, err
	}
	return p.choose(int64(budget), maxStates)
}
