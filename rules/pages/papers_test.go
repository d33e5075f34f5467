package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// papers are all that somebody takes to the store, hands over or carries up the
// ladder, by name.
func papers(t *testing.T, a house.Answered) map[string]string {
	t.Helper()
	o, j := planned.Options(t), planned.Job(a)
	made := order.Make(j.Plan, a)
	out := map[string]string{
		"order": print.Text(pages.OrderPage(made, j.Plan, o), o.Width), "order markdown": print.Markdown(pages.OrderPage(made, j.Plan, o)),
		"ask": print.Text(pages.AskPage(made, j.Plan, o), o.Width), "form": print.Text(pages.FormPage(j), o.Width),
		"offer template": inspect.OfferTemplate(j), "inspect template": inspect.FoundTemplate(inspect.FoundList(o.Catalog), j),
	}
	var err error
	out["handover"], err = planned.Handed(pages.Handover{Job: j}, o)
	require.NoError(t, err)
	out["handover markdown"], err = planned.HandedMarkdown(pages.Handover{Job: j}, o)
	require.NoError(t, err)
	for _, person := range inspect.Persons() {
		out["page "+person], err = planned.Handed(pages.Handover{Job: j, Person: person}, o)
		require.NoError(t, err)
	}
	return out
}

// A burner that draws its air from a closed crawl space can kill: it is looked
// at before the crawl space is closed, and no finished work passes without.
func TestBurnerAirOfAClosedCrawlSpace(t *testing.T) {
	const head = "version = 1\nold = false\n[site]\nstate = \"MO\"\ncounty = \"St. Louis\"\n[[place]]\nkind = \"crawl-space\"\ndampness = \"dry\"\nground_cover = true\n"
	closed := papers(t, fixture.Read(t, head+"vented = false\nwall_height_ft = 4\nfoam_r = 10\n"))
	vented := papers(t, fixture.Read(t, head+"vented = true\n"))
	for paper, want := range map[string]string{
		"order": "none draws its air from the closed crawl space", "handover": "none draws its air from the closed crawl space",
		"page installer": "none draws its air from the closed crawl space", "page plumber": "none draws its air from the closed crawl space",
		"page self": "none draws its air from the closed crawl space", "form": "STOP if not: No burner draws its air from the closed crawl space",
		"inspect template": "No burner draws its air from the closed crawl space",
	} {
		require.Contains(t, spaced(closed[paper]), want, paper)
		require.NotContains(t, spaced(vented[paper]), want, paper)
	}
}

// Fill in an attic is asked about, known or not, on every paper of each place
// that opens to it (practice), and the fireblock up there waits.
func TestFillOfTheAtticHeadsEveryPaper(t *testing.T) {
	const below = "\nknob_and_tube = false\n[[place]]\nkind = \"sloped-ceiling\"\nlabel = \"Slope\"\nknob_and_tube = false\n[[place]]\nkind = \"exterior-wall\"\nlabel = \"Wall\"\nknob_and_tube = false\n[[place]]\nkind = \"chimney\"\nlabel = \"Brick\"\nchimney = \"masonry-inside\"\ngap_in = 2\nframing.size = \"2x8\"\nknob_and_tube = false\n"
	for answer, want := range map[string]int{"true": 3, "\"unknown\"": 3, "false": 0} {
		a := fixture.Read(t, "version = 1\nold = true\nstage = \"wired\"\n[site]\nzone = \"4A\"\n[[place]]\nkind = \"attic\"\nvermiculite = "+answer+below)
		for paper, text := range papers(t, a) {
			require.GreaterOrEqual(t, strings.Count(spaced(text), "spaces of this framing"), want, "%s %s", answer, paper)
			if want == 0 {
				require.NotContains(t, text, "FIND OUT FIRST", paper)
			}
		}
		require.Equal(t, want > 0, strings.Contains(spaced(papers(t, a)["order"]), "WAIT: the one at the attic"), answer)
	}
}

// What falls short of what is asked is said on every paper that names the blanket,
// and no set that falls short is said to keep the targets.
func TestShortIsOnEveryPaper(t *testing.T) {
	const slope = "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"s\"\nkind = \"sloped-ceiling\"\nlabel = \"Slope\"\narea_ft2 = 400\nframing.spacing_in = 16\n[budget]\ntotal_usd = 10\n"
	for size, want := range map[string]bool{"framing.size = \"2x8\"\n": true, "target_r = 19\nframing.size = \"2x12\"\n": false} {
		a := fixture.Read(t, strings.Replace(slope, "[budget]", size+"[budget]", 1))
		all := papers(t, a)
		for _, paper := range []string{"page electrician", "page plumber", "offer template"} {
			delete(all, paper) // they name no blanket, or what the bidder is asked for
		}
		for paper, text := range all {
			require.Equal(t, want, strings.Contains(spaced(text), "SHORT by R-"), "%s %s", paper, size)
		}
		money := pages.MoneyText(planned.Job(a).Plan, units.US)
		require.Equal(t, want, strings.Contains(money, "Even the cheapest set that falls no shorter than it must, at Slope"), money)
		require.Equal(t, !want, strings.Contains(money, "keeps the targets"), money)
	}
}

// The set that falls short by least is not called the cheapest where another costs
// less and falls short by more: that one is named.
func TestACheaperSetThatFallsShorterIsNamed(t *testing.T) {
	const slope = "version = 1\nold = false\n[site]\nzone = \"2A\"\n[[place]]\nid = \"s\"\nkind = \"sloped-ceiling\"\nlabel = \"Slope\"\narea_ft2 = 700\nframing.size = \"2x8\"\nframing.spacing_in = 24\n"
	money := func(more string) string {
		return pages.MoneyText(planned.Job(fixture.Read(t, slope+more+"[budget]\ntotal_usd = 10\n")).Plan, units.US)
	}
	p := planned.Job(fixture.Read(t, slope+"[budget]\ntotal_usd = 10\n")).Plan.Places[0]
	c := p.CheaperShorter()
	require.Greater(t, c.Heat.ShortByR, p.Choice.Heat.ShortByR)
	require.Less(t, c.Money.PerFt2.Typical, p.Choice.Money.PerFt2.Typical)
	require.Contains(t, money(""), "A cheaper set falls short by more: "+c.Material.Name+" at Slope, short by "+units.US.R(c.Heat.ShortByR))
	require.NotContains(t, money("waive_target = true\n"), "no shorter than it must")
	require.Contains(t, money("waive_target = true\n"), "you allow, short at Slope")
}

// Board that is there is not said to be on the list to buy, board there and board to
// buy are one figure for the damp check, and the certificate names the layer that
// counts less than its bag.
func TestBoardAndLayersAreCountedOnce(t *testing.T) {
	plan := func(house string) string {
		p := planned.Job(fixture.Judged(t, fixture.Read(t, house))).Plan
		return spaced(print.Text(pages.PlanPage(p, planned.Options(t)), 78))
	}
	require.Contains(t, plan("version = 1\nold = false\n[site]\nzone = \"2A\"\n[[place]]\nkind = \"crawl-space\"\nvented = false\nwall_height_ft = 3\nground_cover = true\ndampness = \"dry\"\nfoam_r = 5\n"), "inside the foam board you said is there")
	wall := plan("version = 1\nold = false\n[site]\nstate = \"MO\"\ncounty = \"Boone\"\ncode = \"irc-2021\"\n[[place]]\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x4\"\nci_r = 5\n")
	require.Contains(t, wall, "with the R-10 board")
	require.NotContains(t, wall, "with the R-5 board")
	attic := papers(t, fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"7\"\n[[place]]\nkind = \"attic\"\narea_ft2 = 1000\nframing.size = \"2x6\"\nframing.spacing_in = 24\nheel_in = 12\nflue_through = false\nbath_fan_outside = true\nvents_ok = true\nnon_ic_lights = false\n"))
	require.Contains(t, spaced(attic["form"])+spaced(attic["handover"]), "; the R-19 counts R-18: squeezed")
}

// A row for a machine says that what fits still needs its board.
func TestCSVNamesTheBoardToBuy(t *testing.T) {
	table, err := pages.CSV(planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\n")).Plan, planned.Options(t))
	require.NoError(t, err)
	require.Contains(t, table, "fits with R-5 board outside the studs to buy")
}

// Whoever cuts into an old house is told of lead in its paint, and the order has
// the test (practice).
func TestLeadPaintIsToldToAllWhoCut(t *testing.T) {
	for old, want := range map[string]bool{"true": true, "false": false} {
		all := papers(t, fixture.Read(t, "version = 1\nold = "+old+"\nstage = \"wired\"\n[site]\nzone = \"6A\"\n[[place]]\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nknob_and_tube = false\n"))
		for _, paper := range []string{"order", "ask", "handover", "page installer", "page self", "page electrician", "page plumber", "page framer"} {
			require.Equal(t, want, strings.Contains(spaced(all[paper]), "before 1978"), "%s %s", paper, old)
		}
	}
}

// A paper face burns (IRC R302.10): that it is covered stands on the order and on
// every other paper, foam and marks or not.
func TestAPaperFaceIsCoveredOnEveryPaper(t *testing.T) {
	const wall = "version = 1\nold = false\ndrawings = true\n[site]\nzone = \"6B\"\n[drawing_r]\nwall = 20\nwall_board = 0\n[[place]]\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nretarder = "
	for retarder, want := range map[string]bool{"\"plan\"": true, "\"polyethylene\"": false} {
		a := fixture.Read(t, wall+retarder+"\n")
		require.Equal(t, want, planned.Job(a).Plan.Places[0].Choice.Facing.OnBlanket == "kraft")
		for paper, text := range papers(t, a) {
			require.Equal(t, want, strings.Contains(spaced(text), "The paper face burns quickly: cover it with drywall"), "%s %s", paper, retarder)
		}
	}
}
