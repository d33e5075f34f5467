package pages_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func placeOf(t *testing.T, site, keys string) plan.Place {
	t.Helper()
	return plan.Make(fixture.OfPlaces(t, site, "id = \"here\"\n"+keys)).Places[0]
}

// A damp verdict never stands without what it counts on: the board that is to
// buy, the dehumidifier, the layer under the joists.
func TestDampVerdictNamesWhatItCountsOn(t *testing.T) {
	set := fixture.Catalog(t).Settings
	wall := placeOf(t, "zone = \"6A\"", "kind = \"exterior-wall\"")
	text := pages.DampText(wall.Choice.Damp, units.US)
	require.Contains(t, text, "with the R-5 board: ")
	require.Contains(t, text, "Without the board this was not checked.")
	there := pages.DampText(placeOf(t, "zone = \"6A\"", "kind = \"exterior-wall\"\nci_r = 5").Choice.Damp, units.US)
	require.NotContains(t, there, "board: ")

	basement := "kind = \"basement-wall\"\nfoam_r = 10\ndampness = \"dry\"\n"
	dry := pages.DampText(placeOf(t, "zone = \"5A\"", basement+"dehumidifier = true").Choice.Damp, units.US)
	require.Contains(t, dry, "if the dehumidifier runs from May to September: ")
	require.NotContains(t, pages.DampText(placeOf(t, "zone = \"5A\"", basement).Choice.Damp, units.US), "dehumidifier")

	hot := "state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true"
	floor := "kind = \"crawl-space\"\nvented = true"
	d := placeOf(t, hot, floor).Choice.Damp
	require.Contains(t, pages.DampText(d, units.US), "with the layer under the joists: ")
	require.Contains(t, d.Layers, "the layer under the joists")
	require.Less(t, d.WorstRH, 0.85, "by hand about 77 % at the subfloor behind one perm, 90 % without")
	require.NotContains(t, placeOf(t, "zone = \"6A\"", floor).Choice.Damp.Layers, "the layer under the joists")
	require.NotEmpty(t, set.UnderJoistsPerm)
}

// Months above the line that are not counted are named, each with its reason.
func TestMonthsThatDoNotCountAreNamed(t *testing.T) {
	set := fixture.Catalog(t).Settings
	met := 0
	for _, zone := range []string{"4A", "4C", "5A", "6A", "7", "8"} {
		for _, keys := range []string{"kind = \"exterior-wall\"", "kind = \"exterior-wall\"\nci_r = 5", "kind = \"crawl-space\"", "kind = \"basement-wall\"\ndehumidifier = true"} {
			d := placeOf(t, "zone = \""+zone+"\"", keys).Choice.Damp
			over := 0
			for _, rh := range d.RH {
				if rh > set.MoldRH {
					over++
				}
			}
			limits := pages.DampLimits(d, set, units.US)
			if d.Verdict != candidate.NoBuildUp || over == 0 {
				require.Len(t, limits, 1)
				continue
			}
			met++
			require.Equal(t, over, len(d.TooCold)+len(d.AsOutdoors)+len(d.TooFew), "%s %s", zone, keys)
			require.Contains(t, limits[0], "not counted as a mold risk")
			for _, list := range [][]int{d.TooCold, d.AsOutdoors, d.TooFew} {
				if len(list) > 0 {
					require.Contains(t, limits[0], pages.MonthSpans(list))
				}
			}
		}
	}
	require.Positive(t, met)
	for want, list := range map[string][]int{
		"December to February": {1, 2, 12}, "June": {6}, "January and March to April": {1, 3, 4},
		"July and November to December": {7, 11, 12}, "every month": {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12},
	} {
		require.Equal(t, want, pages.MonthSpans(list), list)
	}
}

// The R of the whole surface names all that it counts.
func TestWholeSurfaceNamesItsParts(t *testing.T) {
	gives := func(site, keys string) string {
		for _, l := range pages.PlaceRows(placeOf(t, site, keys), pages.Options{Catalog: fixture.Catalog(t)}) {
			if l.Label == "Gives" {
				return l.Text
			}
		}
		return ""
	}
	require.Contains(t, gives("zone = \"6A\"", "kind = \"exterior-wall\""), "with its wood and the R-5 board to buy: about")
	require.Contains(t, gives("zone = \"6A\"", "kind = \"exterior-wall\"\nci_r = 5"), "with its wood and the R-5 board you said is there: about")
	require.Contains(t, gives("zone = \"5A\"", "kind = \"basement-wall\""), "with its wood, the R-10 board to buy and the concrete: about")
	require.Contains(t, gives("zone = \"5A\"", "kind = \"attic\"\nexisting_r = 19"), "with its wood and the old R-19: about")
}

// The damp of a rim is worked out without the foam that the plan asks for in each
// of its bays: the line says so, and nothing calls what is not planned not to be
// built. Foam is the first answer wherever a blanket alone gathers damp outside
// the zones where the damp comes from outdoors (practice), and no page promises
// it that the others leave out.
func TestRimSaysThatItsFoamIsNotInTheCheck(t *testing.T) {
	for site, left := range map[[2]string]bool{
		{"VT", "Chittenden"}: true, {"OR", "Multnomah"}: true, {"MO", "Boone"}: true, {"PA", "Allegheny"}: true, {"GA", "Fulton"}: true,
		{"TX", "El Paso"}: false, {"FL", "Duval"}: false,
	} {
		p := plan.Make(fixture.OfPlaces(t, "state = \""+site[0]+"\"\ncounty = \""+site[1]+"\"", "id = \"r\"\nkind = \"rim-joist\"\nlabel = \"Rim\"\nlength_ft = 60\nci_r = 0"))
		place := p.Places[0]
		require.NotNil(t, place.Choice, site)
		require.True(t, place.Choice.Damp.Checked, site)
		require.Equal(t, left, slices.ContainsFunc(place.Require, func(h rules.Hit) bool { return h.Rule.Effect.Need == "foam-in-bays" }), site)
		require.Equal(t, left, strings.Contains(place.Choice.Facing.Why, "foam board cut to each bay"), site)
		require.Equal(t, left, slices.ContainsFunc(place.Safety, func(h rules.Hit) bool { return strings.Contains(h.Text, "foam board to each bay") }), site)
		said := pages.DampText(place.Choice.Damp, units.US)
		require.Equal(t, left, strings.Contains(said, "worked out without the foam that goes into each bay, which makes it drier"), said)
		if left {
			require.NotContains(t, print.Text(pages.PlanPage(p, planned.Options(t)), planned.Options(t).Width), "do not build it this way")
			require.Contains(t, pages.Glance(place, planned.Options(t)), "without the foam in its bays", "it gets damp here without")
		}
	}
}

// A blanket against the subfloor and the layer under deep joists do not touch: the
// plane between them is named by the air that lies there.
func TestThePlaneUnderDeepJoistsIsNamed(t *testing.T) {
	named := map[string]bool{}
	for _, size := range []string{"2x6", "2x8", "2x10", "2x12"} {
		p := plan.Make(fixture.Read(t, "version = 1\nold = false\n[site]\nstate = \"FL\"\ncounty = \"Duval\"\ncooled = true\n[[place]]\nid = \"c\"\nkind = \"crawl-space\"\nvented = true\ndampness = \"dry\"\nground_cover = true\nframing.size = \""+size+"\"\n"))
		for _, c := range p.Places[0].Candidates {
			if !strings.Contains(c.Damp.Where, "layer under the joists") {
				continue
			}
			air := c.HeightIn < p.Places[0].Surface.Frame.RoomIn
			require.Equal(t, air, strings.Contains(c.Damp.Where, "the air above the layer under the joists"), c.Damp.Where)
			named[fmt.Sprint(air)] = true
		}
	}
	require.True(t, named["true"])
}

// A damp place whose drier blanket falls short points to no reason that is printed
// nowhere.
func TestDampPointsToNothingUnsaid(t *testing.T) {
	p := placeOf(t, "state = \"MN\"\ncounty = \"St. Louis\"\ncode = \"irc-2021\"\nindoor = \"humid\"", "kind = \"rim-joist\"\nframing.size = \"2x10\"")
	require.False(t, p.AllDamp())
	require.Equal(t, "; STAYS WET (worked out without the foam in its bays, which makes it drier)", pages.DampAtAGlance(p))
}
