package candidate

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/heat"
	"battwright/testdata/fixture"
)

// Where the roof comes down on a blanket harder than it bears to be squeezed,
// no more is claimed than the space it has times a usual R for each inch: 2.9
// to 4.3 (US DOE text, read; 4.3 memory), so little space is worth little, and
// more space never less.
func TestWhatIsLeftAtATightEave(t *testing.T) {
	c, tight := fixture.Catalog(t), 0
	before := map[string]float64{}
	for heel := 3.0; heel <= 20; heel += 0.25 {
		r := assess(t, c, "zone = \"6A\"", fmt.Sprintf("kind = \"attic\"\nframing.size = \"2x6\"\nheel_in = %g", heel))
		for _, a := range r.Candidates {
			id := ""
			for _, l := range a.Layers {
				id += l.Product.ID + " "
			}
			room := max(0, heel-(fullHeel(r.Surface, a.Blankets)-a.HeightIn))
			if a.Heat.EaveShortIn == 0 {
				continue
			}
			require.GreaterOrEqual(t, a.Heat.EaveR, before[id]-1e-9, "%s with a heel of %v in", id, heel)
			before[id] = a.Heat.EaveR
			require.LessOrEqual(t, a.Heat.EaveR, a.NominalR, "%s with a heel of %v in", id, heel)
			if room == 0 {
				require.Zero(t, a.Heat.EaveR)
			} else if labelHeight(a.Blankets) > heat.MaxSqueeze*room {
				tight++
				require.GreaterOrEqual(t, a.Heat.EaveR/room, 2.9, "%s with a heel of %v in", id, heel)
				require.LessOrEqual(t, a.Heat.EaveR/room, 4.35, "%s with a heel of %v in", id, heel)
			}
		}
	}
	require.Greater(t, tight, 50)
}
