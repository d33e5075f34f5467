package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// A sheet that the plan keeps away settles no damp, in finished work or a bid.
func TestForbiddenSheetSettlesNoDamp(t *testing.T) {
	j := planned.Job(fixture.Judged(t, fixture.Read(t, wetWall)))
	p := j.Plan.Places[0]
	require.NotNil(t, p.Choice)
	for _, sheet := range []string{"none", "polyethylene"} {
		r := found(t, j, "version = 1\n[[place]]\nid = \"walls\"\nmaterial = \""+p.Choice.Material.ID+"\"\nfacing = \"none\"\nsheet = \""+sheet+"\"\n")
		require.True(t, r.Places[0].DampPlanned(), sheet)
	}
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

// The table names every fiber of a bid, once.
func TestEveryFiberOfABidIsNamed(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\n"))
	part := func(fiber string) string {
		return "[[part]]\nplace = \"a\"\nmaterial = \"" + fiber + "\"\nr = 13\nthickness_in = 3.5\nfacing = \"none\"\n"
	}
	require.Contains(t, bid(t, j, part("fiberglass")+part("mineral-wool")+part("fiberglass"))["markdown"], "| fiberglass + mineral wool |")
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

// A sheet that traps damp is named, whatever face the bid has beside it.
func TestAFaceHidesNoTrap(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"w\"\nlabel = \"Wall\"\nkind = \"exterior-wall\"\narea_ft2 = 265\nframing.size = \"2x6\"\nci_r = 5\n"))
	for _, face := range []string{"none", "kraft"} {
		text := bid(t, j, "version = 1\n[[part]]\nplace = \"w\"\nmaterial = \"fiberglass\"\nr = 21\nthickness_in = 5.5\nfacing = \""+face+"\"\nfacing_side = \"room\"\nsheet = \"polyethylene\"\n")["text"]
		require.Contains(t, text, "trap water in the wall between them", face)
		require.NotContains(t, text, "Which of the two stays")
	}
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
