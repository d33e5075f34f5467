package inspect_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func areaLine(r, in, ft2 float64, face string) string {
	return fmt.Sprintf("[[part]]\nplace = \"here\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nr = %g\nthickness_in = %g\narea_ft2 = %g\nfacing = %q\nfacing_side = \"room\"\n", r, in, ft2, face)
}

// Two lines that each cover a part of a wall lie side by side (practice): their areas
// add up, each is judged, and none is squeezed into a room that the other fills.
func TestLinesThatSplitAWallAreParts(t *testing.T) {
	const wall1250 = "id = \"here\"\nkind = \"exterior-wall\"\narea_ft2 = 1250\nframing.size = \"2x6\"\nframing.spacing_in = 16\nsheathing = \"osb\"\ncladding = \"vented\"\nci_r = 5\n"
	j := jobOf(t, vermont, wall1250)
	judged := planned.Job(fixture.Judged(t, fixture.OfPlaces(t, vermont, wall1250)))
	whole := at(t, offered(t, j, areaLine(20, 5.5, 1250, "kraft")), "here")
	parts := at(t, offered(t, j, areaLine(20, 5.5, 650, "kraft")+areaLine(21, 5.5, 600, "kraft")), "here")
	require.InDelta(t, 1250, parts.AreaFt2, 1e-9)
	require.Contains(t, said(t, parts.Findings, "parts").Text, "650 ft2 of R-20 and 600 ft2 of R-21")
	for _, id := range []string{"area-off", "squeezed", "face-between"} {
		require.NotContains(t, ids(parts.Findings), id)
	}
	require.InDelta(t, whole.Offered.Heat.AssemblyR, parts.Offered.Heat.AssemblyR, 1e-9, "the poorest of them")

	// Each part is judged: one too thin, one with its face on the wrong side.
	thin := at(t, offered(t, j, areaLine(20, 5.5, 650, "kraft")+areaLine(13, 3.5, 600, "kraft")), "here")
	require.Equal(t, inspect.Wrong, levelOf(t, thin, "too-thin"))
	require.Less(t, thin.Offered.Heat.AssemblyR, whole.Offered.Heat.AssemblyR)
	turned := at(t, offered(t, j, areaLine(20, 5.5, 650, "kraft")+strings.Replace(areaLine(20, 5.5, 600, "kraft"), `"room"`, `"out"`, 1)), "here")
	require.Equal(t, inspect.Wrong, levelOf(t, turned, "facing-side"))
	poorer := damp.Rank(at(t, offered(t, judged, areaLine(20, 5.5, 650, "kraft")+strings.Replace(areaLine(20, 5.5, 600, "kraft"), `"room"`, `"out"`, 1)), "here").Offered.Damp.Word)
	require.Equal(t, damp.Rank(at(t, offered(t, judged, strings.Replace(areaLine(20, 5.5, 1250, "kraft"), `"room"`, `"out"`, 1)), "here").Offered.Damp.Word), poorer, "the damper of them")

	// Parts that leave some of the wall bare say how much, once.
	short := at(t, offered(t, j, areaLine(20, 5.5, 650, "kraft")+areaLine(20, 5.5, 400, "kraft")), "here")
	require.Contains(t, said(t, short.Findings, "area-off").Text, "together cover 1,050 ft2, the house file has 1,250 ft2: 200 ft2 less")

	// Lines that do not say so are layers still, and no room is said to be 0 in deep.
	layers := at(t, offered(t, j, areaLine(20, 5.5, 1250, "kraft")+areaLine(20, 5.5, 1250, "none")), "here")
	full := said(t, layers.Findings, "squeezed")
	require.Contains(t, full.Text, "no room is left")
	require.Contains(t, full.Ask, "side by side")
	require.NotContains(t, full.Text+full.Ask, "0 in")
}

// In an attic, where layers are usual, lines are parts only if they make up the whole.
func TestLinesThatSplitAnAtticAreParts(t *testing.T) {
	j := atticJob(t, "trusses", 24)
	line := func(r, in, ft2 float64) string {
		return strings.Replace(areaLine(r, in, ft2, "none"), "\"here\"", "\"attic\"", 1)
	}
	parts := at(t, offered(t, j, line(49, 14, 500)+line(38, 12, 400)), "attic")
	require.Contains(t, ids(parts.Findings), "parts")
	require.InDelta(t, 38, parts.Offered.CavityR, 1e-9, "the poorest, not their sum")
	layers := at(t, offered(t, j, line(19, 6.25, 900)+line(30, 9.5, 900)), "attic")
	require.NotContains(t, ids(layers.Findings), "parts")
	require.Greater(t, layers.Offered.CavityR, 45.0)
}

// What the gaps take is not said to be the wood's.
func TestGapsAreNotCalledWood(t *testing.T) {
	j := atticJob(t, "trusses", 24)
	p := at(t, offered(t, j, atticLine("fiberglass", 49, 14)), "attic")
	require.Positive(t, p.Offered.Heat.VoidShare)
	require.Contains(t, said(t, p.Findings, "joist-tops").Text, "With the wood and gaps in about 2 % of the area")
}
