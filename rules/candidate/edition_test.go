package candidate

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/testdata/fixture"
)

// A target names the edition it is from, and an edition that the table lists
// by another name is never called by a year of ours.
func TestTargetNamesItsEdition(t *testing.T) {
	c := *fixture.Catalog(t)
	for _, e := range c.Codes.Editions {
		got := assess(t, &c, "zone = \"6A\"\ncode = \""+e.ID+"\"", "kind = \"exterior-wall\"").Target.Text
		require.Contains(t, got, "model code "+e.Title, e.ID)
		require.Equal(t, e.Provisional, strings.Contains(got, "not yet checked"), got)
	}
	site := Site{Edition: "irc-2027", Zone: "6A", edition: catalog.Edition{ID: "irc-2027", Title: "2027"}}
	text := Target{CavityR: 30, Required: true, By: "code"}.describe(Surface{}, site)
	require.Contains(t, text, "2027")
	require.NotContains(t, text, "2021")
}
