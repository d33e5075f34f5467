package order

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// A retarder beside the blanket is on the list of its wall, enough to cover all
// of it, and none is where the paper face does the work or nothing is wanted.
func TestARetarderBesideTheBlanketIsOrdered(t *testing.T) {
	const wallFt2 = 20 * 8
	for retarder, want := range map[string][]string{
		"smart":        {"sheet-smart", "tape"},
		"polyethylene": {"sheet-polyethylene", "tape"},
		"paint":        {"paint"},
		"plan":         nil,
		"none":         nil,
	} {
		o, _, _ := made(t, wall("lengths_ft = [20]\nheight_ft = 8\nopenings = []\nframing.size = \"2x4\"\nci_r = 10\nretarder = \""+retarder+"\""))
		require.NotEmpty(t, o.Places[0].Layers, retarder)
		var got []string
		for _, x := range o.Places[0].Extras {
			if slices.Contains([]string{"sheet-smart", "sheet-polyethylene", "sheet-kraft", "sheet-none", "tape", "paint"}, x.ID) {
				got = append(got, x.ID)
				require.Positive(t, x.Qty, x.ID)
			}
			if x.Ft2 > 0 && x.ID != "tape" && x.Unit != "board" {
				require.GreaterOrEqual(t, x.Ft2, float64(wallFt2), "%s: %s", retarder, x.ID)
			}
		}
		require.Equal(t, want, got, retarder)
	}
}

// A wall of which only the area is known gets a sheet for all of it, with laps
// and no more than half as much again.
func TestARetarderByTheArea(t *testing.T) {
	o, _, _ := made(t, wall("area_ft2 = 400\nframing.size = \"2x4\"\nci_r = 10\nretarder = \"smart\""))
	i := slices.IndexFunc(o.Places[0].Extras, func(x Extra) bool { return x.ID == "sheet-smart" })
	require.GreaterOrEqual(t, i, 0)
	require.GreaterOrEqual(t, o.Places[0].Extras[i].Ft2, 400.0)
	require.LessOrEqual(t, o.Places[0].Extras[i].Ft2, 600.0)
}
