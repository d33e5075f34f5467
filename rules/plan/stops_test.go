package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// Least air from wood to masonry: IRC R1003.18, 2 in inside the house or within
// the wall, 1 in wholly outside; R1001.11, 2 in at the sides of a fireplace (all
// read; the 4 in at its back is from memory, and stops nothing).
var leastIn = map[string]float64{"masonry-inside": 2, "masonry-in-wall": 2, "masonry-outside": 1, "masonry-fireplace": 2}

// Wood nearer to a chimney than it may stops the place, whatever the kind and
// the gap; for a pipe, its listing decides. Without a width nothing is chosen or
// ordered, and while the gap is not known the wood is warned of.
func TestWoodNearAChimneyStops(t *testing.T) {
	kinds := []string{"masonry-inside", "masonry-in-wall", "masonry-outside", "masonry-fireplace", "factory-built", "type-b-vent", "metal-connector", "pellet-vent", "plastic-vent", "unknown"}
	for _, kind := range kinds {
		for _, listed := range []float64{-1, 0, 1, 3} {
			for gap := -0.25; gap <= 5; gap += 0.25 {
				text := fmt.Sprintf("id = \"x\"\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = %q", kind)
				if listed >= 0 {
					text += fmt.Sprintf("\nclearance_in = %g", listed)
				}
				if gap >= 0 {
					text += fmt.Sprintf("\ngap_in = %g", gap)
				}
				a := fixture.OfPlaces(t, "zone = \"6A\"", text)
				p := plan.Make(a)
				checkWood(t, p.Places[0], max(leastIn[kind], listed), gap, text)
				known := kind != "unknown" && (leastIn[kind] > 0 || listed > 0)
				if !known || p.Places[0].Stopped() {
					require.Nil(t, p.Places[0].Choice, text)
					require.Empty(t, order.Make(p, a).Lines, text)
				} else {
					require.NotNil(t, p.Places[0].Choice, text)
				}
				require.Equal(t, known, p.Places[0].Surface.Held() == "", text)
			}
		}
	}
}

func checkWood(t *testing.T, p plan.Place, least, gap float64, why string) {
	t.Helper()
	at := slices.IndexFunc(p.Stops, func(s plan.Stop) bool { return s.Danger == "chimney-wood-near" })
	near := gap >= 0 && gap < least
	require.Equal(t, near, at >= 0, why)
	if near {
		require.Contains(t, p.Stops[at].Say, units.US.Inches(least-gap)+" too near", why)
	}
	asked := slices.ContainsFunc(p.Safety, func(h ruleHit) bool { return h.Rule.ID == "chimney-wood-near" && len(h.Unknown) > 0 })
	require.Equal(t, gap < 0 || least <= 0, asked, why)
}

// The air there is already leaves more of the bay to the blanket: behind 2 in
// of air the whole 2x6 may be filled, without it 3 1/2 in are left (5 1/2 - 2).
func TestATypedGapLeavesMoreOfTheBay(t *testing.T) {
	room := func(more string) float64 {
		p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"x\"\nkind = \"chimney\"\nframing.size = \"2x6\"\nchimney = \"masonry-inside\""+more))
		require.NotNil(t, p.Places[0].Choice)
		return p.Places[0].Surface.Frame.RoomIn
	}
	require.InDelta(t, 3.5, room(""), 1e-9)
	require.InDelta(t, 5.5, room("\ngap_in = 2"), 1e-9)
	require.InDelta(t, 5.5, room("\ngap_in = 9"), 1e-9)
	// The back of a fireplace keeps 4 in, from memory: 3 in of air leave 1 in to add.
	p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"x\"\nkind = \"chimney\"\nframing.size = \"2x6\"\nchimney = \"masonry-fireplace\"\ngap_in = 3"))
	require.InDelta(t, 4.5, p.Places[0].Surface.Frame.RoomIn, 1e-9)
	require.Contains(t, p.Places[0].Surface.Clearance.Reason, "ask the mason whether it may stand so near")
}

// What an answer would stop is told by the stop's own first sentence: a wet wall
// waits for gutters and a season, not for somebody licensed.
func TestFindOutSaysWhatStops(t *testing.T) {
	said := foundOut(t, "version = 1\nstage = \"framed\"\nold = true\n[site]\nzone = \"6A\"\n[[place]]\nid = \"b\"\nkind = \"basement-wall\"\nlabel = \"Cellar\"\nfoam_r = 10\n")
	require.Contains(t, said["place.dampness"].Effect, "no plan for Cellar yet: keep the water out first")
	require.NotContains(t, said["place.dampness"].Effect, "licensed")
	said = foundOut(t, "version = 1\n[site]\nzone = \"6A\"\n[[place]]\nid = \"c\"\nkind = \"chimney\"\nlabel = \"Flue\"\n")
	require.Contains(t, said["place.chimney"].Effect, "no plan for Flue yet: a single-wall")
}

// A danger that would stop a stopped place as well is found out too.
func TestASecondStopMatters(t *testing.T) {
	said := foundOut(t, "version = 1\nstage = \"framed\"\nold = true\n[site]\nzone = \"6A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nlabel = \"Loft\"\nknob_and_tube = true\n")
	require.True(t, said["place.vermiculite"].Matters)
	require.Contains(t, said["place.vermiculite"].Effect, "nobody goes up there")
}
