package pages_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// What stops a place leads what is said of finished work, before damp and faults.
func TestWhatStopsLeadsFinishedWork(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"4A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\n[[place]]\nid = \"r\"\nlabel = \"Rim\"\nkind = \"rim-joist\"\nknob_and_tube = false\nframing.size = \"2x10\"\n"))
	require.Contains(t, pages.FoundVerdict(found(t, j, "version = 1\n[[place]]\nid = \"w\"\n")), "comes first (Wall)")
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

// The page for the store names the blanket that the order buys.
func TestStoreAndOrderNameOneWidth(t *testing.T) {
	a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"2A\"\n[[place]]\nid = \"a\"\nlabel = \"Attic\"\nkind = \"attic\"\nlength_ft = 48\nwidth_ft = 28\nframing.size = \"2x6\"\nframing.spacing_in = 24\nframing.practice = \"trusses\"\n")
	store := spaced(papers(t, a)["page store"])
	for _, l := range order.Make(planned.Job(a).Plan, a).Places[0].Layers {
		require.Contains(t, store, fmt.Sprintf("%s thick, no facing, %s wide", units.US.Inches(l.Product.ThicknessIn), units.US.Inches(l.WidthIn)))
	}
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

// Finished work says too where the damp check has no verdict, and why.
func TestFinishedWorkSaysWhereDampIsNotJudged(t *testing.T) {
	j := planned.Job(fixture.Judged(t, fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"a\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\nci_r = 5\nsheathing = \"fiberboard\"\narea_ft2 = 400\n")))
	text := spaced(print.Text(pages.FoundPage(j, found(t, j, "version = 1\n[[place]]\nid = \"a\"\nfacing = \"kraft\"\nfacing_side = \"room\"\nsheet = \"none\"\nlabel_r = 20\nthickness_in = [5.5]\n"), planned.Options(t)), 78))
	require.Contains(t, text, "Damp not judged: the hourly check has no figures for fiberboard sheathing, 1/2 in.")
}
