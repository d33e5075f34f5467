package order

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
	"battwright/testdata/demo"
)

// What must go over the blankets is on the list, with its area and without a
// price: a layer of at most one perm under the joists of a cooled house in a
// hot, humid place (International Residential Code 2021, R408 and its notes;
// mark: secondary), and a cover where a blanket without a flame-rated face
// would stay visible on a crawl space wall (US housing work specifications;
// mark: read).
func TestCoversAreOnTheList(t *testing.T) {
	hot := "version = 1\ndrawings = false\nold = false\n[site]\nstate = \"LA\"\ncounty = \"Orleans\"\n"
	cold := "version = 1\ndrawings = false\nold = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n"
	floor := place("crawl", "crawl-space", "vented = true", "area_ft2 = 900")
	walls := place("crawl", "crawl-space", "vented = false", "wall_height_ft = 4", "length_ft = 30", "width_ft = 20")
	ids := func(text string) map[string]bill.Goods {
		o, _, _ := made(t, text)
		out := map[string]bill.Goods{}
		for _, g := range o.Goods {
			out[g.ID] = g
		}
		return out
	}
	layer, ok := ids(hot + floor)["layer-under-joists"]
	require.True(t, ok)
	require.Equal(t, 900.0, layer.Qty)
	require.True(t, layer.Quote)
	require.Zero(t, layer.Cost)
	require.NotContains(t, ids(cold+floor), "layer-under-joists")
	require.NotContains(t, ids(hot+"cooled = false\n"+floor), "layer-under-joists", "the floor is no colder than the air below")
	require.Contains(t, ids(hot+"cooled = \"unknown\"\n"+floor), "layer-under-joists", "unknown, a house is cooled there")
	require.NotContains(t, ids(hot+floor), "cover")
	require.NotContains(t, ids(hot+walls), "layer-under-joists", "a closed crawl space has no damp outdoor air")
	require.Contains(t, ids(cold+walls), "cover", "foil is too tight for the room side of a crawl wall, and nothing else may stay visible")
	cover, ok := ids(demo.Text("house-by-the-water.toml"))["cover"]
	require.True(t, ok, "the thick one that is chosen there is not")
	require.Equal(t, 528.0, cover.Qty, "132 feet round, 4 feet high, worked by hand")
}

// A chimney built into the outside wall is framed on three sides, one inside the
// house on four.
func TestAChimneyInTheWallHasThreeSides(t *testing.T) {
	for kind, sides := range map[string]string{"masonry-in-wall": "3 framed sides", "masonry-inside": "4 framed sides"} {
		o, _, _ := made(t, houseOf("[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \""+kind+"\"\nwidth_in = 36\ndepth_in = 24\nheight_ft = 8\nfloors = 1\ngap_in = 2\nframing.size = \"2x6\"\nframing.spacing_in = 16\n"))
		require.NotEmpty(t, o.Places[0].Layers, kind)
		require.Contains(t, strings.Join(o.Places[0].Notes, "; "), sides, kind)
	}
}

// A wall of which only the area is known has two plates to seal along a length
// that is its area over its height: 400 ft2 of 8 ft wall, 97 1/8 in with its
// plates, is 49 ft long.
func TestSealantByTheArea(t *testing.T) {
	o, _, _ := made(t, wall("area_ft2 = 400\nheight_ft = 8\nframing.size = \"2x4\"\nci_r = 10"))
	for _, x := range o.Places[0].Extras {
		if x.ID == "sealant" {
			require.InEpsilon(t, 2*400/(97.125/12), x.Qty, 0.001)
			return
		}
	}
	t.Fatal("no sealant on the list")
}

// Whatever fiber goes in beside a chimney, the sheet that holds it out of the
// empty gap is on the list, as large as the framed sides and to be quoted: no
// batt may lie in the space around a chimney (International Residential Code,
// R1003.18; mark: read; that a sheet holds it back: practice). No other place
// has one.
func TestTheSheetBesideAChimneyIsOnTheList(t *testing.T) {
	chimney := "[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \"masonry-inside\"\nwidth_in = 36\ndepth_in = 24\nheight_ft = 8\nfloors = 1\ngap_in = 2\nframing.size = \"2x6\"\nframing.spacing_in = 16\n"
	o, p, _ := made(t, houseOf(chimney, place("wall", "exterior-wall", "lengths_ft = [20]", "height_ft = 8", "framing.size = \"2x6\"")))
	var found []bill.Goods
	for _, g := range o.Goods {
		if g.ID == "hold-back" {
			found = append(found, g)
		}
	}
	require.Len(t, found, 1)
	require.Contains(t, found[0].Name, "rigid noncombustible sheet")
	require.True(t, found[0].Quote)
	require.Equal(t, p.Places[0].Surface.AreaFt2, found[0].Qty)
	require.Equal(t, []string{p.Places[0].Surface.Label}, found[0].Places)
}

// Between studs a blanket is made for its bay or cut to it; only between the joists
// of an attic does one of 16 in go uncut into 14 1/2 in (practice). The sheet of the
// finished work asks the same.
func TestWideBlanketsAreCutBetweenStuds(t *testing.T) {
	widest := func(text string) (widthIn, cutIn float64) {
		o, _, _ := made(t, houseOf(text))
		l := o.Places[0].Layers[0]
		for _, p := range l.Cut {
			cutIn = max(cutIn, p.WidthIn)
		}
		return l.WidthIn, cutIn
	}
	sold, cut := widest(place("w", "exterior-wall", "length_ft = 40", "height_ft = 8", "stud_in = 92.625", "framing.size = \"2x10\"", "framing.spacing_in = 16"))
	require.Equal(t, 16.0, sold)
	require.Equal(t, 15.0, cut)
	sold, cut = widest(place("w", "exterior-wall", "length_ft = 40", "height_ft = 8", "stud_in = 92.625", "framing.size = \"2x4\"", "framing.spacing_in = 16"))
	require.Equal(t, 15.0, sold)
	require.Equal(t, 15.0, cut)
	sold, cut = widest(place("a", "attic", "length_ft = 40", "width_ft = 24", "heel_in = 20", "framing.size = \"2x10\"", "framing.spacing_in = 16", "framing.practice = \"standard\""))
	require.Equal(t, 16.0, sold)
	require.Equal(t, 16.0, cut)
}
