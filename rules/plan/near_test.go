package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// The weather of another place is told as the same only when the damp check
// finds the same there, and only places of the same moisture letter are asked:
// Phoenix and Tucson are 2B, Houston is 2A (county zones of the 2021 code).
func TestNearWeatherComparesDampAndLetter(t *testing.T) {
	a := plan.Assess(fixture.Judged(t, fixture.OfPlaces(t, "state = \"TX\"\ncounty = \"Harris\"\ncooled = true", "id = \"here\"\nkind = \"exterior-wall\"\nframing.size = \"2x4\"")))
	p := plan.Preferences{Priorities: even}
	base := a.Weigh(p)
	text := a.NearClimates(base)
	require.NotContains(t, text, "Phoenix")
	require.NotContains(t, text, "Tucson")
	require.True(t, base.Places[0].Choice.Damp.Judged())

	same := 0
	for _, word := range []string{damp.Holds, damp.HoldsIfSealed, damp.Edge, damp.Wets, damp.Mold} {
		turned := base
		turned.Places = append([]plan.Place{}, base.Places...)
		choice := *base.Places[0].Choice
		choice.Damp.Word = word
		turned.Places[0].Choice = &choice
		if text := a.NearClimates(turned); strings.Contains(text, "the plan would be the same") {
			same++
		} else {
			require.Contains(t, text, "the damp check would find something else")
		}
	}
	require.Equal(t, 1, same, "a verdict that turns is no same plan")
}

// Two listed places of one name are told apart by their state.
func TestNearWeatherNamesTheState(t *testing.T) {
	met := 0
	for _, site := range []string{"state = \"WA\"\ncounty = \"King\"", "state = \"VT\"\ncounty = \"Chittenden\"", "state = \"NH\"\ncounty = \"Coos\"", "state = \"OR\"\ncounty = \"Lane\""} {
		a := plan.Assess(fixture.OfPlaces(t, site, "id = \"here\"\nkind = \"exterior-wall\""))
		p := plan.Preferences{Priorities: even}
		for _, part := range strings.Split(a.NearClimates(a.Weigh(p)), "Portland")[1:] {
			met++
			require.Regexp(t, `^, (OR|ME)\b`, part)
		}
	}
	require.Positive(t, met)
}
