package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// The weather of another place is told as the same only when the damp check
// finds the same there, and only places of the same moisture letter are asked:
// Phoenix and Tucson are 2B, Houston is 2A (county zones of the 2021 code).
func TestNearWeatherComparesDampAndLetter(t *testing.T) {
	a := plan.Assess(fixture.OfPlaces(t, "state = \"TX\"\ncounty = \"Harris\"\ncooled = true", "id = \"here\"\nkind = \"exterior-wall\"\nframing.size = \"2x4\""))
	p := plan.Preferences{Priorities: even}
	base := a.Weigh(p)
	text := a.NearClimates(p, base)
	require.NotContains(t, text, "Phoenix")
	require.NotContains(t, text, "Tucson")
	require.Equal(t, "mold-risk", base.Places[0].Choice.Damp.Verdict)

	dry := base
	dry.Places = append([]plan.Place{}, base.Places...)
	choice := *base.Places[0].Choice
	choice.Damp.Verdict = "no-build-up"
	dry.Places[0].Choice = &choice
	require.NotEqual(t, text, a.NearClimates(p, dry), "a verdict that turns is no same plan")
	require.Contains(t, a.NearClimates(p, dry), "the damp check would find something else")
}

// Two listed places of one name are told apart by their state.
func TestNearWeatherNamesTheState(t *testing.T) {
	met := 0
	for _, site := range []string{"state = \"WA\"\ncounty = \"King\"", "state = \"VT\"\ncounty = \"Chittenden\"", "state = \"NH\"\ncounty = \"Coos\"", "state = \"OR\"\ncounty = \"Lane\""} {
		a := plan.Assess(fixture.OfPlaces(t, site, "id = \"here\"\nkind = \"exterior-wall\""))
		p := plan.Preferences{Priorities: even}
		for _, part := range strings.Split(a.NearClimates(p, a.Weigh(p)), "Portland")[1:] {
			met++
			require.Regexp(t, `^, (OR|ME)\b`, part)
		}
	}
	require.Positive(t, met)
}
