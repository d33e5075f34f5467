package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// found judges a file of finished work.
func found(t *testing.T, j inspect.Job, text string) inspect.FoundResult {
	t.Helper()
	w := inspect.NewWalk(j.Catalog())
	_, problems := w.Open(j, "found.toml", text)
	require.Empty(t, problems)
	return w.Judge(j)
}

// A place without a new blanket is not forgotten: what can hurt there is ordered,
// handed over and looked at all the same, and nothing is closed before (IRC R408.3
// for the closed crawl space).
func TestPlacesWithoutABlanketAreMinded(t *testing.T) {
	const warm = "version = 1\nold = false\n[site]\nzone = \"2A\"\n[shape]\nlength_ft = 40\nwidth_ft = 28\n[[place]]\nid = \"here\"\nlabel = \"Here\"\n"
	for name, x := range map[string]struct{ house, order, plumber, point string }{
		"closed crawl space": {warm + "kind = \"crawl-space\"\nvented = false\nground_cover = false\ndampness = \"dry\"\nwall_height_ft = 3\n", "plastic sheet for the earth", "none draws its air from the closed crawl space", "burner-air"},
		"lights under an old blanket": {
			warm + "kind = \"attic\"\nlength_ft = 40\nwidth_ft = 28\nexisting_r = 60\nnon_ic_lights = true\nvents_ok = true\nbath_fan_outside = true\nflue_through = false\nvermiculite = false\nknob_and_tube = false\n",
			"Recessed lights without an IC mark", "Recessed lights without an IC mark", "heat-producers",
		},
		"foam of a warm basement": {warm + "kind = \"basement-wall\"\nfoam_r = 5\nexposed = true\ndampness = \"dry\"\n", "cover over the blankets and the foam", "Foam board must be covered", "foam-covered"},
	} {
		a := fixture.Read(t, x.house)
		j, all := planned.Job(a), papers(t, a)
		p := j.Plan.Places[0]
		require.Nil(t, p.Choice, name)
		require.True(t, p.Target.Idle, name)
		require.Contains(t, spaced(all["order"]), x.order, name)
		require.Contains(t, spaced(all["page plumber"]), x.plumber, name)
		ids := []string{}
		for _, f := range inspect.FormOf(j, p) {
			ids = append(ids, f.Point.ID)
		}
		require.Contains(t, ids, x.point, name)
		require.NotContains(t, ids, "snug", name)
		require.False(t, found(t, j, "version = 1\n[[place]]\nid = \"here\"\n").ReadyToClose(), name)
		require.Contains(t, all["inspect template"], "see."+x.point, name)
	}
}

// A crawl space is closed whether a blanket is planned on its walls or not: where bare
// concrete bars one, every paper names the burners all the same, and the bare wall is
// short of what is asked (IRC R408.3; IECC table of minimum R).
func TestAClosedCrawlSpaceWithoutABlanketIsChecked(t *testing.T) {
	for _, old := range []string{"true", "false"} {
		a := fixture.Read(t, "version = 1\nold = "+old+"\nstage = \"framed\"\n[site]\nstate = \"NJ\"\ncounty = \"Sussex\"\ncode = \"irc-2021\"\n[[place]]\nid = \"wall\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nlength_ft = 40\n"+
			"[[place]]\nid = \"here\"\nlabel = \"Here\"\nkind = \"crawl-space\"\nvented = false\nfoam_r = 0\nground_cover = true\ndampness = \"dry\"\nknob_and_tube = false\n")
		j, all := planned.Job(a), papers(t, a)
		require.Nil(t, j.Plan.Places[1].Choice)
		for _, name := range []string{"order", "handover", "page plumber"} {
			require.Contains(t, spaced(all[name]), "draws its air from the closed crawl space", name)
		}
		require.Contains(t, spaced(all["form"]), "STOP if not: No burner draws its air from the closed crawl space")
		require.Contains(t, all["inspect template"], "see.burner-air")
		require.Contains(t, spaced(bid(t, j, "version = 1\n[[part]]\nplace = \"wall\"\nmaterial = \"fiberglass\"\n")["text"]), "none draws its air from the closed crawl space")
		bare := found(t, j, "version = 1\n[[place]]\nid = \"here\"\nblanket_there = false\nsee.burner-air = \"good\"\nsee.crawl-air = \"good\"\nsee.ground-sheet = \"good\"\n")
		require.Equal(t, inspect.Pass, bare.Places[1].Worst())
		require.Contains(t, bare.Short(), "Here")
		require.Contains(t, print.Text(pages.FoundPage(j, bare, planned.Options(t)), 78), "SHORT: R-0 of insulation and no blanket; asked is R-19")
	}
}

// Whoever is called to a place that is stopped is told of loose fill that may run
// out of its framing (practice).
func TestFillIsToldWhereAnotherDangerStops(t *testing.T) {
	for answer, want := range map[string]bool{"true": true, "\"unknown\"": true, "false": false} {
		a := fixture.Read(t, "version = 1\nold = true\nstage = \"wired\"\n[site]\nzone = \"4A\"\n[[place]]\nkind = \"attic\"\nknob_and_tube = false\nvermiculite = "+answer+
			"\n[[place]]\nid = \"wall\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n[[place]]\nid = \"brick\"\nlabel = \"Brick\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\ngap_in = 1\nknob_and_tube = false\n")
		j := planned.Job(a)
		for _, p := range j.Plan.Places[1:] {
			require.True(t, p.Stopped())
			require.Equal(t, want, len(p.Also) > 0, "%s %s", p.Surface.ID, answer)
		}
		for name, text := range papers(t, a) {
			require.Equal(t, want, contains(spaced(text), "STOP, before anybody goes in"), "%s %s", name, answer)
		}
	}
}

// Cotton and wool carry their mark wherever they go (IRC R302.10.1).
func TestFiberThatBurnsIsMarked(t *testing.T) {
	for fiber, want := range map[string]bool{"cotton": true, "sheeps-wool": true, "fiberglass": false} {
		a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"3A\"\n[[place]]\nid = \"floor\"\nlabel = \"Floor\"\nkind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"\npin = \""+fiber+"\"\n")
		all := papers(t, a)
		for _, name := range []string{"order", "ask", "handover", "page installer", "page store", "page self", "form", "offer template", "inspect template"} {
			require.Equal(t, want, contains(spaced(all[name]), "flame spread 25 or less"), "%s %s", name, fiber)
		}
		require.Equal(t, want, contains(bid(t, planned.Job(a), "version = 1\nfrom = \"Invented bidder\"\n[[part]]\nplace = \"floor\"\nmaterial = \""+fiber+"\"\nr = 19\nthickness_in = 6.25\n")["text"], "flame spread 25 or less"))
	}
}

// Each layer of a bid, and the old blanket, weighs by its own fiber: R-30 of
// fiberglass and R-30 of cotton, 8 1/2 in each, are 8.5/12 ft x (12 + 35) kg/m3 =
// 2.1 lb/ft2 (by hand).
func TestEveryLayerWeighs(t *testing.T) {
	const attic = "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"attic\"\nlabel = \"Attic\"\nkind = \"attic\"\nframing.spacing_in = 24\narea_ft2 = 1000\n"
	part := func(fiber string) string {
		return "[[part]]\nplace = \"attic\"\nmaterial = \"" + fiber + "\"\nr = 30\nthickness_in = 8.5\nfacing = \"none\"\n"
	}
	for _, order := range [][2]string{{"fiberglass", "cotton"}, {"cotton", "fiberglass"}} {
		require.Contains(t, bid(t, planned.Job(fixture.Read(t, attic)), "version = 1\n"+part(order[0])+part(order[1]))["text"], "weigh about 2.1 lb/ft2", order)
	}
	require.NotContains(t, bid(t, planned.Job(fixture.Read(t, attic)), "version = 1\n"+part("fiberglass"))["text"], "weigh about")
	bare, old := planned.Job(fixture.Read(t, attic)).Plan.Places[0], planned.Job(fixture.Read(t, attic+"existing_r = 30\n")).Plan.Places[0]
	// 10 in of light fiberglass: 10/12 ft x 12 kg/m3 x 0.0624 = 0.62 lb/ft2.
	require.InDelta(t, 0.62, old.Choice.Heat.CeilingLbFt2-ownWeight(old), 0.02)
	require.InDelta(t, 0, bare.Choice.Heat.CeilingLbFt2-ownWeight(bare), 0.02)
	require.Contains(t, spaced(papers(t, fixture.Read(t, attic+"existing_r = 30\n"))["order"]), "what any old blanket is")
}

// ownWeight is what the layers of fiberglass weigh at 12 kg/m3, lb/ft2.
func ownWeight(p plan.Place) float64 {
	in := 0.0
	for _, l := range p.Choice.Layers {
		in += l.Product.ThicknessIn
	}
	return in / 12 * 12 * 0.0624
}

func contains(text, part string) bool { return strings.Contains(text, part) }

// An answer that only stops work, or makes it wait, is not said to change nothing.
func TestWaitingIsAChange(t *testing.T) {
	at := func(fill string) plan.Plan {
		return planned.Job(fixture.Read(t, "version = 1\nold = true\nstage = \"wired\"\n[site]\nzone = \"4A\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\nknob_and_tube = true\nvermiculite = "+fill+
			"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n")).Plan
	}
	text := pages.ChangeText(plan.Changes(at("false"), at("true")), units.US)
	require.Contains(t, text, "Attic: something else to find out or settle first")
	require.Contains(t, text, "Wall: something else to find out or settle first")
	require.Contains(t, pages.ChangeText(plan.Changes(at("true"), at("false")), units.US), "Wall: less to find out or settle first")
	require.Equal(t, pages.NoChange, pages.ChangeText(plan.Changes(at("true"), at("true")), units.US))
	clear := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n")).Plan
	live := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n")).Plan
	require.Contains(t, pages.ChangeText(plan.Changes(clear, live), units.US), "STOP, nobody works there now")
}

// An old blanket is looked under before more goes on it, on every paper of whoever
// lays it, known or not (practice).
func TestOldBlanketIsLookedUnder(t *testing.T) {
	for answer, want := range map[string]bool{"11": true, "\"unknown\"": true, "0": false} {
		all := papers(t, fixture.Read(t, "version = 1\nold = true\nstage = \"framed\"\n[site]\nzone = \"5A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nknob_and_tube = false\nvermiculite = false\nexisting_r = "+answer+"\n"))
		for _, name := range []string{"order", "ask", "handover", "page installer", "page self", "form", "offer template", "inspect template"} {
			require.Equal(t, want, contains(spaced(all[name]), "Look under any old blanket"), "%s %s", name, answer)
		}
		require.Equal(t, want, contains(all["inspect template"], "see.old-blanket"), answer)
	}
}

// A gas vent ends above the roof: it goes up through the attic, as a chimney inside
// does.
func TestVentThatPassesNowhere(t *testing.T) {
	for kind, want := range map[string]bool{"type-b-vent": true, "masonry-inside": true, "factory-built": false} {
		a := fixture.Read(t, "version = 1\n[site]\nzone = \"4A\"\n[[place]]\nkind = \"attic\"\nflue_through = false\n[[place]]\nkind = \"chimney\"\nchimney = \""+kind+"\"\n")
		require.Equal(t, want, len(a.Disagree()) > 0, kind)
		require.Equal(t, want, contains(spaced(planned.Printed(t, planned.Job(a).Plan)), "sheet-metal shield"), kind)
	}
}

// What the damp check counts on stands on every paper.
func TestTheDehumidifierIsOnEveryPaper(t *testing.T) {
	for answer, want := range map[string]bool{"true": true, "false": false} {
		a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nkind = \"basement-wall\"\nfoam_r = 10\nexposed = false\ndampness = \"dry\"\ndehumidifier = "+answer+"\n")
		for name, text := range papers(t, a) {
			require.Equal(t, want, contains(spaced(text), "A dehumidifier runs below"), "%s %s", name, answer)
		}
	}
}

// Plans beside each other say what stops a place.
func TestComparedPlansSayWhatStops(t *testing.T) {
	p := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nkind = \"exterior-wall\"\nknob_and_tube = true\n[[place]]\nkind = \"attic\"\nknob_and_tube = false\nvermiculite = false\nnon_ic_lights = true\n")).Plan
	o := planned.Options(t)
	text := spaced(print.Text(pages.ComparePage([]pages.Named{{Name: "one", Plan: p}, {Name: "two", Plan: p}}, o), o.Width))
	require.Contains(t, text, "STOP, no plan as it stands")
	require.Contains(t, text, "BEFORE YOU BEGIN: recessed lights not rated for contact")
}

// A listing of next to nothing is no width to build by, on any paper.
func TestAListingOfNextToNothingIsReadAgain(t *testing.T) {
	for typed, held := range map[string]bool{"0": true, "0.1": true, "0.4": true, "0.5": false, "1": false} {
		a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"factory-built\"\nframing.size = \"2x8\"\ngap_in = 2\nclearance_in = "+typed+"\n")
		require.Equal(t, held, planned.Job(a).Plan.Places[0].Surface.Held() != "", typed)
	}
}

// Factory-made trusses are not assumed of an old attic (practice).
func TestOldAtticsHaveJoists(t *testing.T) {
	for old, want := range map[string]string{"true": "standard", "false": "trusses"} {
		a := fixture.Read(t, "version = 1\nold = "+old+"\n[site]\nzone = \"4A\"\n[[place]]\nkind = \"attic\"\n")
		require.Equal(t, want, planned.Job(a).Plan.Places[0].Surface.Frame.Practice)
	}
}

// A single-wall pipe stops the attic it goes up through, and no shield is ordered
// for it (practice).
func TestASinglePipeStopsWhatItGoesThrough(t *testing.T) {
	for name, x := range map[string]struct {
		through, chimneys string
		stops, asks       bool
	}{
		"single":                {"true", "metal-connector", true, false},
		"single, not through":   {"false", "metal-connector", false, false},
		"single, nobody looked": {"\"unknown\"", "metal-connector", false, true},
		"kind not known":        {"true", "unknown", false, true},
		"another goes through":  {"true", "metal-connector factory-built", false, false},
		"listed":                {"true", "factory-built", false, false},
	} {
		text := "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\nflue_through = " + x.through + "\n"
		for _, kind := range strings.Fields(x.chimneys) {
			text += "[[place]]\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = \"" + kind + "\"\n"
		}
		a := fixture.Read(t, text)
		p := planned.Job(a).Plan.Places[0]
		require.Equal(t, x.stops, p.Stopped(), name)
		asks := false
		for _, h := range p.Asks() {
			asks = asks || h.Rule.ID == "single-pipe-through"
		}
		require.Equal(t, x.asks, asks, name)
		if x.stops {
			require.NotContains(t, spaced(papers(t, a)["order"]), "shield around the flue")
		}
	}
}

// A single-wall pipe has no listing to read: no figure of one makes it pass.
func TestASinglePipeIsAskedNoListing(t *testing.T) {
	for _, typed := range []string{"", "clearance_in = 2\ngap_in = 3\n"} {
		p := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"metal-connector\"\n"+typed)).Plan.Places[0]
		require.Len(t, p.StopLines(), 1, typed)
		require.False(t, p.Surface.Clearance.Known, typed)
	}
}

// No bidder is asked to fill a bay that stays empty.
func TestNobodyIsAskedToFillWhatStaysEmpty(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"7\"\n[[place]]\nid = \"c\"\nlabel = \"Brick\"\nkind = \"chimney\"\nchimney = \"masonry-in-wall\"\nframing.size = \"2x4\"\nwidth_in = 24\n"))
	require.Nil(t, j.Plan.Places[0].Choice, "the clearance leaves 1 1/2 in of a 2x4 bay")
	text := bid(t, j, "version = 1\n[[part]]\nplace = \"c\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\nfacing = \"none\"\n")["text"]
	require.NotContains(t, text, "What would reach the R")
	require.NotContains(t, text, "Which blanket has its full R")
}

// At brick the gap is closed with sheet metal, at a listed pipe with what its listing
// names, on order and sheet alike.
func TestTheFireStopIsThatOfTheChimney(t *testing.T) {
	for kind, brick := range map[string]bool{"masonry-inside": true, "factory-built": false} {
		all := papers(t, fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nkind = \"chimney\"\nchimney = \""+kind+"\"\nclearance_in = 2\ngap_in = 2\nframing.size = \"2x8\"\n"))
		require.Equal(t, brick, contains(spaced(all["order"]), "sheet metal and heat-proof sealant"), kind)
		require.Equal(t, !brick, contains(spaced(all["order"]), "fire stop that the listing of the pipe names"), kind)
		require.Contains(t, all["inspect template"], "see.fireblocks", kind)
	}
}

// A board that is now to be bought is a change.
func TestABoardToBuyIsAChange(t *testing.T) {
	at := func(board string) plan.Plan {
		return planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nci_r = "+board+"\n")).Plan
	}
	require.Contains(t, pages.ChangeText(plan.Changes(at("5"), at("0")), units.US), "no board -> R-5 board to buy")
	require.Equal(t, pages.NoChange, pages.ChangeText(plan.Changes(at("5"), at("5")), units.US))
}
