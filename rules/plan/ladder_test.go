package plan

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// The ladder has at most eight rungs; each costs more than the one below by what
// somebody would notice and changes something, none takes back what a lower one gave,
// the plan is one of them, and a rung that is taken becomes the plan.
func TestALadderClimbsAndARungIsThePlan(t *testing.T) {
	houses := []house.Answered{fixture.Demo(t, demo.Default)}
	rng := rand.New(rand.NewPCG(4, 11))
	for range 20 {
		houses = append(houses, fixture.RandomHouse(t, rng))
	}
	higher, lower := 0, 0
	for _, a := range houses {
		assessed := Assess(a)
		prefs := PreferencesOf(a, nil)
		base := assessed.Weigh(prefs)
		rungs := assessed.Ladder(base, prefs.Stakes)
		require.LessOrEqual(t, len(rungs), 8)
		for i, r := range rungs {
			if i > 0 {
				require.Equal(t, rungs[i-1].Cost+r.Extra, r.Cost)
				require.NotEmpty(t, r.Changes)
				require.True(t, rungs[0].Least && i == 1 || r.Extra.Dollars() > 0.03*base.Bill.Money.Total.Typical.Dollars()-0.02, "%d of %d", i, len(rungs))
			}
			if r.Here {
				require.Equal(t, i, HereOn(rungs))
				require.Equal(t, base.Bill.Money.Total.Typical, r.Cost)
				continue
			}
			now := fixture.Copy(a)
			r.Take(now.List, func(q house.Question, v house.Answer) { now.Store(q, nil, v) })
			taken := assessed.Weigh(PreferencesOf(now, nil))
			require.True(t, taken.Spend.Applied)
			require.Zero(t, taken.Spend.Missing)
			require.Equal(t, r.Cost, taken.Bill.Money.Total.Typical)
			if r.Cost > base.Bill.Money.Total.Typical {
				higher++
			} else {
				lower++
			}
		}
		if len(rungs) > 0 {
			require.True(t, rungs[HereOn(rungs)].Here)
		}
		m := base.market(a.List.Catalog(), prefs.Stakes, assessed.counter)
		for i := range rungs {
			for j := range rungs[:i] {
				require.True(t, m.climbs(rungs[j].picks, rungs[i].picks), "rung %d takes back what %d gave", i, j)
			}
		}
	}
	require.Positive(t, higher, "no rung above a plan was taken")
	require.Positive(t, lower, "no rung below a plan was taken")
}
