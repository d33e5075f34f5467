package pages_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func checkedJob(t testing.TB, places ...string) inspect.Job {
	t.Helper()
	return planned.Job(fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2021\"", places...))
}

// bid is a bid of given lines in all three forms.
func bid(t testing.TB, j inspect.Job, text string) map[string]string {
	t.Helper()
	o, problems := inspect.ReadOffer(j, "offer.toml", text)
	require.Empty(t, problems)
	list := []inspect.OfferResult{inspect.JudgeOffer(j, o)}
	opts := planned.Options(t)
	b, err := pages.OffersJSON(j, list)
	require.NoError(t, err)
	flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	return map[string]string{"text": flat(print.Text(pages.OffersPage(j, list, nil, opts), opts.Width)), "markdown": flat(print.Markdown(pages.OffersPage(j, list, nil, opts))), "json": flat(string(b))}
}

const (
	plainWall = "id = \"wall\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 8\nframing.size = \"2x6\"\nframing.spacing_in = 16"
	oldWired  = "id = \"wired\"\nkind = \"exterior-wall\"\nlabel = \"North side\"\nlength_ft = 40\nheight_ft = 8\nknob_and_tube = true\nframing.size = \"2x4\"\nframing.spacing_in = 16"
	wallBid   = "[[part]]\nplace = \"wall\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nr = 20\nthickness_in = 5.5\nfacing = \"kraft\"\nfacing_side = \"room\"\narea_ft2 = 320\n"
)

// A place that is stopped stands first in an offer that does not come to it, in
// every form, and what counts on a board says whose it is.
func TestOfferSaysWhatIsOutsideIt(t *testing.T) {
	forms := bid(t, checkedJob(t, plainWall, oldWired), wallBid)
	for name, text := range forms {
		require.Contains(t, text, "North side", name)
		require.Contains(t, text, "must not be covered while it is live", name)
		require.Contains(t, text, "Who buys and fits the R-5 board outside the studs? It is not in this bid.", name)
		require.NotContains(t, text, "all of it adds up", name)
	}
	require.Less(t, strings.Index(forms["text"], "must not be covered"), strings.Index(forms["text"], "Money"), "before everything else")
	require.Contains(t, forms["text"], "which is not in this bid")
	require.Contains(t, forms["json"], `"counts_on_board_not_in_bid_r": 5`)
}

// Where the plan itself finds damp, the head of the offers says so.
func TestOfferOfADampPlaceSaysSoFirst(t *testing.T) {
	j := planned.Job(fixture.Judged(t, fixture.Read(t, wetWall)))
	for name, text := range bid(t, j, "") {
		if name != "json" {
			require.Contains(t, text, "The plan says that a place gets damp (Walls", name)
		}
		require.Contains(t, text, "settle that first", name)
	}
}

// The list before anything is covered has the board to look for.
func TestCoverListNamesTheBoard(t *testing.T) {
	found := false
	for _, b := range pages.CoverBlocks(checkedJob(t, plainWall).Plan, planned.Options(t)) {
		for _, r := range b.Rows {
			found = found || r.Kind == page.Tick && strings.Contains(r.Text, "R-5 board outside the studs is there")
		}
	}
	require.True(t, found)
}

// The face of every layer is in the table, not only the lowest one's.
func TestOfferNamesTheFaceOfEachLayer(t *testing.T) {
	layer := "[[part]]\nplace = \"attic\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\narea_ft2 = 900\nfacing = "
	j := checkedJob(t, "id = \"attic\"\nkind = \"attic\"\narea_ft2 = 900\nflue_through = false\nnon_ic_lights = false\nframing.size = \"2x6\"\nframing.spacing_in = 16")
	text := bid(t, j, layer+"\"none\"\n"+layer+"\"kraft\"\nfacing_side = \"room\"\n")["text"]
	require.Contains(t, text, "no facing and paper face")
	require.NotContains(t, bid(t, j, layer+"\"none\"\n"+layer+"\"none\"\n")["text"], "no facing and")
}

// A chimney of unknown width is on the form, and holds the verdict of the walk.
func TestFoundNamesTheFlueThatIsOpen(t *testing.T) {
	j := checkedJob(t, plainWall, "id = \"flue\"\nkind = \"chimney\"\nlabel = \"Listed flue\"\nchimney = \"factory-built\"\nframing.size = \"2x6\"")
	r := inspect.JudgeFound(j, inspect.EmptyFound(j), nil)
	text := print.Text(pages.FoundPage(j, r, planned.Options(t)), planned.Options(t).Width)
	require.Contains(t, text, "STOP, NOT LOOKED AT YET: Listed flue")
	require.Contains(t, strings.Join(strings.Fields(text), " "), "KEEP THE GAP EMPTY, width not known: read the listing")
	require.Contains(t, pages.FoundVerdict(r), "4 of which can hurt people")
	require.Contains(t, print.Text(pages.FormPage(j), planned.Options(t).Width), "\nListed flue\n")
	b, err := pages.FoundJSON(j, r)
	require.NoError(t, err)
	require.Contains(t, string(b), `"stop_points_not_seen": 3`)
	require.NotContains(t, string(b), `"result": "pass"`, "nobody looked yet")
	require.Contains(t, string(b), `"counts_on_unseen_board_r": 5`)
}

// Paint that goes on the drywall keeps the work open and not the drywall waiting: every
// page of the walk says what is still to come.
func TestFoundSaysWhatIsStillToCome(t *testing.T) {
	j := checkedJob(t, "id = \"wall\"\nkind = \"exterior-wall\"\nlength_ft = 12\nframing.size = \"2x6\"\nci_r = 0\ntarget_r = 20\nexposed = false\nretarder = \"paint\"")
	h := inspect.EmptyFound(j)
	l := inspect.FoundList(j.Catalog())
	plan := j.Plan.Places[0].Choice
	num := func(v float64) house.Answer { return house.List(fmt.Sprint(v)) }
	a := house.Answers{
		"material": house.Text(plan.MaterialID), "label_r": num(plan.Layers[0].Product.NominalR), "label_thickness_in": num(plan.Layers[0].Product.ThicknessIn), "thickness_in": num(plan.Layers[0].RoomIn), "facing": house.Text("none"), "sheet": house.Text("none"),
		"void_pct": house.Number(0), "squeezed_pct": house.Number(0),
	}
	for _, q := range inspect.QuestionsOf(l, j.Plan.Places[0], a) {
		if q.Key != "see.retarder-paint" && strings.HasPrefix(q.Key, "see.") {
			a[q.Key] = house.Text("good")
		}
	}
	h.Places[0].Answers = a
	r := inspect.JudgeFound(j, h, nil)
	require.False(t, r.ReadyToClose())
	require.Equal(t, "Every point on our list that can be seen before the drywall passes. What goes on the drywall is still to come (Exterior wall): look again when it is on. The inspector decides.", pages.FoundVerdict(r))
	text := spaced(print.Text(pages.FoundPage(j, r, planned.Options(t)), 78))
	require.Contains(t, text, "The vapor retarder paint is on the drywall: still to come, on the drywall")
	require.NotContains(t, text, "NOT LOOKED AT")
	require.Contains(t, pages.FoundNote(r.Places[0]), "still to come on the drywall")
	require.Contains(t, spaced(print.Text(pages.FormPage(j), 78)), "then, on the drywall: vapor retarder paint")
}

// What was begun and not decided says what lacks: how deep an old blanket lies is no
// guess from its R.
func TestWhatWasBegunSaysWhatLacks(t *testing.T) {
	j := checkedJob(t, "id = \"attic\"\nkind = \"attic\"\narea_ft2 = 1120\nexisting_r = 19\nframing.size = \"2x6\"\nframing.spacing_in = 16\n")
	open := func(text string) string {
		return pages.OpenText(found(t, j, "[[place]]\nid = \"attic\"\n"+text).Places[0])
	}
	const title = "The measured thickness equals the contract's"
	require.Contains(t, open("label_r = [30]\n"), title)
	require.NotContains(t, open("label_r = [30]\n"), title+":")
	require.Contains(t, open("thickness_in = [15, 16]\n"), title+": thinnest 15 in to the ceiling")
	require.Contains(t, open("thickness_in = [15, 16]\n"), "measure how deep it lies alone")
	require.NotContains(t, open("thickness_in = [16, 16]\nold_in = 6\n"), title)
}

// What was seen of a point and does not decide it yet is said with what lacks: a board
// that is there and whose R nobody read is no board that nobody looked at.
func TestOpenPointsSayWhatLacks(t *testing.T) {
	j := checkedJob(t, plainWall)
	require.Positive(t, j.Plan.Places[0].Target.AddR)
	id := j.Plan.Places[0].Surface.ID
	for text, want := range map[string]string{
		"board_there = true\n":                         "it is there, and its R was not read",
		"facing = \"kraft\"\n":                         "look toward which side it is",
		"label_r = [20]\nlabel_thickness_in = [5.5]\n": "which fiber it is was not said",
	} {
		r := found(t, j, "version = 1\n[[place]]\nid = \""+id+"\"\n"+text)
		require.Contains(t, pages.OpenText(r.Places[0]), want)
	}
}

// A place left open to the room has no drywall to reach, and a slope is no wall
// (practice).
func TestAnOpenSlopeIsToldOfNoWall(t *testing.T) {
	for _, exposed := range []string{"true", "false"} {
		j := checkedJob(t, "id = \"slope\"\nkind = \"sloped-ceiling\"\narea_ft2 = 300\nframing.size = \"2x12\"\ntarget_r = 30\nexposed = "+exposed)
		p := j.Plan.Places[0]
		form := spaced(print.Text(pages.FormPage(j), 78))
		require.Equal(t, exposed == "false", strings.Contains(form, "No air gap to the drywall"))
		require.NotContains(t, p.Choice.Facing.Why, "wall")
	}
}

// A bid for a basement that is stopped is told of its face and of the drywall over its
// foam as well (IRC R302 for bare foam; PNNL for walls that dry toward the room).
func TestABidForAStoppedBasementIsJudgedAllTheSame(t *testing.T) {
	for _, dampness := range []string{"wet", "dry"} {
		j := checkedJob(t, "id = \"base\"\nlabel = \"Basement\"\nkind = \"basement-wall\"\nlength_ft = 100\ndampness = \""+dampness+"\"\nframing.size = \"2x4\"")
		require.Equal(t, dampness == "wet", j.Plan.Places[0].Stopped())
		text := spaced(bid(t, j, "version = 1\n[[part]]\nplace = \"base\"\nmaterial = \"fiberglass\"\nr = 13\nthickness_in = 3.5\nfacing = \"kraft\"\nfacing_side = \"room\"\nboard_by = \"bidder\"\nboard_r = 15\n")["text"])
		require.Contains(t, text, "a basement wall must be able to dry toward the room", dampness)
		require.Contains(t, text, "ASK Foam board burns and smokes: it must be covered", dampness)
	}
}

// What is short is counted by label and depth, what lies there as it is fitted: the
// page says both, so that R-58 and SHORT by R-1 of R-60 are no slip.
func TestShortNamesTheRThatCounts(t *testing.T) {
	j := checkedJob(t, "id = \"attic\"\nkind = \"attic\"\narea_ft2 = 1120\nheel_in = 20\nframing.size = \"2x6\"\nframing.spacing_in = 16\n")
	gives := func(rs string) string {
		p := found(t, j, "[[place]]\nid = \"attic\"\nlabel_r = "+rs+"\n").Places[0]
		for _, l := range pages.FoundLines(p, planned.Options(t)) {
			if l.Label == "Gives" {
				return l.Text
			}
		}
		return ""
	}
	require.Contains(t, gives("[30]"), "Against what is asked its R by label and depth counts, R-30")
	require.NotContains(t, gives("[30, 30]"), "Against what is asked")
}
