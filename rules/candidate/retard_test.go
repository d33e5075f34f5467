package candidate

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// A retarder that the code leaves open is added where the place holds with it and
// does not without, never where it does not help: it costs money and hinders drying
// for nothing. Beside it nothing is changed.
func TestAnOpenRetarderIsAddedOnlyWhereItHelps(t *testing.T) {
	c := fixture.Catalog(t)
	added, sound := 0, 0
	for _, site := range []string{"climate = \"st-louis-mo\"\nzone = \"4A\"\nindoor = \"humid\"", "climate = \"baltimore-md\"\nzone = \"4A\"", "climate = \"denver-co\"\nzone = \"5B\"\nindoor = \"humid\""} {
		for _, wall := range []string{"ci_r = 0", "ci_r = 10", "ci_r = 0\ncladding = \"direct\""} {
			a, p := ofPlace(t, c, site, "kind = \"exterior-wall\"\nframing.size = \"2x6\"\n"+wall)
			r := Assess(a, p, ResolveSite(a))
			before := r.Candidates[0]
			bare := r.DampUnder(*r.site, &before)
			r.Dampen(0)
			now := r.Candidates[0]
			what := fmt.Sprintf("%s %s: %s, bare %s", site, wall, now.Damp.Word, bare.Word)
			if now.Facing.like(before.Facing) {
				require.Equal(t, bare.Word, now.Damp.Word, what)
				if !bare.Alarm() {
					sound++
				}
				continue
			}
			added++
			require.True(t, bare.Alarm(), what)
			require.False(t, now.Damp.Alarm(), what)
			require.Greater(t, now.Money.PerFt2.Typical, before.Money.PerFt2.Typical, what)
		}
	}
	require.Positive(t, sound)
	t.Logf("%d added, %d sound without", added, sound)
}
