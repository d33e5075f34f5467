package pages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// The cell and the line of a place have one verdict of the damp check, and a cell
// names the layer that it counts on (IRC R408.2: under a floor of a humid crawl
// space).
func TestOneVerdictOfDampOfABid(t *testing.T) {
	j := planned.Job(fixture.Judged(t, fixture.OfPlaces(t, "state = \"FL\"\ncounty = \"Miami-Dade\"\ncode = \"irc-2021\"\ncooled = true",
		"id = \"crawl\"\nkind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x8\"\nframing.spacing_in = 16")))
	const line = "[[part]]\nplace = \"crawl\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nr = 13\nthickness_in = 3.5\narea_ft2 = 700\nfacing = "
	faced := bid(t, j, line+"\"foil-rated\"\nfacing_side = \"room\"\n")["markdown"]
	require.Contains(t, faced, "mold grows, counting a layer under the joists which is not in this bid")
	require.Contains(t, faced, "holds, with the layer under the joists to buy")
	require.NotContains(t, bid(t, j, line+"\"none\"\nalso = [\"layer-under-joists\"]\n")["markdown"], "counting a layer")
}

// A cell of what was said and not understood does not call it not said, and a form
// does not call it not looked at.
func TestCellsOfWhatWasNotUnderstood(t *testing.T) {
	j, opts := checkedJob(t, plainWall), planned.Options(t)
	o, _ := inspect.ReadOffer(j, "bid.toml", "version = 1\n[[part]]\nplace = \"wall\"\nmaterial = \"fiberglass\"\nr = 20\nthickness_in = 5.5\nfacing = \"foil\"\n")
	d := print.Markdown(pages.OffersPage(j, []inspect.OfferResult{inspect.JudgeOffer(j, o)}, nil, opts))
	require.Regexp(t, `Facing +\| [a-z ]+\| not understood`, d)
	w := inspect.NewWalk(j.Catalog())
	w.Open(j, "form.toml", "version = 1\n[[place]]\nid = \"wall\"\nfacing = \"foil\"\nmaterial = \"fiberglass\"\n")
	r := w.Judge(j)
	require.NotContains(t, pages.OpenText(r.Places[0]), "The face is the one agreed")
	require.Contains(t, print.Text(pages.FoundPage(j, r, opts), 400), "The face is the one agreed, on the agreed side: agreed: paper face (kraft). NOT UNDERSTOOD, so not judged: form.toml:4")
}
