package plan_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// drier reports whether something that may go into a place, and is as good by
// the rules and the code as the choice, gets less damp.
func drier(p *plan.Place) bool {
	for i := range p.Candidates {
		c := &p.Candidates[i]
		if c.Excluded() || c.Demoted() && !p.Choice.Demoted() || !c.Heat.MeetsTarget && p.Choice.Heat.MeetsTarget {
			continue
		}
		if p.Surface.Pin != "" && p.Choice.MaterialID == p.Surface.Pin && c.Material.ID != p.Surface.Pin {
			continue // the builder keeps a fiber here, and is told
		}
		if c.Damp.Risk() < p.Choice.Damp.Risk() {
			return true
		}
	}
	return false
}

// cheaperDamper reports whether something that meets what the choice meets costs
// less and gets damper.
func cheaperDamper(p *plan.Place) bool {
	for i := range p.Candidates {
		c := &p.Candidates[i]
		if !c.Excluded() && c.Heat.MeetsTarget && c.Damp.Risk() > p.Choice.Damp.Risk() && c.Money.PerFt2.Typical < p.Choice.Money.PerFt2.Typical {
			return true
		}
	}
	return false
}

// No priority, no budget and no rung of the ladder buys mold while another
// answer of the place is drier; and no place loses its plan over it.
func TestNoMoldForMoney(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 8))
	tempted := 0
	floor := "kind = \"crawl-space\"\nvented = true\ndampness = \"dry\"\nground_cover = false\narea_ft2 = 1144\nframing.size = "
	a := plan.Assess(fixture.Judged(t, fixture.OfPlaces(t, "state = \"LA\"\ncounty = \"Orleans\"\ncooled = true", floor+"\"2x8\"", floor+"\"2x6\"", "kind = \"attic\"\narea_ft2 = 1144")))
	for range 60 {
		levels := map[string]float64{}
		for id := range even {
			levels[id] = float64(rng.IntN(6))
		}
		free := a.Weigh(plan.Preferences{Priorities: levels})
		budget := units.Cents(float64(free.Bill.Money.Total.Typical) * rng.Float64() * 1.2)
		tight := a.Weigh(plan.Preferences{Priorities: levels, HasBudget: true, Budget: budget, Stakes: "heat"})
		for _, p := range []plan.Plan{free, tight} {
			for i := range p.Places {
				place := &p.Places[i]
				if place.Choice == nil {
					continue
				}
				require.False(t, drier(place), "%s: %s", place.Surface.ID, place.Choice.MaterialID)
				if cheaperDamper(place) {
					tempted++
				}
			}
		}
		rungs := a.Ladder(free, "heat")
		for _, r := range rungs {
			for _, c := range r.Changes {
				require.GreaterOrEqual(t, c.From.Damp.Risk(), c.To.Damp.Risk(), "a higher rung gets damper: %s", c.Label)
				require.LessOrEqual(t, c.From.Damp.Risk(), c.To.Damp.Risk(), "a lower rung gets damper: %s", c.Label)
			}
		}
	}
	require.Positive(t, tempted, "nothing in the draw would save money by getting damp: the test says nothing")
}
