package inspect_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// carried are places with a danger each, the points of finished work that look
// for it, whether it stops the work, and words of it on the sheet.
var carried = []struct {
	place, point string
	stops        bool
	sheet        string
}{
	// Fireblocks in the gap at each floor and ceiling: IRC R1003.19, read.
	{"kind = \"chimney\"\nchimney = \"masonry-inside\"\ngap_in = 2\nwidth_in = 36\ndepth_in = 24\nfloors = 2\nframing.size = \"2x4\"", "fireblocks", true, "fireblocks at each floor"},
	// Foam board inside is covered, IRC R302 (practice), whatever is said of drywall.
	{"kind = \"basement-wall\"\nfoam_r = 10\ndampness = \"dry\"", "foam-covered", true, "Foam board and blankets"},
	{"kind = \"basement-wall\"\nfoam_r = 10\ndampness = \"dry\"\nexposed = true", "foam-covered", true, "Foam board and blankets"},
	{closed, "foam-covered", true, "Foam board and blankets"},
	// Flame spread 25 and smoke 450 at most in sight: IRC R302.10 (secondary).
	{"kind = \"rim-joist\"\nci_r = 5", "fire-mark", true, "25 or less and smoke 450 or less"},
	// Dry air and a sealed sheet in a closed crawl space: IRC R408 (secondary).
	{closed, "crawl-air", false, "supply or exhaust duct or a dehumidifier"},
	{closed, "crawl-air", false, "sealed at all seams"},
	// A bare strip at the top where termites live (practice).
	{closed, "termite-strip", false, ""},
	// Wood below 19 percent, the cause of the damp found (practice).
	{"kind = \"crawl-space\"\nvented = true\ndampness = \"damp\"", "damp-settled-floor", true, ""},
	{"kind = \"basement-wall\"\nfoam_r = 10\ndampness = \"damp\"", "damp-settled-wall", true, ""},
}

const closed = "kind = \"crawl-space\"\nvented = false\nwall_height_ft = 3\nlength_ft = 40\nfoam_r = 10\nground_cover = true\ndampness = \"dry\""

// What the plan warns of is looked for when the work is done: nothing passes
// before somebody has seen it, and where it can hurt people it stops the work.
func TestWhatThePlanWarnsOfIsLookedFor(t *testing.T) {
	for _, c := range carried {
		j := planned.Job(fixture.OfPlaces(t, "zone = \"5B\"", "id = \"x\"\n"+c.place))
		s, ok := inspect.SheetOf(j, j.Plan.Places[0])
		require.True(t, ok, c.place)
		x, there := pointsOf(s)[c.point]
		require.True(t, there, "%s: %s", c.point, c.place)
		require.Equal(t, c.stops, x.Result == catalog.ResultStop, c.point)
		said := ""
		for _, n := range append(s.First, s.Leave...) {
			said += n.Text.String() + "\n"
		}
		require.Contains(t, said, c.sheet, c.point)
		for _, r := range place(t, found(t, j, "version = 1\n[[place]]\nid = \"x\"\nsee."+c.point+" = \"bad\"\n"), "x").Points {
			if r.Point.ID == c.point {
				want := inspect.Fix
				if c.stops {
					want = inspect.Halt
				}
				require.Equal(t, want, r.State, c.point)
			}
		}
	}
}

// Where it is not so, nobody is asked to look for it.
func TestWhatThePlanDoesNotWarnOfIsNotLookedFor(t *testing.T) {
	for point, text := range map[string]string{
		"fire-mark":          "kind = \"rim-joist\"\nci_r = 5\nexposed = false",
		"damp-settled-floor": "kind = \"crawl-space\"\nvented = true\ndampness = \"dry\"",
		"damp-settled-wall":  closed,
		"crawl-air":          "kind = \"basement-wall\"\nfoam_r = 10\ndampness = \"dry\"",
		"fireblocks":         "kind = \"rim-joist\"\nci_r = 5",
	} {
		j := planned.Job(fixture.OfPlaces(t, "zone = \"5B\"", "id = \"x\"\n"+text))
		s, ok := inspect.SheetOf(j, j.Plan.Places[0])
		require.True(t, ok, text)
		require.NotContains(t, pointsOf(s), point)
	}
}

// Whoever does the work without an installer reads all that an installer reads
// of what comes first, stays clear and waits for the inspection.
func TestOwnPageHoldsWhatAnInstallerIsTold(t *testing.T) {
	j := planned.Job(fixture.OfPlaces(t, "zone = \"5B\"",
		"id = \"up\"\nkind = \"attic\"\nflue_through = true\nnon_ic_lights = true", "id = \"rim\"\nkind = \"rim-joist\"\nci_r = 5"))
	page, err := inspect.PageFor(j, "self")
	require.NoError(t, err)
	said := map[string]bool{}
	for _, part := range page.Parts {
		for _, line := range part.Lines {
			said[line] = true
		}
	}
	for _, group := range []string{"first", "clear", "hold"} {
		notes := inspect.HouseNotes(j, group, "installer")
		require.NotEmpty(t, notes, group)
		for _, n := range notes {
			require.Contains(t, said, n.Text.In(j.System))
		}
	}
}
