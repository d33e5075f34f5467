package candidate

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/fixture"
)

// Points for itch and dust are halved, at every end of their range, where an
// installer does the work (practice).
func TestAnInstallerHalvesTheItch(t *testing.T) {
	c := fixture.Catalog(t)
	raws := func(hands string) map[string]Measure {
		out := map[string]Measure{}
		for _, a := range assess(t, c, "zone = \"5A\"\n[budget]\nlabor = \""+hands+"\"", "kind = \"exterior-wall\"").Candidates {
			for _, v := range a.Values {
				if v.Criterion == "irritants" {
					out[a.Layers[0].Product.ID] = v
				}
			}
		}
		return out
	}
	self := raws("self")
	require.NotEmpty(t, self)
	for _, hands := range []string{"installer", "installer-checked"} {
		for id, m := range raws(hands) {
			require.InDelta(t, self[id].Raw.Low/2, m.Raw.Low, 1e-9, id)
			require.InDelta(t, self[id].Raw.Typical/2, m.Raw.Typical, 1e-9, id)
			require.InDelta(t, self[id].Raw.High/2, m.Raw.High, 1e-9, id)
			require.Less(t, self[id].Value.Low, m.Value.Low, "%s: less itch is worth more", id)
		}
	}
}

// ENERGY STAR (US EPA, read) prints its advice for attics over 3 to 4 inches of
// old insulation: it is told there, and neither over less nor over more.
func TestRetrofitAdviceIsToldWhereItIsPrinted(t *testing.T) {
	c, told := fixture.Catalog(t), map[bool]int{}
	for r := 2; r <= 30; r++ {
		p := assess(t, c, "zone = \"5A\"", fmt.Sprintf("kind = \"attic\"\nexisting_r = %d", r))
		require.Equal(t, "retrofit", p.Target.By)
		advised := strings.Contains(strings.Join(p.Target.Notes, "; "), "of old blanket the government's advice")
		near := p.Surface.OldIn >= 3 && p.Surface.OldIn <= 4
		require.Equal(t, near, advised, "R-%d, %v in", r, p.Surface.OldIn)
		told[advised]++
	}
	require.Positive(t, told[true])
	require.Positive(t, told[false])
}
