package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
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
// ordered, and while the gap is not known the wood is warned of. A single-wall pipe
// is stopped for itself.
func TestWoodNearAChimneyStops(t *testing.T) {
	kinds := []string{"masonry-inside", "masonry-in-wall", "masonry-outside", "masonry-fireplace", "factory-built", "type-b-vent", "pellet-vent", "plastic-vent", "unknown"}
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
	at := slices.IndexFunc(p.Stops, func(s plan.Stop) bool { return nearRule(s.Danger) })
	near := gap >= 0 && gap < least
	require.Equal(t, near, at >= 0, why)
	if near {
		require.Contains(t, p.Stops[at].Say, units.US.Inches(least-gap)+" too near", why)
	}
	asked := slices.ContainsFunc(p.Safety, func(h ruleHit) bool { return nearRule(h.Rule.ID) && len(h.Unknown) > 0 })
	require.Equal(t, gap < 0 || least <= 0, asked, why)
}

func nearRule(id string) bool { return id == "chimney-wood-near" || id == "pipe-wood-near" }

// A shortfall too small for a tape measure is one all the same, and not 0.
func TestATinyShortfallIsNotNothing(t *testing.T) {
	for _, gap := range []float64{1.999, 1.95} {
		p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", fmt.Sprintf("id = \"x\"\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = \"masonry-inside\"\ngap_in = %g", gap)))
		require.True(t, p.Places[0].Stopped())
		require.Contains(t, p.Places[0].StopText(), "less than 1/16 in too near", gap)
	}
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

func oldHouse(t *testing.T, places ...string) house.Answered {
	t.Helper()
	return fixture.Read(t, strings.Replace(fixture.PlacesText("zone = \"6A\"", places...), "old = false", "old = true", 1))
}

// What would stop a place and is not known is found out first: an unknown stop
// asks, a known one stops, a ruled out one says nothing; where another place of
// the house has the danger, that is said.
func TestAnUnknownDangerIsFoundOutFirst(t *testing.T) {
	attic := func(id, answers string) string {
		return fmt.Sprintf("id = %q\nkind = \"attic\"\nlabel = \"Loft %s\"\n%s", id, id, answers)
	}
	no := "vermiculite = false\nknob_and_tube = false\n"
	asks := func(p plan.Place) []string {
		var out []string
		for _, h := range p.Asks() {
			out = append(out, h.Rule.ID)
		}
		return out
	}
	for answers, want := range map[string][]string{
		no:                      nil,
		"":                      {"vermiculite", "knob-and-tube"},
		"vermiculite = false\n": {"knob-and-tube"},
		"vermiculite = true\n":  nil, // it stops
	} {
		a := oldHouse(t, attic("a", answers), attic("b", no))
		p := plan.Make(a)
		require.Equal(t, want, asks(p.Places[0]), answers)
		require.Len(t, p.Places[0].FindFirst(a.List.Catalog(), units.US), len(want), answers)
		require.Empty(t, p.Places[1].Asks())
	}
	a := oldHouse(t, attic("a", ""), attic("b", "vermiculite = true\nknob_and_tube = false\n"))
	first := plan.Make(a).Places[0].FindFirst(a.List.Catalog(), units.US)
	require.Len(t, first, 2)
	require.Contains(t, first[0], "elsewhere (Loft b)")
	require.NotContains(t, first[1], "elsewhere")
}

// Loose fill of an attic can have run down into the walls under it, along a
// chimney and into the rafter spaces that open to it (practice): they are warned of, asked about while nobody knows, and left
// alone without it.
func TestFillOfTheAtticWarnsBelowIt(t *testing.T) {
	for answer, want := range map[string]int{"true": 1, "false": 0, `"unknown"`: 2} {
		p := plan.Make(oldHouse(t, "id = \"a\"\nkind = \"attic\"\nvermiculite = "+answer, "id = \"w\"\nkind = \"exterior-wall\"", "id = \"s\"\nkind = \"sloped-ceiling\"", "id = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-outside\"\ngap_in = 1\nknob_and_tube = false"))
		for _, place := range p.Places[1:] {
			got := 0
			for _, h := range place.Safety {
				if h.Rule.ID == "fill-above-wall" {
					got = 1 + min(1, len(h.Unknown))
					require.True(t, h.AsksFirst())
				}
			}
			if asks := place.Asks(); want > 0 && !place.Stopped() {
				require.Equal(t, "fill-above-wall", asks[0].Rule.ID, "%s: nobody opens it to look at wires or brick before the fill is tested", place.Surface.ID)
			}
			require.Equal(t, want, got, "%s %s", place.Surface.ID, answer)
		}
	}
}

// The stop of a pipe nearer than its listing offers none of the exceptions of
// brick (a lining, wood against masonry: IRC R1003.18) and sends to no mason.
func TestAPipeHasNoExceptionOfBrick(t *testing.T) {
	for kind, brick := range map[string]bool{"masonry-inside": true, "factory-built": false, "type-b-vent": false, "pellet-vent": false, "unknown": false} {
		p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", fmt.Sprintf("id = \"x\"\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = %q\nclearance_in = 2\ngap_in = 1", kind)))
		require.Len(t, p.Places[0].Stops, 1, kind)
		stop := p.Places[0].Stops[0]
		require.Equal(t, brick, strings.Contains(stop.Say, "lining"), stop.Say)
		require.Equal(t, brick, strings.Contains(stop.Say+stop.Call, "mason "), stop.Say)
		require.Contains(t, stop.Say, "licensed")
	}
}

// Between what the code asks at the sides of a fireplace (2 in, IRC R1001.11,
// read) and the 4 in of its back (memory), it is asked which side was measured.
func TestAFireplaceAsksWhichSide(t *testing.T) {
	for gap, want := range map[string]bool{"2": true, "3.75": true, "4": false, "6": false} {
		p := plan.Make(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"x\"\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = \"masonry-fireplace\"\ngap_in = "+gap))
		require.Equal(t, want, len(p.Places[0].Asks()) == 1 && p.Places[0].Asks()[0].Rule.ID == "fireplace-which-side", gap)
		require.False(t, p.Places[0].Stopped())
	}
}

// Live old wiring stops every place that a blanket would cover it in (NEC
// 394.12; mark: standard): the walls of a closed crawl space, a rim joist, a
// basement wall and the framing of a chimney too. Where nobody looked and another place has it, they ask.
func TestOldWiringStopsEveryPlace(t *testing.T) {
	elsewhere := "id = \"a\"\nkind = \"attic\"\nlabel = \"Loft\"\nvermiculite = false\nknob_and_tube = true\n"
	for _, kind := range []string{"kind = \"crawl-space\"\nvented = false\nwall_height_ft = 4", "kind = \"rim-joist\"", "kind = \"basement-wall\"", "kind = \"chimney\"\nchimney = \"masonry-outside\"\ngap_in = 2"} {
		below := "id = \"b\"\n" + kind + "\n"
		if strings.Contains(kind, "crawl") || strings.Contains(kind, "basement") {
			below += "dampness = \"dry\"\nfoam_r = 10\n"
		}
		stops := plan.Make(oldHouse(t, below+"knob_and_tube = true\n")).Places[0].Stops
		require.Len(t, stops, 1, kind)
		require.Equal(t, "knob-and-tube", stops[0].Danger, kind)
		a := oldHouse(t, elsewhere, below)
		first := plan.Make(a).Places[1].FindFirst(a.List.Catalog(), units.US)
		require.Len(t, first, 1, kind)
		require.Contains(t, first[0], "elsewhere (Loft)", kind)
		require.Empty(t, plan.Make(oldHouse(t, below+"knob_and_tube = false\n")).Places[0].Asks(), kind)
	}
}

// A damp crawl space under a floor is not tested with plastic on a wall that is
// not there: the earth, the rain and the wood are looked at (practice).
func TestDampUnderAFloorIsNotTestedOnAWall(t *testing.T) {
	for _, damp := range []string{`"damp"`, `"unknown"`} {
		a := fixture.OfPlaces(t, "zone = \"2A\"", "id = \"c\"\nkind = \"crawl-space\"\nvented = true\ndampness = "+damp)
		said := ""
		for _, h := range plan.Make(a).Places[0].Safety {
			said += a.List.Catalog().Caution(h, units.US) + "\n"
		}
		require.NotContains(t, said, "wall, all four edges")
		require.Contains(t, said, "19 percent by a moisture meter")
	}
}
