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

// The heat of the winter is never told as the whole bill of a house that is
// cooled in a warm zone: there the summer is the bigger half (common practice,
// no source).
func TestWinterIsNotTheWholeBillOfAWarmHouse(t *testing.T) {
	told := func(site string) string {
		p := plan.Make(fixture.OfPlaces(t, site, "id = \"a\"\nkind = \"attic\""))
		var b strings.Builder
		for _, block := range pages.WhyPage(p.Places[0], planned.Options(t)).Blocks {
			for _, r := range block.Rows {
				b.WriteString(r.Text + "\n")
			}
		}
		return b.String()
	}
	require.Contains(t, told("state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = true"), "winter alone")
	require.NotContains(t, told("state = \"FL\"\ncounty = \"Miami-Dade\"\ncooled = false"), "winter alone")
	require.NotContains(t, told("state = \"VT\"\ncounty = \"Chittenden\"\ncooled = true"), "winter alone")
}
