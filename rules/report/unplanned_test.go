package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/report"
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
	weigh := func(r float64, ft2 float64) float64 { return ft2 - r }
	require.InDelta(t, 0.62, weigh(0, old.Choice.Heat.CeilingLbFt2)-perThickness(old.Choice.HeightIn), 0.02)
	require.InDelta(t, 0, bare.Choice.Heat.CeilingLbFt2-perThickness(bare.Choice.HeightIn), 0.02)
	require.Contains(t, spaced(papers(t, fixture.Read(t, attic+"existing_r = 30\n"))["order"]), "what any old blanket is")
}

// perThickness is the weight of fiberglass at 12 kg/m3, lb/ft2.
func perThickness(in float64) float64 { return in / 12 * 12 * 0.0624 }

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
	text := report.ChangeText(plan.Changes(at("false"), at("true")), units.US)
	require.Contains(t, text, "Attic: something else to find out or settle first")
	require.Contains(t, text, "Wall: something else to find out or settle first")
	require.Contains(t, report.ChangeText(plan.Changes(at("true"), at("false")), units.US), "Wall: less to find out or settle first")
	require.Equal(t, report.NoChange, report.ChangeText(plan.Changes(at("true"), at("true")), units.US))
	clear := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nknob_and_tube = false\n")).Plan
	live := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nknob_and_tube = true\n")).Plan
	require.Contains(t, report.ChangeText(plan.Changes(clear, live), units.US), "STOP, nobody works there now")
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
	require.Contains(t, report.FoundVerdict(found(t, j, "version = 1\n[[place]]\nid = \"w\"\n")), "comes first (Wall)")
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
	text := spaced(print.Text(report.ComparePage([]report.Named{{Name: "one", Plan: p}, {Name: "two", Plan: p}}, o), o.Width))
	require.Contains(t, text, "STOP, no plan as it stands")
	require.Contains(t, text, "BEFORE YOU BEGIN: recessed lights not rated for contact")
}
