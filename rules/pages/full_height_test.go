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

// The lower R of an attic serves for insulation that is not squeezed (IECC
// R402.2.1: "uncompressed"): where it rests on a blanket pressed between the
// framing that is said, and who decides.
func TestFullHeightOfAPressedBlanketIsSaid(t *testing.T) {
	o := planned.Options(t)
	texts := func(size, heel string) string {
		j := planned.Job(fixture.OfPlaces(t, "zone = \"7\"\ncode = \"irc-2021\"", "kind = \"attic\"\narea_ft2 = 792\nframing.size = \""+size+"\"\nframing.practice = \"trusses\"\nframing.spacing_in = 16\nheel_in = "+heel))
		p := j.Plan.Places[0]
		return spaced(planned.Printed(t, j.Plan) + print.Text(pages.WhyPage(p, o), o.Width))
	}
	const asks = "not squeezed there, and the "
	require.Contains(t, texts("2x10", "14"), asks+"R-38 is pressed from 10 1/4 in to 9 1/4 in between the framing: the building office says whether that counts")
	require.Contains(t, texts("2x10", "16"), asks+"R-30 is pressed from 9 1/2 in to 9 1/4 in")
	require.False(t, strings.Contains(texts("2x4", "24"), asks), "R-13 in 3 1/2 in")
}
