package plan_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// "The only one" is said where nothing else is left, and only there: how often
// each wins is then no news.
func TestTheOnlyFiberIsOnlyAlone(t *testing.T) {
	c := fixture.Catalog(t)
	sure := func(keys string) plan.Sure {
		p := plan.Make(fixture.OfPlaces(t, "zone = \"4A\"", "kind = \"exterior-wall\"\nframing.size = \"2x6\"\nci_r = 5\n"+keys))
		require.NotNil(t, p.Places[0].Choice)
		return p.Places[0].SureOf(c.Settings.AboutEqual)
	}
	all := sure("")
	require.True(t, all.Known)
	require.False(t, all.Only)
	require.LessOrEqual(t, all.WinsOf100+all.RunnerWins, 100)
	two := sure("rule_out = [\"cotton\", \"sheeps-wool\"]")
	require.False(t, two.Only)
	one := sure("rule_out = [\"cotton\", \"sheeps-wool\", \"mineral-wool\"]")
	require.True(t, one.Only)
	require.Zero(t, one.RunnerWins)
	require.Empty(t, one.Switches)
}
