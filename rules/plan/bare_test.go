package plan_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

func judgedPlace(t testing.TB, site, keys string) plan.Place {
	t.Helper()
	return plan.Make(fixture.Judged(t, fixture.OfPlaces(t, site, "id = \"here\"\n"+keys))).Places[0]
}

// A blanket that lies open to the room has nothing that could be sealed: it is judged
// with holes, and covered it is not (practice).
func TestABareBlanketIsJudgedWithHoles(t *testing.T) {
	const site, wall = "state = \"ID\"\ncounty = \"Valley\"\ncode = \"irc-2021\"", "kind = \"exterior-wall\"\narea_ft2 = 400\nframing.size = \"2x6\"\nci_r = 10\nexposed = "
	open := judgedPlace(t, site, wall+"true").Choice.Damp
	require.True(t, open.Judged())
	require.Equal(t, open.Holed, open.Sealed)
	require.NotEqual(t, damp.HoldsIfSealed, open.Word)
	covered := judgedPlace(t, site, wall+"false").Choice.Damp
	require.Less(t, covered.Sealed.Moisture, covered.Holed.Moisture)
}

// Fiber board on concrete is no foam board: foam is bought for it.
func TestMineralWoolOnConcreteIsNoFoam(t *testing.T) {
	const site, wall = "state = \"IL\"\ncounty = \"Cook\"\ncode = \"irc-2021\"", "kind = \"basement-wall\"\narea_ft2 = 400\nframing.size = \"2x4\"\ndampness = \"dry\"\nfoam_r = 10\nboard_kind = "
	require.Zero(t, judgedPlace(t, site, wall+"\"xps\"").Target.AddR)
	require.Positive(t, judgedPlace(t, site, wall+"\"mineral-wool\"").Target.AddR)
}

// Where nothing reaches the target, less R never wins because more heat leaks out and
// dries the wood: of what may go there the nearest is chosen, by whole R.
func TestLessRNeverWinsByDamp(t *testing.T) {
	p := judgedPlace(t, "state = \"AK\"\ncounty = \"Fairbanks North Star\"\ncode = \"irc-2021\"", "kind = \"sloped-ceiling\"\narea_ft2 = 300\nframing.size = \"2x12\"\nroof_pitch = 8\nexposed = false")
	require.NotNil(t, p.Choice)
	require.False(t, p.Choice.Heat.MeetsTarget)
	for i := range p.Candidates {
		if c := &p.Candidates[i]; !c.Excluded() && !c.Demoted() {
			require.LessOrEqual(t, math.Round(p.Choice.Heat.ShortByR), math.Round(c.Heat.ShortByR))
		}
	}
}
