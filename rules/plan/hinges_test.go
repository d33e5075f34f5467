package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// An answer that nobody gave and that decides about damp is on the list of what is not
// known, with what would change, though it is assumed: a basement in the north is
// given wool only because no dehumidifier is assumed to run, in Miami a wall is damp
// only because there may be vinyl on its drywall. Once it is answered, it does as said.
func TestAnswersThatDecideAboutDampAreAskedFor(t *testing.T) {
	basement := func(more string) string {
		return "version = 1\nold = false\n[site]\nstate = \"SD\"\ncounty = \"Brookings\"\ncode = \"irc-2021\"\nindoor = \"usual\"\n[[place]]\nid = \"b\"\nkind = \"basement-wall\"\nlabel = \"Basement\"\nlength_ft = 144\nheight_ft = 8\ndampness = \"dry\"\nabove_grade_ft = 2\nframing.spacing_in = 24\n" + more +
			"[priorities]\ncost = 3\nsound = 1\nirritants = 1\nfire = 4\nmoisture = 5\n"
	}
	wall := func(more string) string {
		return fixture.PlacesText("state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true\nindoor = \"usual\"", "id = \"b\"\nkind = \"exterior-wall\"\nlabel = \"Wall\"\nframing.size = \"2x4\"\nci_r = 0\narea_ft2 = 400\nrule_out = [\"cotton\", \"sheeps-wool\", \"mineral-wool\"]\n"+more)
	}
	for _, c := range []struct {
		text         func(string) string
		key, answer  string
		no           string
		calms, other bool
	}{
		{basement, "dehumidifier", "true", "false", false, true},
		{wall, "inside_cover", "\"paint\"", "\"wallpaper-or-vinyl\"", true, false},
	} {
		assessed := plan.Assess(fixture.Judged(t, fixture.Read(t, c.text(""))))
		prefs := plan.PreferencesOf(assessed.Answered, nil)
		open := assessed.Weigh(prefs)
		place := open.Places[0]
		require.Equal(t, c.calms, place.Choice.Damp.Alarm())
		require.Len(t, place.Hinges, 1, c.key)
		h := place.Hinges[0]
		require.Equal(t, []any{"place." + c.key, c.calms, c.other}, []any{h.Key, h.Calms, !h.Same})
		found, _ := assessed.FindOut(prefs, open, plan.Whole)
		for name, list := range map[string][]plan.Said{"plan": open.Unknown, "find-out list": found} {
			var said plan.Said
			for _, s := range list {
				if s.Key == h.Key && s.Place == "b" {
					said = s
				}
			}
			require.True(t, said.Matters, "%s: %s", name, c.key)
			require.Equal(t, h.Text(place.Surface.Label, assessed.Answered.System), said.Effect, name)
		}
		then := plan.Make(fixture.Judged(t, fixture.Read(t, c.text(c.key+" = "+c.answer+"\n")))).Places[0]
		require.False(t, then.Choice.Damp.Alarm(), c.key)
		require.Equal(t, h.To, then.Choice.Name, c.key)
		require.Equal(t, h.Costs, place.More(&then.Choice.Assessed))
		require.Empty(t, plan.Make(fixture.Judged(t, fixture.Read(t, c.text(c.key+" = "+c.no+"\n")))).Places[0].Hinges, "answered: %s", c.key)
	}
}
