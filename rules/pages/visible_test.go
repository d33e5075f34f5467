package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// What stays visible is on the papers that people buy and work by, not in the
// plan alone: a blanket in sight carries its fire mark, flame spread 25 and
// smoke 450 at most (International Residential Code, R302.10; mark: secondary),
// and foam board in sight gets a cover (practice): the sheet says so of all foam
// board. Where nobody said whether it
// stays visible, both are asked for "if".
func TestWhatStaysVisibleIsOrderedAndHandedOver(t *testing.T) {
	head := "version = 1\nstage = \"framed\"\nold = false\ndrawings = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[[place]]\nid = \"x\"\nlabel = \"Here\"\nlength_ft = 40\nframing.size = \"2x4\"\n"
	const mark, cover, sheet, over = "must be marked 25/450", "320 ft2: cover over the blankets and the foam", "[ ] A blanket that stays visible is marked", "[ ] Foam board and blankets that would stay visible"
	papers := func(place string) (order, ask, hand string) {
		p, o := ordered(t, head+place)
		h, err := planned.Handed(pages.Handover{Job: planned.Job(fixture.Read(t, head+place))}, planned.Options(t))
		require.NoError(t, err)
		flat := func(s string) string { return strings.Join(strings.Fields(s), " ") }
		return flat(print.Text(pages.OrderPage(o, p, planned.Options(t)), planned.Options(t).Width)), flat(print.Text(pages.AskPage(o, p, planned.Options(t)), planned.Options(t).Width)), flat(h)
	}
	for _, kind := range []string{"basement-wall", "exterior-wall", "rim-joist"} {
		place := "kind = \"" + kind + "\"\n"
		switch kind {
		case "basement-wall":
			place += "height_ft = 8\ndampness = \"dry\"\nfoam_r = 10\n"
		case "rim-joist":
			place += "ci_r = 5\n"
		}
		for exposed, word := range map[string]string{"true": " (it stays visible)", "\"unknown\"": " if it stays visible", "false": ""} {
			order, ask, hand := papers(place + "exposed = " + exposed + "\n")
			what := kind + " " + exposed
			if exposed == "false" {
				require.NotContains(t, order+ask, mark, what)
				require.NotContains(t, hand, sheet, what)
			} else {
				require.Contains(t, order, mark+word, what)
				require.Contains(t, ask, mark+word, what)
				require.Contains(t, hand, sheet, what)
			}
			foam := kind == "basement-wall" && exposed != "false"
			require.Equal(t, foam, strings.Contains(order, cover), what)
			require.Equal(t, kind == "basement-wall", strings.Contains(hand, over), what)
			_, without, _ := strings.Cut(order, "NOT IN IT:")
			require.Equal(t, foam, strings.Contains(without, "cover over the blankets"), what)
			if foam && exposed != "true" {
				require.Contains(t, order, "accepts, if it stays visible", what)
			}
		}
	}
}
