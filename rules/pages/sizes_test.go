package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// Windows and doors that leave hardly any wall are asked about, before anybody
// reads a price of next to nothing.
func TestWindowsLargerThanTheirWallAreAskedAbout(t *testing.T) {
	for _, c := range []struct {
		sizes string
		asked bool
	}{{"area_ft2 = 16\nopenings_ft2 = 180", true}, {"area_ft2 = 1628\nopenings_ft2 = 1470", true}, {"area_ft2 = 1628\nopenings_ft2 = 180", false}} {
		p := plan.Make(fixture.OfPlaces(t, "zone = \"5A\"", "id = \"w\"\nkind = \"exterior-wall\"\n"+c.sizes)).Places[0]
		o := planned.Options(t)
		require.Equal(t, c.asked, strings.Contains(pages.Glance(p, o), "CHECK THE SIZES"), c.sizes)
		require.Equal(t, c.asked, pages.PlaceRows(p, o)[0].Label == "Sizes", c.sizes)
	}
}

// Short money leaves for later what can still be reached, never what drywall
// closes (common practice, no source).
func TestWhatCanWait(t *testing.T) {
	wait, cannot := plan.Make(fixture.OfPlaces(t, "zone = \"5A\"\ncounty = \"unknown\"", "id = \"a\"\nkind = \"attic\"\nlabel = \"Attic\"", "id = \"w\"\nkind = \"exterior-wall\"\nlabel = \"Wall\"", "id = \"s\"\nkind = \"sloped-ceiling\"\nlabel = \"Slope\"", "id = \"r\"\nkind = \"rim-joist\"\nlabel = \"Rim\"")).CanWait()
	require.Equal(t, []string{"Attic", "Rim"}, wait)
	require.Equal(t, []string{"Wall", "Slope"}, cannot)
	wait, cannot = plan.Make(fixture.OfPlaces(t, "zone = \"5A\"\ncounty = \"unknown\"", "id = \"r\"\nkind = \"rim-joist\"\nlabel = \"Rim\"\nexposed = false")).CanWait()
	require.Empty(t, wait, "drywall goes over it")
	require.Equal(t, []string{"Rim"}, cannot)
}
