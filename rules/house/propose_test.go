package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// The places that each shape calls for (worked by hand from what is above and
// below the heated floors).
func TestProposedPlaces(t *testing.T) {
	l := fixture.List(t)
	above := map[string][]string{
		"attic": {"attic"}, "sloped": {"sloped-ceiling"}, "both": {"attic", "sloped-ceiling"}, "heated": nil, "unknown": {"attic"},
	}
	below := map[string][]string{
		"slab": nil, "crawl-vented": {"crawl-space"}, "crawl-closed": {"crawl-space", "rim-joist"},
		"basement": {"basement-wall", "rim-joist"}, "basement-crawl": {"crawl-space", "basement-wall", "rim-joist"},
		"unknown": {"crawl-space"},
	}
	chimney := map[string][]string{
		"none": nil, "masonry": {"chimney"}, "metal": {"chimney"}, "plastic": {"chimney"},
		"unknown": {"chimney"}, // decides safety: counted in until it is known
	}
	tried := 0
	for up, upper := range above {
		for down, lower := range below {
			for pipe, beside := range chimney {
				h := read(t, l, "[shape]\nabove = \""+up+"\"\nbelow = \""+down+"\"\nchimney = \""+pipe+"\"\n")
				added := house.Propose(l, h)
				var want []string
				for _, part := range [][]string{upper, {"exterior-wall"}, lower, beside} {
					want = append(want, part...)
				}
				require.Equal(t, want, added, "%s, %s, %s", up, down, pipe)
				require.Len(t, h.Places, len(want))
				require.Empty(t, house.Propose(l, h), "a second time adds nothing")
				checkProposed(t, l, h, down, pipe)
				tried++
			}
		}
	}
	require.Equal(t, 5*6*5, tried)
}

// Over a vented crawl space the floor's blanket fills the bays up to the rim (common
// practice, no source): a rim of its own is only between stories.
func TestRimOverAVentedCrawlSpace(t *testing.T) {
	l := fixture.List(t)
	for stories, want := range map[string][]string{"1": {"exterior-wall", "crawl-space"}, "2": {"exterior-wall", "crawl-space", "rim-joist"}, "\"unknown\"": {"exterior-wall", "crawl-space"}} {
		h := read(t, l, "[shape]\nabove = \"heated\"\nbelow = \"crawl-vented\"\nchimney = \"none\"\nstories = "+stories+"\n")
		require.Equal(t, want, house.Propose(l, h), stories)
	}
}

func checkProposed(t *testing.T, l *house.QuestionList, h *house.House, down, pipe string) {
	t.Helper()
	a := house.Answered{List: l, House: h}
	if p := h.Place("crawl-space"); p != nil {
		require.Equal(t, down != "crawl-closed", a.Bool(house.PlaceScope, p, "vented"), down)
	}
	if p := h.Place("chimney"); p != nil {
		v := a.Value(house.PlaceScope, p, "chimney")
		require.Equal(t, pipe == "plastic", v.Known, "brick and metal leave the exact kind open: %s", pipe)
	}
	again, err := house.Read(l, "proposed", house.Write(l, h))
	require.NoError(t, err)
	sameHouse(t, h, again, "proposed")
}

func TestProposalsKeepWhatIsThere(t *testing.T) {
	l := fixture.List(t)
	h := read(t, l, "[shape]\nabove = \"both\"\nbelow = \"slab\"\nchimney = \"none\"\n[[place]]\nid = \"mine\"\nkind = \"attic\"\narea_ft2 = 5\n[[place]]\nid = \"exterior-wall\"\nkind = \"chimney\"\n")
	require.Equal(t, []string{"sloped-ceiling", "exterior-wall-2"}, house.Propose(l, h))
	require.Equal(t, 5.0, h.Place("mine").Answers["area_ft2"].Number)
	require.Equal(t, "chimney", h.Place("exterior-wall").Kind)
}

// Two places never come up under one name just because one is a copy.
func TestACopyHasANameOfItsOwn(t *testing.T) {
	l := fixture.List(t)
	h := read(t, l, "[[place]]\nkind = \"attic\"\n[[place]]\nkind = \"exterior-wall\"\nlabel = \"Street wall\"\n")
	for _, id := range []string{"attic", "exterior-wall", "exterior-wall-2", "exterior-wall"} {
		require.True(t, h.Duplicate(id))
	}
	a := house.Answered{List: l, House: h}
	var names []string
	for i := range h.Places {
		names = append(names, a.Text(house.PlaceScope, &h.Places[i], "label"))
	}
	require.Equal(t, []string{"Attic floor", "Street wall", "Attic floor 2", "Street wall 2", "Street wall 3", "Street wall 4"}, names)
	require.NotContains(t, h.Place("attic-2").Answers, "label", "no name is made up in the file")
}

func TestPlacesAreCopiedAndDeleted(t *testing.T) {
	l := fixture.List(t)
	h := read(t, l, "[[place]]\nkind = \"attic\"\nlabel = \"A\"\nrule_out = [\"cotton\"]\nmeasured = [\"label\"]\n[[place]]\nkind = \"chimney\"\n")
	require.False(t, h.Duplicate("none"))
	require.True(t, h.Duplicate("attic"))
	require.True(t, h.Duplicate("attic-2"))
	require.Equal(t, "attic-4", h.FreeID("attic"))
	require.Equal(t, "rim-joist", h.FreeID("rim-joist"))

	// A copy shares nothing with what it was made from.
	h.Place("attic-2").Answers.Set("label", house.Text("B"))
	h.Place("attic-2").Answers["rule_out"].List[0] = "fiberglass"
	require.Equal(t, house.Text("A"), h.Place("attic").Answers["label"])
	require.Equal(t, house.List("cotton"), h.Place("attic").Answers["rule_out"])
	require.Equal(t, []string{"label"}, h.Place("attic").Measured)
	require.Empty(t, h.Place("attic-2").Measured, "nobody measured the copy")
	require.Equal(t, house.Text("A 3"), h.Place("attic-3").Answers["label"])

	require.True(t, h.Delete("attic-2"))
	require.False(t, h.Delete("attic-2"))
	require.Nil(t, h.Place("attic-2"))
	require.Equal(t, "attic-2", h.FreeID("attic"), "the id is free again")
	require.True(t, h.Duplicate("chimney"))
	require.Equal(t, "chimney-2", h.Places[len(h.Places)-1].ID)
}

func TestCloneSharesNothing(t *testing.T) {
	l := fixture.List(t)
	text := "rule_out = [\"cotton\"]\n[[place]]\nkind = \"attic\"\nmeasured = [\"label\"]\n[[variant]]\nname = \"quiet\"\n[variant.priorities]\nsound = 5\n"
	h, want := read(t, l, text), read(t, l, text)
	c := h.Clone()
	sameHouse(t, h, c, text)
	c.Answers["rule_out"].List[0] = "fiberglass"
	c.Answers.Set("name", house.Text("x"))
	c.Places[0].Answers.Set("label", house.Text("x"))
	c.Places[0].Measured[0] = "x"
	c.Variant("quiet").Answers.Set("priorities.sound", house.Number(0))
	c.Add("chimney")
	sameHouse(t, want, h, text)
	require.Nil(t, h.Variant("loud"))
}

// Windows are neither lost nor doubled when walls are copied and some get sizes
// of their own: what the others have comes off, the rest stays with the first.
func TestNoWindowIsLost(t *testing.T) {
	l := fixture.List(t)
	const wall = "[[place]]\nkind = \"exterior-wall\"\n"
	for _, c := range []struct {
		text string
		want []float64
	}{
		{wall, []float64{140}},
		{wall + wall, []float64{70, 70}},
		{wall + wall + "openings_ft2 = 56\n" + wall + "openings_ft2 = 15\n", []float64{69, 56, 15}},
		{wall + wall + "length_ft = 30\n", []float64{140, 0}},
		{wall + wall + "area_ft2 = 240\n" + wall + "length_ft = 12\nopenings_ft2 = 15\n", []float64{125, 0, 15}},
		{wall + "length_ft = 36\n" + wall + "length_ft = 28\nopenings_ft2 = 20\n", []float64{120, 20}},
		{wall + "openings = [\"1 of 36 in x 48 in\"]\n" + wall, []float64{12, 128}},
	} {
		a := house.Answered{List: l, House: read(t, l, "[shape]\nopenings_ft2 = 140\n"+c.text)}
		total := 0.0
		for i := range a.House.Places {
			got := a.Num(house.PlaceScope, &a.House.Places[i], "openings_ft2")
			require.InDelta(t, c.want[i], got, 0.5, c.text)
			total += got
		}
		require.InDelta(t, 140, total, 0.5, c.text)
	}
	// A typed area stands for itself where nobody said anything of the house.
	a := house.Answered{List: l, House: read(t, l, wall+"area_ft2 = 300\n")}
	require.Zero(t, a.Num(house.PlaceScope, &a.House.Places[0], "openings_ft2"))
}
