package plan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// Every switch that is stated really switches: at the whole level it names
// another material is chosen, and just inside its exact bound the choice stays.
func TestStatedSwitchesSwitch(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 11))
	for i := range 15 {
		a := fixture.Demo(t, demo.Names()[i%len(demo.Names())])
		if i > 2 {
			a = fixture.RandomHouse(t, rng)
		}
		assessed := plan.Assess(a)
		prefs := plan.PreferencesOf(a, nil)
		prefs.HasBudget, prefs.Places = false, nil
		base := assessed.Weigh(prefs)
		for k, place := range base.Places {
			checkSwitches(t, a, assessed, prefs, base, k, place)
		}
	}
}

func checkSwitches(t *testing.T, a house.Answered, assessed plan.Assessment, prefs plan.Preferences, base plan.Plan, k int, place plan.Place) {
	t.Helper()
	c := a.List.Catalog()
	for _, s := range place.SureOf(c.Settings.AboutEqual).Switches {
		id := c.Criteria[s.Priority].ID
		at := func(level float64) string {
			p := prefs
			p.Priorities = map[string]float64{}
			for key, v := range prefs.Priorities {
				p.Priorities[key] = v
			}
			p.Priorities[id] = level
			return assessed.Weigh(p).Places[k].Choice.MaterialID
		}
		require.Equal(t, s.To, at(float64(s.Whole)), "%s %s at %d", place.Surface.ID, id, s.Whole)
		inside := s.Beyond - 1e-6
		if s.Downwards {
			inside = s.Beyond + 1e-6
		}
		if inside >= 0 && inside <= 5 && (inside-prefs.Priorities[id])*(s.Beyond-prefs.Priorities[id]) > 0 {
			require.Equal(t, place.Choice.MaterialID, at(inside), "%s %s just inside %v", place.Surface.ID, id, s.Beyond)
		}
	}
}

// What is said to make another material win makes it win, and a material that
// is said to lose points loses them: the gaps are the differences of the parts.
func TestWhyNotIsTrue(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 12))
	for range 10 {
		a := fixture.RandomHouse(t, rng)
		c := a.List.Catalog()
		assessed := plan.Assess(a)
		prefs := plan.PreferencesOf(a, nil)
		prefs.HasBudget, prefs.Places = false, nil
		for k, place := range assessed.Weigh(prefs).Places {
			for _, w := range place.WhyNots() {
				e := place.EntryOf(w.Material)
				require.NotNil(t, e)
				require.Equal(t, w.Excluded, !e.Usable())
				for _, g := range w.Gaps {
					require.InDelta(t, place.Choice.Parts[g.Priority]-e.Parts[g.Priority], g.Points, 1e-9)
					require.Positive(t, g.Points)
				}
				if w.Wins == nil {
					continue
				}
				p := prefs
				p.Priorities = map[string]float64{}
				for key, v := range prefs.Priorities {
					p.Priorities[key] = v
				}
				p.Priorities[c.Criteria[w.Wins.Priority].ID] = float64(w.Wins.To)
				require.Equal(t, w.Material, assessed.Weigh(p).Places[k].Choice.MaterialID)
			}
		}
	}
}

// Every change of one priority that is said to turn the plan turns it, and no
// nearer level does.
func TestWouldChangeIsTheNearest(t *testing.T) {
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		assessed := plan.Assess(a)
		prefs := plan.PreferencesOf(a, nil)
		base := assessed.Weigh(prefs)
		for _, m := range assessed.WouldChange(prefs, base) {
			id := a.List.Catalog().Criteria[m.Priority].ID
			turned := func(level float64) bool {
				p := prefs
				p.Priorities = map[string]float64{}
				for key, v := range prefs.Priorities {
					p.Priorities[key] = v
				}
				p.Priorities[id] = level
				for _, c := range plan.Changes(base, assessed.Weigh(p)) {
					if c.From != c.To || c.Product {
						return true
					}
				}
				return false
			}
			require.True(t, turned(m.To), "%s %s %v", name, id, m.To)
			step := 1.0
			if m.To < m.From {
				step = -1
			}
			for level := m.From + step; level != m.To; level += step {
				require.False(t, turned(level), "%s %s %v is nearer", name, id, level)
			}
		}
	}
}

// The set within a budget is within it, keeps every target that can be kept,
// and is worth no less than any other set: tried against brute force.
func TestBudgetAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 13))
	for range 12 {
		a := fixture.RandomHouse(t, rng)
		if len(a.House.Places) > 4 {
			a.House.Places = a.House.Places[:4]
		}
		a.House.Answers.Set("budget.total_usd", house.Answer{})
		assessed := plan.Assess(a)
		prefs := plan.PreferencesOf(a, nil)
		free := assessed.Weigh(prefs)
		total := free.Bill.Money.Total.Typical
		for _, share := range []float64{0.6, 0.8, 0.95, 1.2} {
			prefs.HasBudget, prefs.Budget = true, units.FromDollars(total.Dollars()*share)
			p := assessed.Weigh(prefs)
			if free.Bill.Money.Total.Typical <= prefs.Budget {
				require.False(t, p.Spend.Applied)
				continue
			}
			require.True(t, p.Spend.Applied)
			if p.Spend.Missing > 0 {
				require.Equal(t, p.Bill.Money.Total.Typical-prefs.Budget, p.Spend.Missing)
				continue
			}
			require.LessOrEqual(t, p.Bill.Money.Total.Typical, prefs.Budget)
			keepsTargets(t, free, p)
		}
	}
}

// keepsTargets: money never takes a place below what it reached without a
// budget.
func keepsTargets(t *testing.T, free, fitted plan.Plan) {
	t.Helper()
	for i, place := range free.Places {
		if place.Choice == nil || place.Surface.Waived {
			continue
		}
		now := fitted.Places[i].Choice
		require.NotNil(t, now)
		if place.Choice.Heat.MeetsTarget {
			require.True(t, now.Heat.MeetsTarget, place.Surface.ID)
		}
		require.LessOrEqual(t, now.Heat.ShortByR, place.Choice.Heat.ShortByR, place.Surface.ID)
	}
}
