package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

const coldUnfaced = "id = \"w\"\nkind = \"exterior-wall\"\narea_ft2 = 500\nframing.size = \"2x6\"\ncladding = \"vented\"\nsheathing = \"osb\"\n"

// What is said to cure a place does so once it is answered: the blanket that was
// chosen then has the verdict that was promised, best first. A wall in the cold that
// nothing keeps room air's damp from is cured by a retarder or by enough board
// (practice; the well-known build-ups of rules/damp have both).
func TestWaysOutCure(t *testing.T) {
	const site = "state = \"MN\"\ncounty = \"St. Louis\"\ncode = \"irc-2021\""
	p := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, coldUnfaced+"retarder = \"none\""))).Places[0]
	require.True(t, p.Choice.Damp.Alarm())
	said := map[string]plan.WayOut{}
	last := 0
	for _, w := range p.WaysOut {
		said[w.ID] = w
		require.GreaterOrEqual(t, damp.Rank(w.Word), last, "best first")
		last = damp.Rank(w.Word)
	}
	require.Contains(t, said, "smart-sheet")
	require.Contains(t, said, "board-outside")
	board := strings.TrimPrefix(said["board-outside"].Text, "board outside the studs of R-")
	for id, keys := range map[string]string{"smart-sheet": "retarder = \"smart\"", "board-outside": "retarder = \"none\"\nci_r = " + board} {
		cured := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, coldUnfaced+keys+"\npin = \""+p.Choice.MaterialID+"\""))).Places[0]
		require.False(t, cured.Choice.Damp.Alarm(), id)
		if cured.Choice.Like(&p.Choice.Assessed) {
			require.Equal(t, said[id].Word, cured.Choice.Damp.Word, id)
		}
	}
	require.NotContains(t, said, "siding-gap", "it is there")
	require.NotContains(t, said, "foam-behind", "no such place")
	require.Empty(t, plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, coldUnfaced))).Places[0].WaysOut, "nothing to cure")
}

// A floor over a vented crawl space in damp heat that no blanket keeps dry: closing the
// crawl space is tried as what its walls would be given, and no blanket at all as what
// leaves the R unmet, which is said, and comes last.
func TestWaysOutOfADampFloor(t *testing.T) {
	const site, keys = "state = \"NC\"\ncounty = \"Wake\"\ncode = \"irc-2021\"\ncooled = true", "id = \"f\"\nkind = \"crawl-space\"\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x10\"\npin = \"fiberglass\"\n"
	p := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, keys+"vented = true"))).Places[0]
	require.True(t, p.Choice.Damp.Alarm())
	require.Len(t, p.WaysOut, 2)
	walls, bare := p.WaysOut[0], p.WaysOut[1]
	require.Equal(t, []string{"closed-crawl", "no-blanket"}, []string{walls.ID, bare.ID})
	require.Equal(t, "R-19 is asked", bare.But)
	require.Empty(t, walls.But)
	closed := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, keys+"vented = false"))).Places[0]
	require.Equal(t, closed.Choice.Damp.Word, walls.Word)
	require.Contains(t, walls.Text, "a closed crawl space, its walls insulated and no burner drawing air from it: "+closed.Choice.Name+" and R-5 board")
	require.Empty(t, p.Hinges, "the vents were answered")
	open := plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, keys))).Places[0]
	require.Len(t, open.Hinges, 1)
	require.Equal(t, "place.vented", open.Hinges[0].Key)
}

// Every try of the data is an answer of its question.
func TestWaysOutAreAnswers(t *testing.T) {
	l := fixture.List(t)
	for _, w := range l.Catalog().DampLayers().Ways {
		if w.NoBlanket {
			continue
		}
		q, ok := l.Find(w.Ask)
		require.True(t, ok, w.Ask)
		for _, typed := range w.Tries {
			_, err := q.Parse(typed)
			require.NoError(t, err, "%s %s", w.ID, typed)
		}
	}
}
