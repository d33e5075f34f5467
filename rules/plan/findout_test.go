package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

func foundOut(t testing.TB, text string) map[string]plan.Said {
	t.Helper()
	assessed := plan.Assess(fixture.Read(t, text))
	prefs := plan.PreferencesOf(assessed.Answered, nil)
	out := map[string]plan.Said{}
	for _, s := range listed(assessed, prefs) {
		out[s.Key] = s
	}
	return out
}

func listed(a plan.Assessment, p plan.Preferences) []plan.Said {
	list, _ := a.FindOut(p, a.Weigh(p), plan.Whole)
	return list
}

// Whoever waits hears of each question once, in order, and can leave at any.
func TestFindingOutTellsHowFarItIsAndStops(t *testing.T) {
	assessed := plan.Assess(fixture.Read(t, fixture.PlacesText("zone = \"6A\"", "id = \"a\"\nkind = \"attic\"")))
	prefs := plan.PreferencesOf(assessed.Answered, nil)
	base := assessed.Weigh(prefs)
	var heard []int
	list, ok := assessed.FindOut(prefs, base, func(done, all int) bool {
		require.GreaterOrEqual(t, all, len(base.Unknown))
		heard = append(heard, done)
		return done < 3
	})
	require.False(t, ok)
	require.Nil(t, list)
	require.Equal(t, []int{0, 1, 2, 3}, heard)
}

// State and county cannot be tried, but without the zone there is no target:
// they matter until it is known, and not after.
func TestWhereTheHouseStandsMatters(t *testing.T) {
	said := foundOut(t, fixture.PlacesText("indoor = \"usual\"", "id = \"a\"\nkind = \"attic\""))
	for _, key := range []string{"site.state", "site.county"} {
		require.True(t, said[key].Matters, key)
		require.Contains(t, said[key].Effect, "no target", key)
	}
	said = foundOut(t, fixture.PlacesText("zone = \"6A\"", "id = \"a\"\nkind = \"attic\""))
	require.Contains(t, said, "site.county")
	require.False(t, said["site.county"].Matters)
}

// An answer that only brings a caution is not said to change nothing.
func TestCautionsAreNotNothing(t *testing.T) {
	said := foundOut(t, fixture.PlacesText("zone = \"6A\"", "id = \"a\"\nkind = \"attic\""))
	for _, key := range []string{"place.non_ic_lights", "place.flue_through", "place.bath_fan_outside", "shape.chimney"} {
		require.Contains(t, said, key)
		require.False(t, said[key].Matters, key)
		require.Contains(t, said[key].Effect, "find out before work begins", key)
	}
}

func TestNothingIsTriedOnNoPlace(t *testing.T) {
	said := foundOut(t, "version = 1\n[site]\nzone = \"6A\"\n")
	require.NotEmpty(t, said)
	for key, s := range said {
		require.False(t, s.Matters, key)
		require.Contains(t, s.Effect, "when the house has places", key)
	}
}

// Without a budget an answer about one place is weighed for that place alone.
// With a budget that nobody could spend all places are weighed, and the list
// must be the same.
func TestOnePlaceWeighedIsTheHouseWeighed(t *testing.T) {
	for _, name := range demo.Names() {
		assessed := plan.Assess(fixture.Demo(t, name))
		free := plan.PreferencesOf(assessed.Answered, nil)
		free.HasBudget = false
		rich := free
		rich.HasBudget, rich.Budget = true, 1<<40
		require.Equal(t, listed(assessed, rich), listed(assessed, free), name)
	}
}

// What one question costs does not grow with the places of the house: a clone
// for one place copies its answers and no others.
func TestCloneForOnePlace(t *testing.T) {
	h := fixture.Demo(t, demo.Default).House
	c := h.CloneFor(h.Places[1].ID)
	c.Places[1].Answers.Set("label", house.Text("another"))
	require.NotEqual(t, "another", h.Places[1].Answers["label"].Text)
	require.Equal(t, h.Places[0], c.Places[0])
	few, many := testing.AllocsPerRun(5, func() { h.CloneFor(h.Places[0].ID) }), 0.0
	for range 6 {
		h.Places = append(h.Places, h.Clone().Places...)
	}
	many = testing.AllocsPerRun(5, func() { h.CloneFor(h.Places[0].ID) })
	require.Equal(t, few, many)
}

// Drawings whose figures nobody typed lead the list, the year of the code right
// behind them; both are gone when the figures are there.
func TestDrawingsAndCodeLeadTheList(t *testing.T) {
	keys := func(text string) (out []string, p plan.Plan) {
		assessed := plan.Assess(fixture.Read(t, text))
		prefs := plan.PreferencesOf(assessed.Answered, nil)
		p = assessed.Weigh(prefs)
		for _, s := range listed(assessed, prefs) {
			out = append(out, s.Key)
			require.True(t, s.Matters || s.Key != "drawings" && s.Key != "site.code", s.Key)
		}
		return out, p
	}
	const head, places = "version = 1\nstage = \"framed\"\ndrawings = true\n", "[site]\nstate = \"NC\"\ncounty = \"Buncombe\"\n[[place]]\nkind = \"attic\"\n[[place]]\nkind = \"exterior-wall\"\n"
	list, p := keys(head + places)
	require.Equal(t, []string{"drawings", "site.code", "old"}, list[:3])
	require.Equal(t, []string{"Attic floor", "Exterior wall"}, p.Undrawn)
	list, p = keys(head + "[drawing_r]\nattic = 38\nwall = 15\n" + places)
	require.NotContains(t, list, "drawings")
	require.NotContains(t, list, "site.code", "no target is the code's any longer")
	require.Empty(t, p.Undrawn)
	require.InDelta(t, 38, p.Places[0].Target.CavityR, 1e-9)
	require.InDelta(t, 15, p.Places[1].Target.CavityR, 1e-9)
	// Without drawings the year is asked for all the same: it sets the targets.
	list, _ = keys("version = 1\ndrawings = false\nold = false\n" + places)
	require.Equal(t, "site.code", list[0])
}

// The year of the code is on the list while nobody said it and another year
// changes the plan; once it is said it is no question any more.
func TestTheCodeYearIsAskedUntilItIsSaid(t *testing.T) {
	house := func(code string) string {
		return "version = 1\n[site]\nstate = \"NC\"\ncounty = \"Buncombe\"\n" + code + "[[place]]\nkind = \"attic\"\n"
	}
	silent := foundOut(t, house(""))
	require.True(t, silent["site.code"].Matters, "an attic needs another R by another year")
	for _, year := range []string{"irc-2009", "irc-2018", "irc-2021"} {
		require.NotContains(t, foundOut(t, house("code = \""+year+"\"\n")), "site.code", year)
	}
}
