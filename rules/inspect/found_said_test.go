package inspect_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

const slope = "id = \"slope\"\nkind = \"sloped-ceiling\"\narea_ft2 = 900\nframing.size = \"2x12\"\nframing.spacing_in = 24"

// Work as planned is not ready to close where the plan itself falls short of the
// code (IECC R402.1.2), unless the owner accepted that; what is short is said
// either way.
func TestShortIsSaidOfFinishedWork(t *testing.T) {
	for _, accepted := range []bool{false, true} {
		text := slope
		if accepted {
			text += "\nwaive_target = true"
		}
		j := jobOf(t, vermont, text)
		p := must(t, j, "slope")
		require.NotEmpty(t, p.ShortText(j.System))
		r := inspect.JudgeFound(j, good(t, j), nil)
		require.Equal(t, p.ShortText(j.System), r.Places[0].ShortText(j.System))
		require.Equal(t, accepted, len(r.Short()) == 0)
		if !accepted {
			require.False(t, r.ReadyToClose())
		}
	}
}

// A batt whose label is thicker than its room counts less than its label (FTC
// R-value rule, 16 CFR 460): the label does not pass there, as in a bid.
func TestBattTooThickForItsRoomFails(t *testing.T) {
	j := jobOf(t, vermont, slope)
	l := must(t, j, "slope").Choice.Layers[0]
	judge := func(thick float64) inspect.PointResult {
		h := good(t, j)
		h.Places[0].Answers["label_thickness_in"] = numbers(thick)
		return result(t, inspect.JudgeFound(j, h, nil).Places[0], "label")
	}
	require.Equal(t, inspect.Pass, judge(l.Product.ThicknessIn).State)
	thick := judge(l.RoomIn + 2)
	require.Equal(t, inspect.Reject, thick.State)
	require.Contains(t, thick.Text, "squeezed, it counts")
}

// What bulges out of its room into the airway is worth no more than what fills the
// room, and every line means the same room: a 2x8 less an inch of airway (its depth
// by ALSC PS 20).
func TestWhatFillsTheAirwayCountsNothing(t *testing.T) {
	j := jobOf(t, "zone = \"2B\"", strings.Replace(slope, "2x12", "2x8", 1))
	judge := func(depth float64) inspect.FoundPlace {
		return inspect.JudgePlace(j, must(t, j, "slope"), house.Answers{"label_r": numbers(30), "label_thickness_in": numbers(8.25), "thickness_in": numbers(depth)})
	}
	fills, bulges := judge(6.25), judge(7.25)
	require.Equal(t, inspect.Fix, state(t, bulges, "thickness"))
	require.InDelta(t, fills.Got.CavityR, bulges.Got.CavityR, 1e-9)
	require.Equal(t, fills.ShortText(j.System), bulges.ShortText(j.System))
	for _, id := range []string{"label", "thickness"} {
		require.Contains(t, result(t, bulges, id).Text, "in a room of 6 1/4 in")
	}
}

// No check that finds nothing makes a floor dry whose layer under the joists is
// wanting (IRC R408): it is not judged.
func TestFloorWithoutItsLayerIsNotDry(t *testing.T) {
	j, p := judgedPlace(t, "state = \"GA\"\ncounty = \"Fulton\"\ncode = \"irc-2021\"", "kind = \"crawl-space\"\nvented = true\narea_ft2 = 1064\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x10\"\nframing.spacing_in = 16")
	require.True(t, asked(t, p, "see.layer-under-joists"))
	bad := looked(t, j, allSeen+"see.layer-under-joists = \"bad\"")
	require.True(t, bad.LayerMissing() || bad.Damper())
	require.NotEqual(t, p.Choice.Damp.Word, bad.Got.Damp.Word)
}

// Over an old blanket one quantity is asked for by name, and what was agreed
// names the same: how deep a ruler goes to the ceiling.
func TestDepthOverAnOldBlanketIsAskedByName(t *testing.T) {
	j := jobOf(t, midwest, oldAttic+"\nexisting_r = 11", openWall)
	depth := func(id string) house.Question {
		p := must(t, j, id)
		qs := inspect.QuestionsOf(inspect.FoundList(fixture.Catalog(t)), p, nil)
		return qs[slices.IndexFunc(qs, func(q house.Question) bool { return q.Key == "thickness_in" })]
	}
	agreed := func(p plan.Place) string { return inspect.AgreedLines(p, j)[len(inspect.AgreedLines(p, j))-1] }
	require.Contains(t, string(depth("attic").Prompt), "to the ceiling, the old blanket included")
	require.Contains(t, agreed(must(t, j, "attic")), "to the ceiling with the old blanket")
	require.NotContains(t, string(depth("wall").Prompt), "ceiling")
	require.True(t, slices.ContainsFunc(inspect.FormOf(j, must(t, j, "attic")), func(f inspect.Form) bool {
		return strings.HasPrefix(f.Figures, "the old blanket alone ____ in; to the ceiling, old blanket included")
	}))
	require.NotContains(t, agreed(must(t, j, "wall")), "ceiling")
}

// The sheet that was agreed stands where the finished work is checked, with its
// side: in what was agreed, in what to look at and in the form. Paint comes later.
func TestAgreedSheetIsOnTheInspectionPapers(t *testing.T) {
	papers := func(retarder string) (agreed string, face inspect.Form) {
		j := jobOf(t, midwest, openWall+"\nretarder = \""+retarder+"\"")
		p := must(t, j, "wall")
		forms := inspect.FormOf(j, p)
		at := slices.IndexFunc(forms, func(f inspect.Form) bool { return f.Point.From == catalog.FromFacing })
		return strings.Join(inspect.AgreedLines(p, j), "\n"), forms[at]
	}
	const sheet = "smart retarder sheet, toward the heated room"
	agreed, face := papers("smart")
	require.Contains(t, agreed, "sheet: "+sheet)
	require.Contains(t, face.Point.Look.String(), "Over it: "+sheet)
	require.Contains(t, face.Figures, "sheet __________ (agreed "+sheet+")")
	agreed, face = papers("paint")
	require.NotContains(t, agreed+face.Point.Look.String()+face.Figures, "heet")
}

// The store page names a sheet, whoever puts it up, and no second amount of it:
// the order counts its laps and what is cut out for openings.
func TestStorePageLeavesTheSheetToTheOrder(t *testing.T) {
	j := jobOf(t, midwest, openWall+"\nretarder = \"smart\"")
	page, err := inspect.PageFor(j, "store")
	require.NoError(t, err)
	require.Contains(t, page.Parts[0].Lines, "smart retarder sheet: see the order list for how much")
}

// Who looked at a part of a place has not seen the rest, and that is said.
func TestShareThatWasSeenIsSaid(t *testing.T) {
	j := jobOf(t, midwest, slope)
	h := good(t, j)
	require.Empty(t, inspect.JudgeFound(j, h, nil).PartSeen())
	h.Places[0].Answers["looked_ft2"] = house.Number(5)
	r := inspect.JudgeFound(j, h, nil)
	require.Equal(t, []string{must(t, j, "slope").Surface.Label}, r.PartSeen())
	require.InDelta(t, 5, r.Places[0].SeenFt2(), 1e-9)
}

// What is asked for fits the fault: fiber on bare concrete comes out and goes back
// dry inside the board, and no way out is offered that a rule bars; a board that is
// too thin is not put up again (PNNL, Building America Solution Center: no fiber
// straight on concrete).
func TestBoardOnConcreteIsAskedForAsItWasFound(t *testing.T) {
	j := jobOf(t, vermont, basement+"\nfoam_r = 10")
	ask := func(board string) (asks string, face inspect.State) {
		p := place(t, found(t, j, "[[place]]\nid = \"base\"\nlabel_r = [13]\nfacing = \"none\"\nsheet = \"none\"\n"+board), "base")
		for _, x := range p.Points {
			asks += x.Ask + " " + x.Text + "\n"
		}
		return asks, state(t, p, "facing-side")
	}
	bare, face := ask("board_there = false\n")
	require.Contains(t, bare, "put the board on the concrete first, then a dry blanket back")
	require.Contains(t, bare, "Straight on concrete")
	require.NotContains(t, bare, "worked out again")
	require.NotContains(t, bare, "unfaced blanket")
	require.Equal(t, inspect.Pass, face)
	thin, _ := ask("board_r = 5\n")
	require.Contains(t, thin, "Add what the R of the board lacks, or type the R that is there")
	require.NotContains(t, thin, "Put the board up")
}
