package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// What the damp check takes for granted and somebody found bad is a condition of its
// verdict (IRC R806 and R408: vents, R303: fans that blow outdoors).
func TestWhatWasFoundBadIsSaidWithTheDamp(t *testing.T) {
	const head = "version = 1\nold = false\n[site]\nstate = \"NY\"\ncounty = \"Oneida\"\ncode = \"irc-2021\"\n[[place]]\nid = \"x\"\narea_ft2 = 900\n"
	const attic = head + "kind = \"attic\"\nflue_through = false\nnon_ic_lights = false\nbath_fan_outside = true\nvents_ok = true\nframing.size = \"2x10\"\nframing.spacing_in = 16\n"
	const crawl = head + "kind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x10\"\nframing.spacing_in = 16\n"
	const wall = head + "kind = \"exterior-wall\"\nframing.size = \"2x6\"\nframing.spacing_in = 16\n"
	for name, x := range map[string]struct{ house, see, says string }{
		"vents":         {attic, "vents", "Damp once the vents of the roof are open: "},
		"eaves":         {attic, "eaves", "Damp once the vents of the roof are open: "},
		"fans":          {attic, "fans", "Damp once the fans blow outdoors: "},
		"bare earth":    {crawl, "ground-sheet", "Damp once the earth below is covered: "},
		"holes":         {wall, "holes-sealed", "Damp WORSE THAN PLANNED: with the R-5 board, which nobody has seen yet: holes are open: mold grows"},
		"another fault": {attic, "hatch", ""},
	} {
		j := planned.Job(fixture.Judged(t, fixture.Read(t, x.house)))
		c := j.Plan.Places[0].Choice
		require.NotNil(t, c, name)
		asPlanned := "version = 1\n[[place]]\nid = \"x\"\nmaterial = \"" + c.Material.ID + "\"\nfacing = \"" + c.Facing.OnBlanket + "\"\nfacing_side = \"room\"\nsheet = \"none\"\nvoid_pct = 1\nsqueezed_pct = 0\n"
		for see, says := range map[string]string{"good": "", "bad": x.says} {
			text := spaced(print.Text(pages.FoundPage(j, found(t, j, asPlanned+"see."+x.see+" = \""+see+"\"\n"), planned.Options(t)), 78))
			require.Contains(t, text, "; the plan: ", name)
			for _, condition := range []string{"once the vents", "once the fans", "once the earth", "holes are open", "WORSE"} {
				require.Equal(t, strings.Contains(says, condition), strings.Contains(text, condition), "%s %s: %s", name, see, text)
			}
			require.Contains(t, text, says, name)
		}
	}
}

// The damp check of the roof boards takes the vents as open, and the caution about
// vents that are not says so.
func TestClosedVentsDoNotDenyTheCheckOfTheRoof(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\nstate = \"MA\"\ncounty = \"Worcester\"\n[[place]]\nkind = \"attic\"\nvents_ok = false\narea_ft2 = 912\n")
	text := spaced(print.Text(pages.PlanPage(planned.Job(fixture.Judged(t, a)).Plan, planned.Options(t)), 78))
	require.Contains(t, text, "Damp once the vents of the roof are open")
	require.NotContains(t, text, "We do not check what happens above the ceiling")
	require.Contains(t, text, "these vents are taken as open")
}
