package pages_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/order"
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

// A sheet that the plan keeps away settles no damp, in finished work or a bid.
func TestForbiddenSheetSettlesNoDamp(t *testing.T) {
	const head = "version = 1\nold = false\n[site]\nzone = \"7\"\n[[place]]\nid = \"base\"\nlabel = \"Base\"\nkind = \"basement-wall\"\nfoam_r = 15\nexposed = false\ndampness = \"dry\"\nframing.size = \"2x4\"\n"
	j := planned.Job(fixture.Read(t, head))
	p := j.Plan.Places[0]
	require.NotNil(t, p.Choice)
	for _, sheet := range []string{"none", "polyethylene"} {
		r := found(t, j, "version = 1\n[[place]]\nid = \"base\"\nmaterial = \""+p.Choice.Material.ID+"\"\nfacing = \"none\"\nsheet = \""+sheet+"\"\n")
		require.True(t, r.Places[0].DampPlanned(), sheet)
	}
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

// What stops a place leads what is said of finished work, before damp and faults.
func TestWhatStopsLeadsFinishedWork(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\n[[place]]\nid = \"r\"\nlabel = \"Rim\"\nkind = \"rim-joist\"\nknob_and_tube = false\nframing.size = \"2x10\"\n"))
	require.Contains(t, pages.FoundVerdict(found(t, j, "version = 1\n[[place]]\nid = \"w\"\n")), "comes first (Wall)")
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

// A sheet that must not go up is on no paper as agreed, whatever the house file
// names: plastic inside a board outside (practice), and plain sheets in sight (IRC
// R302.10.1).
func TestANamedSheetThatTrapsOrBurnsIsLeftOut(t *testing.T) {
	const wall = "version = 1\nold = false\n[site]\nzone = \"6B\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\n"
	for name, x := range map[string]struct{ answers, mind, sheet string }{
		"inside a board":          {"ci_r = 5\nexposed = false\nretarder = \"polyethylene\"\n", "two tight layers", "polyethylene"},
		"inside a board to buy":   {"ci_r = 0\nexposed = false\nretarder = \"polyethylene\"\n", "two tight layers", "polyethylene"},
		"plastic in sight":        {"ci_r = 5\nexposed = true\nretarder = \"polyethylene\"\n", "No plain sheet stays visible here", "polyethylene"},
		"a smart sheet in sight":  {"ci_r = 5\nexposed = true\nretarder = \"smart\"\n", "No plain sheet stays visible here", "smart"},
		"paint without drywall":   {"ci_r = 5\nexposed = true\nretarder = \"paint\"\n", "No plain sheet stays visible here", "paint"},
		"smart inside a board":    {"ci_r = 5\nexposed = false\nretarder = \"smart\"\n", "", "smart"},
		"plastic without a board": {"ci_r = 0\ntarget_r = 20\nexposed = false\nretarder = \"polyethylene\"\n", "", "polyethylene"},
	} {
		a := fixture.Read(t, wall+x.answers)
		j, all := planned.Job(a), papers(t, a)
		require.Equal(t, x.mind == "", j.Plan.Places[0].Choice.Facing.Sheet == x.sheet, name)
		for _, paper := range []string{"order", "ask", "handover", "page installer", "page self", "form", "offer template", "inspect template"} {
			require.Equal(t, x.mind != "", x.mind != "" && contains(spaced(all[paper]), x.mind), "%s %s", name, paper)
		}
		if x.sheet == "paint" {
			continue // nobody sees it before the drywall
		}
		r := found(t, j, "version = 1\n[[place]]\nid = \"w\"\nmaterial = \"fiberglass\"\nfacing = \"none\"\nsheet = \""+x.sheet+"\"\n")
		passed := false
		for _, point := range r.Places[0].Points {
			passed = passed || point.Point.ID == "facing-side" && point.State == inspect.Pass
		}
		require.Equal(t, x.mind == "", passed, name)
	}
}

// A sheet of a bid is not swallowed where the plan never has one.
func TestASheetOfABidIsNotSwallowed(t *testing.T) {
	const house = "version = 1\nold = false\n[site]\nzone = \"2A\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\nframing.spacing_in = 16\n[[place]]\nid = \"c\"\nlabel = \"Brick\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\ngap_in = 2\nframing.size = \"2x8\"\n"
	j := planned.Job(fixture.Read(t, house))
	part := func(place, sheet string) string {
		return "version = 1\n[[part]]\nplace = \"" + place + "\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\nfacing = \"none\"\nsheet = \"" + sheet + "\"\n"
	}
	level := func(place, sheet string) inspect.Level {
		o, problems := inspect.ReadOffer(j, "offer.toml", part(place, sheet))
		require.Empty(t, problems)
		worst := inspect.Good
		for _, p := range inspect.JudgeOffer(j, o).Places {
			for _, f := range p.Findings {
				if f.ID == "loose-sheet" {
					worst = max(worst, f.Level)
				}
			}
		}
		return worst
	}
	require.Equal(t, inspect.Stop, level("c", "polyethylene"))
	require.Equal(t, inspect.Wrong, level("a", "polyethylene"))
	require.Equal(t, inspect.Ask, level("a", "smart"))
	require.Equal(t, inspect.Good, level("c", "none"))
	r := found(t, j, "version = 1\n[[place]]\nid = \"c\"\nsheet = \"polyethylene\"\n")
	require.True(t, r.Stops())
	require.Contains(t, bid(t, j, "version = 1\ngrade = \"III\"\n")["text"], "promises grade III")
}

// A blanket too thick for its room is not shaken up.
func TestWhatBulgesComesOut(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"s\"\nlabel = \"Slope\"\nkind = \"sloped-ceiling\"\nframing.size = \"2x10\"\n"))
	for in, want := range map[string]bool{"9.25": true, "3": false} {
		for _, point := range found(t, j, "version = 1\n[[place]]\nid = \"s\"\nthickness_in = ["+in+"]\n").Places[0].Points {
			if point.Point.ID == "thickness" {
				require.Equal(t, want, contains(point.Ask, "too thick for its room"), in)
				require.Equal(t, !want, contains(point.Ask, "Shake up"), in)
			}
		}
	}
}

// Upper layers between truss webs are ordered as wide as from chord to chord, so
// that what the plan counts is what is laid.
func TestStripsBetweenTrussesMeetOverTheChords(t *testing.T) {
	for _, spacing := range []float64{16, 24} {
		a := fixture.Read(t, fmt.Sprintf("version = 1\nold = false\n[site]\nzone = \"2A\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\nlength_ft = 48\nwidth_ft = 28\nframing.size = \"2x6\"\nframing.spacing_in = %g\nframing.practice = \"trusses\"\n", spacing))
		o := order.Make(planned.Job(a).Plan, a)
		require.Greater(t, len(o.Places[0].Layers), 1)
		for _, l := range o.Places[0].Layers[1:] {
			require.GreaterOrEqual(t, l.WidthIn, spacing-0.5, spacing)
		}
	}
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

// The page for the store names the blanket that the order buys.
func TestStoreAndOrderNameOneWidth(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"2A\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\nlength_ft = 48\nwidth_ft = 28\nframing.size = \"2x6\"\nframing.spacing_in = 24\nframing.practice = \"trusses\"\n")
	store := spaced(papers(t, a)["page store"])
	for _, l := range order.Make(planned.Job(a).Plan, a).Places[0].Layers {
		require.Contains(t, store, fmt.Sprintf("%s thick, no facing, %s wide", units.US.Inches(l.Product.ThicknessIn), units.US.Inches(l.WidthIn)))
	}
}

// Where a retarder is wanted and none is planned, every paper says so.
func TestAMissingRetarderIsOnEveryPaper(t *testing.T) {
	all := papers(t, fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"8\"\n[[place]]\nkind = \"exterior-wall\"\nretarder = \"none\"\nci_r = 10\nframing.size = \"2x6\"\n"))
	for _, name := range []string{"order", "ask", "handover", "page installer", "page self", "form", "offer template", "inspect template"} {
		require.Contains(t, spaced(all[name]), "wants a vapor retarder on the room side", name)
	}
}

// Whether drywall covers a sheet is asked where nobody said, and a bid with a sheet in
// sight is wrong (IRC R302.10.1).
func TestASheetInSightIsAskedAbout(t *testing.T) {
	const wall = "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"w\"\nlabel = \"Slope\"\nkind = \"sloped-ceiling\"\narea_ft2 = 400\nframing.size = \"2x10\"\n"
	const part = "version = 1\n[[part]]\nplace = \"w\"\nmaterial = \"fiberglass\"\nr = 30\nthickness_in = 8.25\nfacing = \"none\"\nsheet = \"polyethylene\"\n"
	for exposed, want := range map[string]inspect.Level{"true": inspect.Wrong, "\"unknown\"": inspect.Ask, "false": inspect.Good} {
		j := planned.Job(fixture.Read(t, wall+"exposed = "+exposed+"\n"))
		o, problems := inspect.ReadOffer(j, "offer.toml", part)
		require.Empty(t, problems)
		worst := inspect.Good
		for _, f := range inspect.JudgeOffer(j, o).Places[0].Findings {
			if f.ID == "sheet-in-sight" {
				worst = f.Level
			}
		}
		require.Equal(t, want, worst, exposed)
	}
	a := fixture.Read(t, wall+"exposed = \"unknown\"\nretarder = \"polyethylene\"\n")
	for _, name := range []string{"order", "ask", "handover", "page installer", "page self", "form", "offer template", "inspect template"} {
		require.Contains(t, spaced(papers(t, a)[name]), "Drywall covers the sheet before anybody uses the room", name)
	}
	require.Contains(t, papers(t, a)["inspect template"], "see.sheet-covered")
}

// Answers that cannot both be true are named: a zone far from that of the county, and
// one size typed in two ways.
func TestWhatWasTypedTwiceIsCompared(t *testing.T) {
	for text, want := range map[string]string{
		"[site]\nstate = \"FL\"\ncounty = \"Miami-Dade\"\nzone = \"7\"\n":                                                                      "you typed climate zone 7",
		"[site]\nstate = \"FL\"\ncounty = \"Miami-Dade\"\nzone = \"1A\"\n":                                                                     "",
		"[site]\nstate = \"MN\"\ncounty = \"Hennepin\"\nzone = \"7\"\n":                                                                        "",
		"[site]\nzone = \"5A\"\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 100\nlengths_ft = [10, 10]\n":                                 "one length and several straight pieces",
		"[site]\nzone = \"5A\"\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 20\nlengths_ft = [10, 10]\n":                                  "",
		"[site]\nzone = \"5A\"\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 90\nopenings_ft2 = 60\nopenings = [\"9 of 3 ft x 8 ft\"]\n":   "an area of windows and doors",
		"[site]\nzone = \"5A\"\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 90\nopenings_ft2 = 216\nopenings = [\"9 of 3 ft x 8 ft\"]\n":  "",
		"[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\nzone = \"3A\"\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 90\nheight_ft = 8\n": "you typed climate zone 3A",
	} {
		said := strings.Join(fixture.Read(t, "version = 1\n"+text).Disagree(), " ")
		require.Equal(t, want != "", want != "" && contains(said, want), "%s: %s", text, said)
		if want == "" {
			require.Empty(t, said, text)
		}
	}
}

// A wall of two stories stands on two rows of studs, not on one of 18 ft.
func TestStoriesAreCutApart(t *testing.T) {
	const house = "version = 1\nold = false\nstage = \"framed\"\n[site]\nzone = \"5B\"\n[shape]\nstories = 2\nwall_height_ft = 9\n[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nframing.size = \"2x6\"\nframing.spacing_in = 16\nopenings = []\n"
	of := func(text string) order.Place {
		a := fixture.Read(t, house+text)
		return order.Make(planned.Job(a).Plan, a).Places[0]
	}
	whole, apart := of("lengths_ft = [44, 28, 44, 28]\n"), of("lengths_ft = [44, 28, 44, 28, 44, 28, 44, 28]\nheight_ft = 9\n")
	require.Equal(t, apart.Layers[0].Stock, whole.Layers[0].Stock)
	require.Equal(t, apart.Layers[0].LengthIn, whole.Layers[0].LengthIn)
	for _, b := range whole.Bays {
		require.Less(t, b.HeightIn, 108.0)
	}
	require.Contains(t, strings.Join(whole.Notes, " "), "2 stories of 9 ft")
}

// A joist space that is filled with R-19 or more serves for the R of the table
// (a side rule of the code, from memory), and a bid of it is not short.
func TestAFilledJoistSpaceServes(t *testing.T) {
	const floor = "version = 1\nold = false\n[site]\nzone = \"7\"\ncode = \"irc-2021\"\n[[place]]\nid = \"f\"\nlabel = \"Floor\"\nkind = \"crawl-space\"\nvented = true\ndampness = \"dry\"\nground_cover = true\narea_ft2 = 768\n"
	shallow := planned.Job(fixture.Read(t, floor+"framing.size = \"2x8\"\n"))
	p := shallow.Plan.Places[0]
	require.True(t, p.Choice.Heat.MeetsTarget)
	require.GreaterOrEqual(t, p.Choice.CavityR, 19.0)
	require.Equal(t, 19.0, p.Choice.Heat.FilledR)
	require.Contains(t, spaced(planned.Printed(t, shallow.Plan)), "the blanket fills the joist space")
	require.NotContains(t, bid(t, shallow, "version = 1\n[[part]]\nplace = \"f\"\nmaterial = \"mineral-wool\"\nr = 30\nthickness_in = 7.25\nfacing = \"none\"\n")["text"], "short by")
	thin := bid(t, shallow, "version = 1\n[[part]]\nplace = \"f\"\nmaterial = \"fiberglass\"\nr = 19\nthickness_in = 5.5\nfacing = \"none\"\n")["text"]
	require.Contains(t, thin, "short by", "5 1/2 in leave 1 3/4 in of air in 7 1/4 in")
	none := planned.Job(fixture.Read(t, floor+"framing.size = \"2x4\"\n")).Plan.Places[0]
	require.False(t, none.Choice != nil && none.Choice.Heat.MeetsTarget, "3 1/2 in do not hold R-19")
}

// What nobody measured decides no grade, and an occasional tiny gap is grade I as
// the standard says.
func TestGradesGoByWhatWasMeasured(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\narea_ft2 = 1282\nframing.size = \"2x4\"\nci_r = 5\nlabor = \"installer-checked\"\n"))
	state := func(answers, id string) inspect.State {
		for _, x := range found(t, j, "version = 1\n[[place]]\nid = \"w\"\n"+answers).Places[0].Points {
			if x.Point.ID == id {
				return x.State
			}
		}
		return inspect.NotSeen
	}
	require.Equal(t, inspect.NotSeen, state("squeezed_pct = 1\n", "squeezed"))
	require.Equal(t, inspect.Pass, state("squeezed_pct = 1\nsqueezed_to_in = 3\n", "squeezed"))
	require.Equal(t, inspect.Pass, state("gaps = \"12 x 1/4\"\nlooked_ft2 = 1282\n", "voids"))
	require.Equal(t, inspect.Fix, state("gaps = \"93 x 1\"\nlooked_ft2 = 400\n", "voids"))
}

// No bidder is asked to fill a bay that stays empty.
func TestNobodyIsAskedToFillWhatStaysEmpty(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"7\"\n[[place]]\nid = \"c\"\nlabel = \"Brick\"\nkind = \"chimney\"\nchimney = \"masonry-in-wall\"\nframing.size = \"2x4\"\ngap_in = 2\nwidth_in = 24\n"))
	if j.Plan.Places[0].Choice != nil {
		t.Skip("something may go in there")
	}
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

// A sheet that traps damp is named, whatever face the bid has beside it.
func TestAFaceHidesNoTrap(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\narea_ft2 = 265\nframing.size = \"2x6\"\nci_r = 5\n"))
	for _, face := range []string{"none", "kraft"} {
		text := bid(t, j, "version = 1\n[[part]]\nplace = \"w\"\nmaterial = \"fiberglass\"\nr = 21\nthickness_in = 5.5\nfacing = \""+face+"\"\nfacing_side = \"room\"\nsheet = \"polyethylene\"\n")["text"]
		require.Contains(t, text, "trap water in the wall between them", face)
		require.NotContains(t, text, "Which of the two stays")
	}
}

// Nothing is said to be in place that nobody read or measured.
func TestNothingMeasuredGivesNothing(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\n"))
	text := func(answers string) string {
		return spaced(print.Text(pages.FoundPage(j, found(t, j, "version = 1\n[[place]]\nid = \"a\"\n"+answers), planned.Options(t)), 78))
	}
	seen := text("see.snug-attic = \"good\"\n")
	require.Contains(t, seen, "nothing that tells its R was read or measured yet")
	require.NotContains(t, seen, "Fitting")
	require.Contains(t, text("void_pct = 1\n"), "Fitting")
}

// Finished work says what the house file still has, whatever was ticked.
func TestFinishedWorkNamesWhatTheFileStillSays(t *testing.T) {
	for lights, want := range map[string]bool{"true": true, "false": false} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nvents_ok = true\nbath_fan_outside = true\nnon_ic_lights = "+lights+"\n"))
		text := spaced(print.Text(pages.FoundPage(j, found(t, j, "version = 1\n[[place]]\nid = \"a\"\nsee.heat-producers = \"good\"\n"), planned.Options(t)), 78))
		require.Equal(t, want, contains(text, "your house file still says recessed lights not rated"), lights)
	}
}

// Under a gap in a new blanket the old one still lies: R-30 over R-19 with 1.5 % of
// gaps is .985/51 + .015/22 by parallel paths, R-50 (by hand).
func TestAGapHasTheOldBlanketBehindIt(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"3A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\narea_ft2 = 900\nframing.size = \"2x6\"\nframing.practice = \"standard\"\nexisting_r = 19\n"))
	h := j.Plan.Places[0].Choice.Heat
	got := found(t, j, "version = 1\n[[place]]\nid = \"a\"\nmaterial = \"fiberglass\"\nvoid_pct = 1.5\n").Places[0].Got.Heat
	under := h.AssemblyR - h.DeliveredR + 1 // an empty space of R-1 in place of the blanket
	require.InDelta(t, 1/(0.985/h.AssemblyR+0.015/under), got.AssemblyR, 0.3)
}

// The frame of a closed crawl space's walls is not asked, and not said to be typed.
func TestTheFrameOfCrawlWallsIsSaid(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"4A\"\n[[place]]\nkind = \"crawl-space\"\nvented = false\nfoam_r = 10\nlength_ft = 30\nwidth_ft = 20\nwall_height_ft = 3\nframing.size = \"2x10\"\n")
	o := order.Make(planned.Job(a).Plan, a)
	require.Contains(t, strings.Join(o.Places[0].Notes, " "), "the studs against these walls are taken as")
	require.NotContains(t, strings.Join(o.Places[0].Assumed, " "), "framing")
}

// A gap right through all layers costs the same between trusses as over joists.
func TestGapsGoThroughAllLayers(t *testing.T) {
	r := map[string]float64{}
	for _, practice := range []string{"trusses", "standard"} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"7\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\narea_ft2 = 900\nframing.size = \"2x6\"\nframing.spacing_in = 24\nframing.practice = \""+practice+"\"\n"))
		require.Greater(t, len(j.Plan.Places[0].Choice.Layers), 1)
		got := found(t, j, "version = 1\n[[place]]\nid = \"a\"\nmaterial = \"fiberglass\"\nvoid_pct = 2\n").Places[0].Got.Heat
		under := got.AssemblyR - got.DeliveredR
		require.InDelta(t, 1/(0.98/(under+j.Plan.Places[0].Choice.CavityR)+0.02/(under+1))-under, got.DeliveredR, 4, practice)
		r[practice] = got.DeliveredR
	}
	require.InDelta(t, r["trusses"], r["standard"], 3)
}

// Every line of a bid is held against the rules, not the first alone.
func TestEveryLineOfABidIsHeldAgainstTheRules(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"c\"\nlabel = \"Brick\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\nframing.size = \"2x10\"\ngap_in = 2\n"))
	line := func(fiber, face string) string {
		return "[[part]]\nplace = \"c\"\nmaterial = \"" + fiber + "\"\nr = 13\nthickness_in = 3.5\nfacing = \"" + face + "\"\n"
	}
	stops := func(lines ...string) bool {
		o, problems := inspect.ReadOffer(j, "offer.toml", "version = 1\n"+strings.Join(lines, ""))
		require.Empty(t, problems)
		for _, f := range inspect.JudgeOffer(j, o).Places[0].Findings {
			if f.Level == inspect.Stop {
				return true
			}
		}
		return false
	}
	wool := line("mineral-wool", "none")
	require.False(t, stops(wool, wool))
	require.True(t, stops(wool, line("cotton", "none")))
	require.True(t, stops(line("cotton", "none"), wool))
	require.True(t, stops(wool, line("fiberglass", "kraft")))
}

// A board that is now to be bought is a change.
func TestABoardToBuyIsAChange(t *testing.T) {
	at := func(board string) plan.Plan {
		return planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nci_r = "+board+"\n")).Plan
	}
	require.Contains(t, pages.ChangeText(plan.Changes(at("5"), at("0")), units.US), "no board -> R-5 board to buy")
	require.Equal(t, pages.NoChange, pages.ChangeText(plan.Changes(at("5"), at("5")), units.US))
}
