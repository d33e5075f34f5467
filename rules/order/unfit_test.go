package order

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// What the order cannot count the plan does not recommend: no blanket is sold
// as wide as these spaces (the widest of the catalog is read from it).
func TestNothingIsRecommendedThatCannotBeCounted(t *testing.T) {
	widest := 0.0
	for _, m := range fixture.Catalog(t).Materials {
		for _, p := range fixture.Catalog(t).ProductsOf(m.ID) {
			for _, w := range p.WidthsIn {
				widest = max(widest, w)
			}
		}
	}
	kinds := map[string]string{
		"exterior-wall": "lengths_ft = [40]\nheight_ft = 8\nopenings = []",
		"attic":         "length_ft = 40\nwidth_ft = 28\nframing.size = \"2x8\"",
		"crawl-space":   "length_ft = 40\nwidth_ft = 28\nvented = true\nframing.size = \"2x10\"",
	}
	for _, spacing := range []float64{16, 19.2, 24, 30, 32, 48} {
		for kind, keys := range kinds {
			say := fmt.Sprintf("%s at %g in", kind, spacing)
			o, p, _ := made(t, houseOf(fmt.Sprintf("[[place]]\nid = \"a\"\nkind = %q\n%s\nframing.spacing_in = %g\n", kind, keys, spacing)))
			require.Empty(t, o.Places[0].Problem, say)
			if spacing-1.5 <= widest {
				require.NotEmpty(t, o.Lines, say)
				continue
			}
			require.Nil(t, p.Places[0].Choice, say)
			require.Empty(t, o.Lines, say)
			require.Contains(t, o.Places[0].Skipped, "wide", say)
		}
	}
}

// A low wall known by its area takes as many batts as its height lets be cut:
// 432 ft2 of wall 3 ft high at 24 in are 72 pieces of 36 in, two from each batt
// of 93 in, so 36 batts (worked by hand); what is ordered covers the wall and
// is not twice too much.
func TestLowWallsByAreaAreCutToTheirHeight(t *testing.T) {
	o, p, _ := made(t, houseOf(place("crawl", "crawl-space", "area_ft2 = 432\nvented = false\nwall_height_ft = 3\nfoam_r = 10\nframing.spacing_in = 24")))
	require.Len(t, o.Lines, 1)
	l := o.Lines[0]
	require.Equal(t, 93.0, l.LengthIn)
	require.Equal(t, 36, l.Stock)
	face := float64(l.Stock) * l.WidthIn * l.LengthIn / (units.InchPerFoot * units.InchPerFoot)
	require.Greater(t, face, p.Places[0].Surface.AreaFt2)
	require.Less(t, face, 1.3*p.Places[0].Surface.AreaFt2)
	notes := strings.Join(o.Places[0].Notes, "; ")
	require.Contains(t, notes, "area of the walls")
	require.Contains(t, notes, "crawl space")
	// By hand for other heights: 24 bays to a height, whole pieces in 93 in.
	for _, h := range []struct{ ft, perBatt float64 }{{2, 3}, {2.5, 3}, {3, 2}, {4, 1}} {
		o, _, _ := made(t, houseOf(place("crawl", "crawl-space", fmt.Sprintf("area_ft2 = %g\nvented = false\nwall_height_ft = %g\nfoam_r = 10\nframing.spacing_in = 24", 48*h.ft, h.ft))))
		require.Equal(t, int(math.Ceil(24/h.perBatt)), o.Lines[0].Stock, "%g ft high", h.ft)
	}
}
