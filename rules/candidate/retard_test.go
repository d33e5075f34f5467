package candidate

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// A retarder that the code leaves open is added where the damp check comes out
// better with it, never where it comes out the same: it costs money and hinders
// drying for nothing.
func TestAnOpenRetarderIsAddedOnlyWhereItHelps(t *testing.T) {
	c := fixture.Catalog(t)
	added, idle := 0, 0
	for _, zone := range []string{"3A", "3C", "4A", "4B", "5B"} {
		for _, indoor := range []string{"usual", "humid"} {
			for _, wall := range []string{"ci_r = 0", "ci_r = 10", "sheathing = \"plywood\"", "cladding = \"direct\""} {
				a, p := ofPlace(t, c, fmt.Sprintf("zone = %q\nindoor = %q", zone, indoor), "kind = \"exterior-wall\"\nframing.size = \"2x6\"\n"+wall)
				site := ResolveSite(a)
				r := Assess(a, p, site)
				for _, done := range r.Candidates {
					f := facingOf(r.Surface, site, c, done.Blankets, r.Target)
					bare := Assessed{Blankets: done.Blankets, Facing: f, Damp: dampOf(r.Surface, site, c, done.Blankets, f, r.Target)}
					with := bare
					with.retard(r.Surface, site, c, r.Target)
					if with.Facing.Retarder() != bare.Facing.Retarder() {
						added++
						require.Less(t, dampRank[with.Damp.Verdict], dampRank[bare.Damp.Verdict], "%s %s: %s", zone, wall, done.Layers[0].Product.ID)
						continue
					}
					if _, open := openRetarder(f, r.Surface, done.Layers[0].Product.Has); open && f.Asked == RetarderNone && bare.Damp.Verdict == MoldRisk {
						idle++
					}
				}
			}
		}
	}
	require.Positive(t, added)
	require.Positive(t, idle, "no case in which a retarder would help nothing")
}
