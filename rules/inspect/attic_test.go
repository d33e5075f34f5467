package inspect_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// atticJob is an attic over 2x6 trusses or joists in Vermont, where the code
// of 2018 wants R-49.
func atticJob(t testing.TB, practice string, spacing int) inspect.Job {
	t.Helper()
	return planned.Job(fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"\ncode = \"irc-2018\"", fmt.Sprintf(`
id = "attic"
kind = "attic"
area_ft2 = 900
heel_in = 12
flue_through = false
non_ic_lights = false
framing.size = "2x6"
framing.practice = %q
framing.spacing_in = %d`, practice, spacing)))
}

func atticLine(material string, r, in float64) string {
	return fmt.Sprintf("[[part]]\nplace = \"attic\"\nmaterial = %q\nform = \"batt\"\nr = %g\nthickness_in = %g\narea_ft2 = 900\nfacing = \"none\"\n", material, r, in)
}

// Nothing lies on the only blanket of an attic: it keeps the R of its bag
// however thick it is (practice), whatever frame it lies in. What stands above
// the joists is named, with what bare joist tops cost.
func TestOpenAtticBattIsNotSqueezed(t *testing.T) {
	for _, frame := range []struct {
		practice string
		spacing  int
	}{{"trusses", 24}, {"standard", 16}} {
		j := atticJob(t, frame.practice, frame.spacing)
		for in, r := range map[float64]float64{14: 49, 12: 38} {
			p := at(t, offered(t, j, atticLine("fiberglass", r, in)), "attic")
			require.Equal(t, r, p.Offered.CavityR)
			require.Equal(t, in, p.Offered.HeightIn)
			require.NotContains(t, ids(p.Findings), "squeezed")
			require.Equal(t, r < 49, p.Offered.Heat.ShortByR > 0, "R-49 is what is asked")
			require.Contains(t, said(t, p.Findings, "joist-tops").Text, "nothing squeezes it")
			require.Less(t, p.Offered.Heat.AssemblyR, p.Closed.Heat.AssemblyR, "bare tops lose heat")
			require.Less(t, p.Closed.Heat.AssemblyR, r)

			f := place(t, found(t, j, fmt.Sprintf("[[place]]\nid = \"attic\"\nlabel_r = %g\nlabel_thickness_in = %g\nmaterial = \"fiberglass\"\nthickness_in = [%g, %g]\n", r, in, in, in)), "attic")
			require.InDelta(t, r, f.Got.CavityR, 1e-9)
			thin := place(t, found(t, j, fmt.Sprintf("[[place]]\nid = \"attic\"\nlabel_r = %g\nlabel_thickness_in = %g\nmaterial = \"fiberglass\"\nthickness_in = %g\n", r, in, in-3)), "attic")
			require.Less(t, thin.Got.CavityR, r, "measured thinner than its own label")
		}
	}
	// Between studs the same blanket has a wall on both sides and is squeezed.
	r := offered(t, alder(t), "[[part]]\nplace = \"street-wall\"\nmaterial = \"fiberglass\"\nr = 38\nthickness_in = 12\n")
	require.Less(t, at(t, r, "street-wall").Offered.CavityR, 30.0)
}

// Two layers written in one line are read as two, and asked about; one blanket
// that is sold so stays one.
func TestTwoLayersInOneLine(t *testing.T) {
	j := atticJob(t, "trusses", 24)
	two := at(t, offered(t, j, atticLine("mineral-wool", 23, 5.5)+atticLine("mineral-wool", 23, 5.5)), "attic")
	one := at(t, offered(t, j, atticLine("mineral-wool", 46, 11)), "attic")
	require.Equal(t, two.Offered.Heat, one.Offered.Heat)
	require.Contains(t, said(t, one.Findings, "one-line").Text, "R-23 and R-23")
	require.Contains(t, strings.Join(offered(t, j, atticLine("mineral-wool", 46, 11)).Questions, "\n"), "R-23 and R-23 in layers")
	for _, x := range [][2]float64{{49, 14}, {38, 12}} {
		p := at(t, offered(t, j, atticLine("fiberglass", x[0], x[1])), "attic")
		require.Len(t, p.Offered.Layers, 1)
		require.NotContains(t, ids(p.Findings), "one-line")
	}
}
