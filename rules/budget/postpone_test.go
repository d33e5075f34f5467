package budget

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// withWaiting adds "later" to every place, named after every id.
func withWaiting(places []Place) []Place {
	out := slices.Clone(places)
	for i := range out {
		out[i].Options = append(slices.Clone(out[i].Options), Option{ID: "~later"})
	}
	return out
}

func TestPostponeAgainstEverySet(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 1))
	putOff := 0
	for range 1500 {
		places := randomHouse(r, 5, 4)
		cheapest, _ := span(places)
		if cheapest == 0 {
			continue
		}
		budget := units.Cents(r.Int64N(int64(cheapest)))
		l, err := Postpone(places, budget, Opts{})
		require.NoError(t, err)
		require.Equal(t, cheapest-budget, l.Missing)
		require.Equal(t, cheapest, l.Cheapest.Cost)

		want, ok := bruteBest(allSets(withWaiting(places)), budget)
		require.True(t, ok)
		for i, pl := range places {
			if want.Picks[i] == len(pl.Options) {
				want.Picks[i], want.IDs[i] = NotNow, ""
			}
		}
		require.Equal(t, want, l.Now, "budget %d: %v", budget, places)
		requireTakeUp(t, places, l)
		putOff += len(l.TakeUp)
	}
	require.Greater(t, putOff, 1500, "the houses must be short of money")
}

// requireTakeUp tries every order of the waiting places: none loses less value
// summed over the money still to come.
func requireTakeUp(t *testing.T, places []Place, l Later) {
	t.Helper()
	var wait []int
	for i, pick := range l.Now.Picks {
		if pick == NotNow {
			wait = append(wait, i)
		}
	}
	require.ElementsMatch(t, wait, l.TakeUp)
	least := math.MaxFloat64
	permute(wait, 0, func(order []int) { least = min(least, waited(places, order)) })
	if len(wait) > 0 {
		require.Equal(t, least, waited(places, l.TakeUp))
	}
}

func waited(places []Place, order []int) float64 {
	money, lost := 0.0, 0.0
	for _, i := range order {
		o := slices.MinFunc(places[i].Options, func(a, b Option) int {
			return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(b.Value, a.Value))
		})
		money += float64(o.Cost)
		lost += money * o.Value
	}
	return lost
}

func permute(v []int, k int, visit func([]int)) {
	if k == len(v) {
		visit(v)
		return
	}
	for i := k; i < len(v); i++ {
		v[k], v[i] = v[i], v[k]
		permute(v, k+1, visit)
		v[k], v[i] = v[i], v[k]
	}
}

func TestPostponeNothingWhenItFits(t *testing.T) {
	r := rand.New(rand.NewPCG(42, 1))
	for range 200 {
		places := realHouse(r, 5, 6)
		cheapest, dearest := span(places)
		budget := cheapest + units.Cents(r.Int64N(int64(dearest-cheapest)+1))
		l, err := Postpone(places, budget, Opts{})
		require.NoError(t, err)
		require.Zero(t, l.Missing)
		require.Empty(t, l.TakeUp)
		require.Equal(t, mustBest(t, places, budget).Set, l.Now)
	}
}

// A pin says what, not when; free work is done, money or not.
func TestPostponePinsAndFreeWork(t *testing.T) {
	places := []Place{
		{"attic", []Option{{"r30", 900, 40}, {"r49", 1500, 60}}},
		{"wall", []Option{{"r13", 700, 30}, {"r15", 800, 31}}},
		{"rim", []Option{{"scraps", 0, 0}}},
	}
	l, err := Postpone(places, 1000, Opts{Pins: map[string]string{"attic": "r49"}})
	require.NoError(t, err)
	require.Equal(t, []string{"", "r15", "scraps"}, l.Now.IDs)
	require.Equal(t, []int{0}, l.TakeUp)
	require.Equal(t, units.Cents(2200), l.Cheapest.Cost)
	require.Equal(t, units.Cents(1200), l.Missing)

	l, err = Postpone(places, 0, Opts{})
	require.NoError(t, err)
	require.Equal(t, []string{"", "", "scraps"}, l.Now.IDs)
	require.Equal(t, []int{0, 1}, l.TakeUp, "40 for 900 before 30 for 700")
}

func TestPostponeRefusesLosses(t *testing.T) {
	places := []Place{{"attic", []Option{{"a", 1, -0.5}}}}
	_, err := Postpone(places, 0, Opts{})
	require.ErrorIs(t, err, ErrValue)
	_, err = Postpone(places, -1, Opts{})
	require.ErrorIs(t, err, ErrBudget)
	_, err = Postpone(nil, 1, Opts{})
	require.ErrorIs(t, err, ErrNoPlaces)
}
