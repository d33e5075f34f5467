package order

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
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
		board := "ci_r = 10"
		if retarder == "polyethylene" { // inside a board it would be left out
			board = "ci_r = 0\ntarget_r = 13"
		}
		o, _, _ := made(t, wall("lengths_ft = [20]\nheight_ft = 8\nopenings = []\nframing.size = \"2x4\"\n"+board+"\nretarder = \""+retarder+"\""))
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
	i := slices.IndexFunc(o.Places[0].Extras, func(x bill.Extra) bool { return x.ID == "sheet-smart" })
	require.GreaterOrEqual(t, i, 0)
	require.GreaterOrEqual(t, o.Places[0].Extras[i].Ft2, 400.0)
	require.LessOrEqual(t, o.Places[0].Extras[i].Ft2, 600.0)
}

// A slope gets its sheet by the same rule whether its sides or its area is known:
// rows across as far as the house is wide, with their laps and tape.
func TestASheetOfASlopeByTheArea(t *testing.T) {
	const shape = "[shape]\nlength_ft = 44\nwidth_ft = 31\n"
	qty := func(size string) map[string]float64 {
		o, _, _ := made(t, houseOf(shape, place("slope", "sloped-ceiling", "framing.size = \"2x12\"\nretarder = \"smart\"\n"+size)))
		out := map[string]float64{}
		for _, x := range o.Places[0].Extras {
			out[x.ID] = x.Qty
		}
		return out
	}
	sides, area := qty("length_ft = 44\nwidth_ft = 31"), qty("area_ft2 = 1364")
	for _, id := range []string{"sheet-smart", "tape", "baffle-slope"} {
		require.Positive(t, sides[id], id)
		require.InEpsilon(t, sides[id], area[id], 0.01, id)
	}
}

// The airway of a slope runs from eave to ridge (IRC R806.3), so its baffles stand
// end to end: area over spacing over 4 ft pieces, 1,364 / 2 / 4 = 170.5 (practice).
// Those of an attic stay one at both eaves.
func TestBafflesOfASlopeRunToTheRidge(t *testing.T) {
	for kind, want := range map[string]float64{"sloped-ceiling": 171, "attic": 2 * 22} {
		o, _, _ := made(t, houseOf(place("x", kind, "length_ft = 44\nwidth_ft = 31\nframing.size = \"2x12\"\nframing.spacing_in = 24\nframing.practice = \"standard\"")))
		got := 0.0
		for _, x := range o.Places[0].Extras {
			if x.Price == "baffle" {
				got = x.Qty
			}
		}
		require.Equal(t, want, got, kind)
	}
}

// A chimney wholly outside meets the framing of the house on one face: 32 in over
// two stories of 8 ft is 42.7 ft2, not four sides.
func TestAChimneyOutsideHasOneFramedSide(t *testing.T) {
	at := func(kind string) (Place, float64) {
		o, _, _ := made(t, houseOf("[shape]\nstories = 2\n", strings.Replace(place("c", "chimney", "chimney = \""+kind+"\"", "gap_in = 2\nwidth_in = 32\ndepth_in = 24\nfloors = 2\nframing.size = \"2x6\"\nframing.spacing_in = 16"), "pin = \"fiberglass\"\n", "", 1)))
		n := 0.0
		for _, b := range o.Places[0].Bays {
			n += b.WidthIn * float64(b.Count)
		}
		return o.Places[0], n
	}
	outside, clear := at("masonry-outside")
	require.InDelta(t, 43, outside.AreaFt2, 1)
	require.InDelta(t, 2*(32-3*1.5), clear, 1e-9, "two stories, two studs at the ends and one between")
	inside, round := at("masonry-inside")
	require.Greater(t, inside.AreaFt2, 3*outside.AreaFt2)
	require.Greater(t, round, 3*clear)
}
