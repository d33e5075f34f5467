package plan_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

func num(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// Entries are ranked as said: what meets its target and is not held back
// first, then the rest, each the drier first and then by score; what is out has no rank.
func TestRankingIsInOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 60 {
		p := plan.Make(fixture.RandomHouse(t, rng))
		for _, place := range p.Places {
			require.Len(t, place.Entries, len(materials))
			checkRanking(t, place)
		}
	}
}

// tierOf: what meets its target, then what falls short, then what a rule ranks
// below the others whatever it meets; in each the nearer to its target, by whole R,
// then the drier.
func tierOf(a candidate.Assessed, waived bool) int {
	tier := 1
	switch {
	case a.Demoted():
		tier = 2
	case a.Heat.MeetsTarget:
		tier = 0
	}
	const risks, farthest = 2, 1000
	short := 0
	if !waived && !a.Heat.MeetsTarget {
		short = int(math.Round(a.Heat.ShortByR))
	}
	return (tier*farthest+short)*risks + a.Damp.Risk()
}

func checkRanking(t *testing.T, place plan.Place) {
	t.Helper()
	for i, e := range place.Entries {
		require.Equal(t, e.Usable(), e.Rank > 0)
		if !e.Usable() {
			continue
		}
		require.Equal(t, i+1, e.Rank)
		sum := 0.0
		for _, part := range e.Parts {
			require.GreaterOrEqual(t, part, 0.0)
			sum += part
		}
		require.InDelta(t, e.Score, sum, 1e-9)
		require.LessOrEqual(t, e.Score, 100.0+1e-9)
		if i > 0 {
			before := place.Entries[i-1]
			require.LessOrEqual(t, tierOf(before.Assessed, place.Surface.Waived), tierOf(e.Assessed, place.Surface.Waived))
			require.True(t, tierOf(before.Assessed, place.Surface.Waived) < tierOf(e.Assessed, place.Surface.Waived) || before.Score >= e.Score)
		}
		for _, o := range e.Others {
			require.Equal(t, e.MaterialID, o.Material.ID)
			require.True(t, o.Excluded() || tierOf(*o.Assessed, place.Surface.Waived) >= tierOf(e.Assessed, place.Surface.Waived), "a stack that meets the target is passed over")
		}
	}
	free := !place.Stopped() && place.Surface.Held() == "" && !place.Target.Idle
	require.Equal(t, free && slices.ContainsFunc(place.Entries, plan.Entry.Usable), place.Choice != nil)
	if place.Choice != nil && place.Best == nil {
		require.Equal(t, 1, place.Choice.Rank)
	}
}

// Fiberglass always ranks below mineral wool at a chimney, whatever matters.
func TestMineralWoolFirstAtChimneys(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	// Also where the bay cannot hold what an outside wall or the drawings ask.
	for _, place := range []string{"chimney = \"masonry-inside\"", "chimney = \"masonry-outside\"", "chimney = \"masonry-in-wall\"\ntarget_r = 60", "chimney = \"type-b-vent\"\nclearance_in = 1"} {
		a := plan.Assess(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"here\"\nkind = \"chimney\"\nframing.size = \"2x8\"\n"+place))
		for range 25 {
			levels := map[string]float64{}
			for id := range even {
				levels[id] = float64(rng.IntN(6))
			}
			p := a.Weigh(plan.Preferences{Priorities: levels}).Places[0]
			require.Equal(t, "mineral-wool", p.Choice.MaterialID, "%s %v", place, levels)
			require.Equal(t, 2, p.EntryOf("fiberglass").Rank)
			for _, id := range []string{"cotton", "sheeps-wool"} {
				require.False(t, p.EntryOf(id).Usable())
			}
		}
	}
}

// What the builder rules out is out, in one place or in all of them, and
// nothing else moves.
func TestRuleOut(t *testing.T) {
	for _, id := range materials {
		site := "zone = \"6A\""
		here := fixture.OfPlaces(t, site, "id = \"a\"\nkind = \"exterior-wall\"\nrule_out = [\""+id+"\"]", "id = \"b\"\nkind = \"exterior-wall\"")
		p := plan.Make(here)
		require.False(t, p.Places[0].EntryOf(id).Usable())
		require.True(t, p.Places[1].EntryOf(id).Usable())
		require.NotEqual(t, id, p.Places[0].Choice.MaterialID)
		everywhere := fixture.Copy(here)
		everywhere.House.Answers.Set("rule_out", house.List(id))
		for _, place := range plan.Make(everywhere).Places {
			require.False(t, place.EntryOf(id).Usable())
			require.NotEqual(t, id, place.Choice.MaterialID)
		}
	}
	all := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"a\"\nkind = \"exterior-wall\"\nrule_out = [\"fiberglass\", \"cotton\", \"mineral-wool\", \"sheeps-wool\"]"))
	require.Nil(t, all.Places[0].Choice)
	require.Zero(t, all.Bill.Money.Total)
}

// A pinned material is kept under all priorities, and the best of the rest is
// still named; a pin never brings back what is excluded.
func TestPin(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 9))
	for _, id := range materials {
		a := plan.Assess(fixture.OfPlaces(t, "zone = \"4A\"", "id = \"a\"\nkind = \"exterior-wall\"\nframing.size = \"2x4\"\nci_r = 10\npin = \""+id+"\""))
		for range 20 {
			levels := map[string]float64{}
			for k := range even {
				levels[k] = float64(rng.IntN(6))
			}
			p := a.Weigh(plan.Preferences{Priorities: levels}).Places[0]
			require.Equal(t, id, p.Choice.MaterialID)
			require.Equal(t, p.Choice.Rank == 1, p.Best == nil)
			if p.Best != nil {
				require.Equal(t, 1, p.Best.Rank)
			}
		}
	}
	p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"a\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\npin = \"cotton\"")).Places[0]
	require.Equal(t, "mineral-wool", p.Choice.MaterialID)
	p = plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"a\"\nkind = \"exterior-wall\"\npin = \"cotton\"\nrule_out = [\"cotton\"]")).Places[0]
	require.NotEqual(t, "cotton", p.Choice.MaterialID)
}

// Every question that decides safety brings a caution when the answer is
// "don't know" and when nobody was asked.
func TestUnknownSafetyAnswersCaution(t *testing.T) {
	l := fixture.List(t)
	n := 0
	for _, kind := range l.PlaceKinds() {
		for _, q := range l.In(house.PlaceScope, kind) {
			if !q.Safety {
				continue
			}
			for _, answer := range []house.Answer{house.DontKnow(), {}} {
				a := fixture.Copy(fixture.OfPlaces(t, "zone = \"6A\"", fmt.Sprintf("id = \"here\"\nkind = %q", kind)))
				a.House.Answers.Set("old", house.YesNo(true))
				a.House.Places[0].Answers.Set(q.Key, answer)
				p := plan.Make(a)
				fired := 0
				for _, h := range p.Places[0].Safety {
					if slices.Contains(h.Unknown, q.Key) || q.Key == "chimney" && slices.Contains(h.Unknown, "clearance_in") {
						fired++
						require.NotEmpty(t, h.Text)
					}
				}
				require.Positive(t, fired, "%s: %s not known", kind, q.Key)
				said := slices.ContainsFunc(p.Unknown, func(s plan.Said) bool { return s.Place == "here" && s.Key == q.FullKey() })
				require.True(t, said, "%s: %s is on the list of unknowns", kind, q.Key)
				n++
			}
		}
	}
	require.Greater(t, n, 20)
}

// A place that is stopped costs nothing and its reason is the text of a rule
// that really stops.
func TestStoppedPlacesCostNothing(t *testing.T) {
	rng := rand.New(rand.NewPCG(10, 10))
	stopped := 0
	for range 80 {
		p := plan.Make(fixture.RandomHouse(t, rng))
		for _, place := range p.Places {
			stops := slices.ContainsFunc(place.Safety, func(h ruleHit) bool { return h.Rule.Effect.Stops && len(h.Unknown) == 0 })
			require.Equal(t, stops, place.Stopped())
			if stops {
				stopped++
			}
		}
	}
	require.Positive(t, stopped)
}

// How sure a choice is can be said of every place that has one, is the same
// every time, and counts no more than a hundred ways.
func TestSureOfEveryChoice(t *testing.T) {
	for _, name := range demo.Names() {
		p := plan.Make(fixture.Demo(t, name))
		for _, place := range p.Places {
			s := place.SureOf(5)
			require.Equal(t, place.Choice != nil, s.Known, "%s %s", name, place.Surface.ID)
			require.Equal(t, s, place.SureOf(5))
			require.True(t, s.WinsOf100 >= 0 && s.WinsOf100+s.RunnerWins <= 100)
			if s.Equal {
				require.Less(t, s.Lead, 5.0)
			}
		}
	}
}

// A switch that is named does switch: weighing with it changes the choice to
// the material it names.
func TestNamedSwitchesSwitch(t *testing.T) {
	n := 0
	for _, name := range demo.Names() {
		a := fixture.Demo(t, name)
		assessed := plan.Assess(a)
		prefs := plan.PreferencesOf(a, nil)
		base := assessed.Weigh(prefs)
		for i, place := range base.Places {
			for _, s := range place.SureOf(5).Switches {
				with := plan.Preferences{Priorities: prefs.Priorities, Places: map[string]map[string]float64{}}
				own := map[string]float64{}
				for k, criterion := range base.Priorities {
					own[criterion.ID] = place.Levels[k]
				}
				own[base.Priorities[s.Priority].ID] = float64(s.Whole)
				with.Places[place.Surface.ID] = own
				got := assessed.Weigh(with).Places[i]
				require.Equal(t, s.To, got.Choice.MaterialID, "%s %s: %s at %d", name, place.Surface.ID, base.Priorities[s.Priority].ID, s.Whole)
				n++
			}
		}
	}
	require.Greater(t, n, 10)
}
