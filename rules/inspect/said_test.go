package inspect_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
)

// A basement wall must be able to dry toward the room: an offer with plastic
// there is told so (PNNL Building America page on retarders of foundation
// walls, read).
func TestNoPlasticOnABasementWall(t *testing.T) {
	j := alder(t)
	const part = "[[part]]\nplace = \"basement\"\nmaterial = \"fiberglass\"\nr = 13\nthickness_in = 3.5\nfacing = \"none\"\n"
	require.Contains(t, ids(at(t, offered(t, j, part+"sheet = \"polyethylene\"\n"), "basement").Findings), "basement-sheet")
	require.NotContains(t, ids(at(t, offered(t, j, part), "basement").Findings), "basement-sheet")
}

// One sheet is judged alike in a bid and in finished work (practice), and no damp
// check that takes it on the other side of a floor calls it dry.
func TestASheetUnderAFloorIsJudgedAlike(t *testing.T) {
	j, _ := judgedPlace(t, "zone = \"6A\"", "kind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"")
	const sheet = "sheet = \"polyethylene\"\n"
	bid := at(t, offered(t, j, line("here", "none", sheet)), "here")
	require.Equal(t, inspect.Wrong, levelOf(t, bid, "loose-sheet"))
	require.False(t, bid.Offered.Damp.Judged())
	require.True(t, at(t, offered(t, j, line("here", "none", "")), "here").Offered.Damp.Judged())
	up := looked(t, j, "facing = \"none\"\nmaterial = \"fiberglass\"\n"+sheet)
	require.Equal(t, inspect.Fix, result(t, up, "facing-side").State)
	require.False(t, up.Got.Damp.Judged())
}
