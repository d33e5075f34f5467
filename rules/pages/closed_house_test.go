package pages_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

const closedHouse = "version = 1\nstage = \"closed\"\nold = false\n[site]\nzone = \"4A\"\ncode = \"irc-2018\"\n[shape]\nchimney = \"none\"\n[[place]]\nkind = \"attic\"\nlabel = \"Attic\"\nexisting_r = 19\nframing.size = \"2x8\"\n[[place]]\nid = \"wall\"\nkind = \"exterior-wall\"\nlabel = \"Wall\"\nframing.size = \"2x4\"\n"

// In a house that is closed the drywall hangs and comes off first (practice): the
// installer hears so on the phone, of the old blanket too, and a bid is asked who
// does it.
func TestClosedHouseIsSaidToWhoeverWorksThere(t *testing.T) {
	a := fixture.Read(t, closedHouse)
	all := papers(t, a)
	_, phone, ok := strings.Cut(spaced(all["ask"]), "May I read you what and where?")
	require.True(t, ok)
	require.Contains(t, phone, "only after the drywall or plaster comes off")
	require.Contains(t, phone, "the old R-19 lies there already")
	require.NotContains(t, spaced(planned.Printed(t, planned.Job(a).Plan)), "whoever hangs the drywall")
	j := planned.Job(a)
	bare := bid(t, j, "[[part]]\nplace = \"wall\"\nmaterial = \"fiberglass\"\nr = 13\n")["text"]
	require.Contains(t, bare, "Wall: Who sees to this: drywall or plaster taken off and put back")
	require.NotContains(t, bid(t, j, "[[part]]\nplace = \"wall\"\nmaterial = \"fiberglass\"\nr = 13\nalso = [\"opened-wall\"]\n")["text"], "taken off and put back")
}

// The calendar has no step that lies behind the house, and none for a chimney where
// nothing goes up; one that may go up keeps it.
func TestCalendarOfAClosedHouse(t *testing.T) {
	days := func(text string) string {
		got, err := planned.Handed(pages.Handover{Job: planned.Job(fixture.Read(t, text)), Drywall: time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)}, planned.Options(t))
		require.NoError(t, err)
		return spaced(got)
	}
	const frame, siding, chimney, opened = "Last day to change the frame", "wants one, before the siding", "Chimney and flues are up", "and pipes and cables were looked for"
	closed := days(closedHouse)
	for _, behind := range []string{frame, siding, chimney} {
		require.NotContains(t, closed, behind)
	}
	require.Contains(t, closed, opened)
	early := days(strings.Replace(closedHouse, `"closed"`, `"framed"`, 1))
	require.Contains(t, early, frame)
	require.Contains(t, early, siding)
	require.NotContains(t, early, opened)
	for _, may := range []string{strings.Replace(closedHouse, `chimney = "none"`, `chimney = "masonry"`, 1), strings.Replace(closedHouse, `chimney = "none"`, "", 1), strings.Replace(closedHouse, "existing_r", "flue_through = \"unknown\"\nexisting_r", 1)} {
		require.Contains(t, days(may), chimney)
	}
}

// Siding that is on an old house comes off for a board outside (practice).
func TestBoardOfAnOldHouse(t *testing.T) {
	const wall = "[site]\nzone = \"6A\"\n[[place]]\nkind = \"exterior-wall\"\nknob_and_tube = false\nframing.size = \"2x6\"\n"
	for old, want := range map[string]bool{"true": true, "false": false} {
		text := spaced(papers(t, fixture.Read(t, "version = 1\nstage = \"wired\"\nold = "+old+"\n"+wall))["order"])
		require.Contains(t, text, "before the siding goes on", old)
		require.Equal(t, want, strings.Contains(text, "siding that is on has to come off for it"), old)
	}
}

// A blanket that is pressed into its room is not said to be fitted unsqueezed: what
// it is worth there is (the curve of squeezed labels).
func TestHowOfAPressedBlanket(t *testing.T) {
	how := func(more string) string {
		return spaced(planned.Printed(t, planned.Job(fixture.Read(t, "version = 1\nold = false\n"+more+"[site]\nzone = \"4B\"\n[[place]]\nkind = \"sloped-ceiling\"\narea_ft2 = 300\nframing.size = \"2x8\"\nframing.spacing_in = 24\n")).Plan))
	}
	pressed := how("rule_out = [\"fiberglass\", \"cotton\", \"sheeps-wool\"]\n")
	require.Contains(t, pressed, "goes in pressed, evenly and no more than the room asks: worth R-27 there, not R-30")
	require.NotContains(t, pressed, "not folded, not squeezed")
	require.Contains(t, how("rule_out = [\"mineral-wool\"]\n"), "not folded, not squeezed")
}

// A wall whose board is missing is short of its target (IECC R402.1.3: R-20 + 5),
// as an attic with too little blanket is.
func TestShortWithoutTheBoard(t *testing.T) {
	j := checkedJob(t, plainWall)
	short := func(board string) string {
		return found(t, j, "[[place]]\nid = \"wall\"\nlabel_r = [20]\nlabel_thickness_in = [5.5]\nfacing = \"kraft\"\nfacing_side = \"room\"\n"+board).Places[0].ShortText(j.System)
	}
	require.Contains(t, short("board_there = false\n"), "SHORT by R-5 of the board")
	require.Contains(t, short("board_r = 2\n"), "SHORT by R-3 of the board")
	require.Empty(t, short("board_r = 5\n"))
	require.Empty(t, short(""))
	r := found(t, j, "[[place]]\nid = \"wall\"\nlabel_r = [20]\nboard_there = false\n")
	require.Equal(t, []string{"Exterior wall"}, r.Short())
}

// By its stage a house has its blankets (practice): the plan and the order say what
// they are for then, and each line for which places what is in comes out first. What
// is known of an attic is no guess.
func TestWhatIsInIsNotOrderedAgainUnsaid(t *testing.T) {
	insulated := strings.Replace(closedHouse, `"closed"`, `"insulated"`, 1)
	for text, said := range map[string]string{insulated: "THE INSULATION IS IN, you said. What lies there already is not known here (Wall)", closedHouse: "THE HOUSE IS CLOSED, you said. What lies there already is not known here (Wall)"} {
		out := heads(t, text)
		for _, form := range []string{"plan", "plan-json", "text", "markdown", "csv", "json", "ask"} {
			require.Equal(t, 1, strings.Count(out[form], said), form)
		}
		for _, form := range []string{"text", "csv"} {
			require.Equal(t, 1, strings.Count(out[form], "only if what is in comes out, or none is in yet: Wall"), form)
		}
		require.Contains(t, out["json"], `"only_if_out": [ "Wall" ]`)
		require.NotContains(t, out["handover-"], said)
	}
	require.NotContains(t, heads(t, strings.Replace(closedHouse, `"closed"`, `"wired"`, 1))["text"], "only if what is in")
	attic := heads(t, strings.Split(closedHouse, "[[place]]\nid = \"wall\"")[0])
	require.NotContains(t, attic["text"], "only if what is in")
	require.NotContains(t, attic["plan"], "you said. What lies there")
}
