package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

func placeValue(t testing.TB, text, key string) (house.Value, bool) {
	t.Helper()
	l := fixture.List(t)
	a := house.Answered{List: l, House: read(t, l, text)}
	q := find(t, l, "place."+key)
	return a.ValueOf(q, &a.House.Places[0]), a.Asked(q, &a.House.Places[0])
}

// The house is asked once whether it has old parts. Its places are asked about
// old wiring and old fill when it has, and told nothing of them when it has not.
// While nobody knows, both stay unknown, which is what the cautions need.
func TestOldPartsAreAskedAboutOnce(t *testing.T) {
	const attic = "[[place]]\nkind = \"attic\"\n"
	for _, c := range []struct {
		text         string
		asked, known bool
	}{
		{"old = true\n" + attic, true, false},
		{"old = false\n" + attic, false, true},
		{attic, false, false},
		{"old = \"unknown\"\n" + attic, false, false},
		{"stage = \"framed\"\n" + attic, false, false},
		{"stage = \"not-framed\"\n" + attic, false, true},
		{"stage = \"not-framed\"\nold = \"unknown\"\n" + attic, false, true},
		{"stage = \"not-framed\"\nold = true\n" + attic, true, false},
		{"stage = \"not-framed\"\n" + attic + "existing_r = 11\n", false, false}, // what lies there belies it
	} {
		for _, key := range []string{"knob_and_tube", "vermiculite"} {
			v, asked := placeValue(t, c.text, key)
			require.Equal(t, c.asked, asked, "%s: %s", c.text, key)
			require.Equal(t, c.known, v.Known, "%s: %s", c.text, key)
			require.False(t, v.Answer.Bool)
		}
	}
	// What somebody saw counts, whatever is said of the house.
	v, asked := placeValue(t, "old = false\n"+attic+"knob_and_tube = true\n", "knob_and_tube")
	require.True(t, v.Answer.Bool && asked)
}

// What goes up through the house answers the question of the place under its
// roof, where only one place and one chimney can be meant.
func TestTheChimneyOfTheHouseAnswersTheAttic(t *testing.T) {
	const attic, slope, chimney = "[[place]]\nkind = \"attic\"\n", "[[place]]\nkind = \"sloped-ceiling\"\n", "[[place]]\nkind = \"chimney\"\n"
	const inside = chimney + "chimney = \"masonry-inside\"\n"
	for _, c := range []struct {
		up, places       string
		asked, known, is bool
	}{
		{"masonry", attic, false, true, true},
		{"metal", slope, false, true, true},
		{"none", attic + slope, false, true, false},
		{"none", attic + chimney, true, false, false},
		{"masonry", attic + slope, true, false, false},
		{"plastic", attic, true, false, false},
		{"unknown", attic, true, false, false},
		{"masonry", attic + chimney + "chimney = \"masonry-outside\"\n", true, false, false},
		{"masonry", attic + "flue_through = false\n", true, true, false},
		{"masonry", attic + "flue_through = \"unknown\"\n", true, false, false}, // don't know is an answer too
		{"none", attic + "flue_through = \"unknown\"\n", true, false, false},
		{"masonry", attic + "flue_through = false\n" + inside, true, false, false}, // belied
		{"unknown", attic + "flue_through = false\n" + inside, true, false, false},
		{"masonry", attic + "flue_through = false\n" + slope + inside, true, true, false}, // it may go up through the slope
		{"masonry", attic + "flue_through = false\n" + slope + "flue_through = true\n" + inside, true, true, false},
		{"masonry", attic + "flue_through = false\n" + slope + "flue_through = false\n" + inside, true, false, false},
	} {
		v, asked := placeValue(t, "[shape]\nchimney = \""+c.up+"\"\n"+c.places, "flue_through")
		require.Equal(t, c.asked, asked, c)
		require.Equal(t, c.known, v.Known, c)
		require.Equal(t, c.is, v.Answer.Bool, c)
	}
}

// Where the house is said to have a brick chimney, its page offers no metal.
func TestBrickOffersNoMetal(t *testing.T) {
	l := fixture.List(t)
	offered := func(text string) (out []string) {
		a := house.Answered{List: l, House: read(t, l, text)}
		for _, o := range a.Offered(find(t, l, "place.chimney"), &a.House.Places[0]).Options {
			out = append(out, o.Value)
		}
		return out
	}
	const chimney = "[[place]]\nkind = \"chimney\"\n"
	require.Equal(t, []string{"masonry-inside", "masonry-in-wall", "masonry-outside", "masonry-fireplace"}, offered("[shape]\nchimney = \"masonry\"\n"+chimney))
	require.NotContains(t, offered("[shape]\nchimney = \"metal\"\n"+chimney), "masonry-inside")
	require.Len(t, offered(chimney), 9)
	require.Len(t, offered("[shape]\nchimney = \"masonry\"\n"+chimney+chimney), 9, "the second may be another")
	require.Contains(t, offered("[shape]\nchimney = \"masonry\"\n"+chimney+"chimney = \"pellet-vent\"\n"), "pellet-vent", "what is said stays")
}

// Who is not sure of one place says so, whatever is said of the house.
func TestNotSureOfAPlaceIsNotOverruled(t *testing.T) {
	const attic = "stage = \"framed\"\nold = false\n[[place]]\nkind = \"attic\"\n"
	for _, key := range []string{"knob_and_tube", "vermiculite"} {
		v, asked := placeValue(t, attic+key+" = \"unknown\"\n", key)
		require.True(t, asked && !v.Known && v.Source == house.FromUnknown, key)
	}
}

// What is said of the crawl space under the house stands for its vents until the
// place says otherwise; where no place agrees, the builder is told.
func TestACrawlSpaceHasTheVentsOfTheShape(t *testing.T) {
	for _, x := range []struct {
		below, vented string
		open          bool
		disagree      int
	}{
		{"crawl-closed", "", false, 0},
		{"crawl-vented", "", true, 0},
		{"basement-crawl", "", true, 0},
		{"crawl-closed", "vented = true\n", true, 1},
		{"crawl-vented", "vented = false\n", false, 1},
		{"crawl-vented", "vented = false\n[[place]]\nkind = \"crawl-space\"\nvented = true\n", false, 0},
		{"basement-crawl", "vented = false\n", false, 0},
	} {
		a := fixture.Read(t, "version = 1\n[shape]\nbelow = \""+x.below+"\"\n[[place]]\nkind = \"crawl-space\"\n"+x.vented)
		require.Equal(t, x.open, a.Bool(house.PlaceScope, &a.House.Places[0], "vented"), x)
		require.Len(t, a.Disagree(), x.disagree, x)
	}
}

// Where every outside wall has its windows and doors typed, they are all there
// are; while one has none of its own, the usual share of the shape stands in.
func TestTypedOpeningsAreAllOfThem(t *testing.T) {
	l := fixture.List(t)
	for walls, want := range map[string]float64{
		"[[place]]\nkind = \"exterior-wall\"\nlength_ft = 160\nopenings = [\"8 of 36 in x 60 in\", \"2 of 3 ft x 6 ft 8 in\"]\n":                            160,
		"[[place]]\nkind = \"exterior-wall\"\nlength_ft = 100\nopenings_ft2 = 90\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 60\nopenings_ft2 = 30\n": 120,
		"[[place]]\nkind = \"exterior-wall\"\nlength_ft = 100\nopenings_ft2 = 90\n[[place]]\nkind = \"exterior-wall\"\nlength_ft = 60\n":                    216,
	} {
		a := house.Answered{List: l, House: read(t, l, "[shape]\nlength_ft = 50\nwidth_ft = 30\nwall_height_ft = 9\n"+walls)}
		require.Equal(t, want, a.Num(house.Shape, nil, "openings_ft2"), walls)
	}
}

// Places of a kind that nobody named are told apart, whatever their ids.
func TestPlacesWithoutNamesAreNumbered(t *testing.T) {
	a := fixture.Read(t, "version = 1\n[[place]]\nid = \"north\"\nkind = \"crawl-space\"\n[[place]]\nid = \"south\"\nkind = \"crawl-space\"\n[[place]]\nid = \"east\"\nkind = \"crawl-space\"\nlabel = \"Crawl space 2\"\n[[place]]\nid = \"crawl-space-2\"\nkind = \"crawl-space\"\n")
	var got []string
	for i := range a.House.Places {
		got = append(got, a.Text(house.PlaceScope, &a.House.Places[i], "label"))
	}
	require.Equal(t, []string{"Crawl space", "Crawl space 3", "Crawl space 2", "Crawl space 4"}, got)
}

// An answer that cannot stand beside another is shown as it was given, with what
// it disagrees with.
func TestABeliedAnswerIsShown(t *testing.T) {
	for said, want := range map[string]string{"false": "no (disagrees with the chimney you listed)", "true": "", "\"unknown\"": ""} {
		a := fixture.Read(t, "version = 1\n[[place]]\nkind = \"attic\"\nflue_through = "+said+"\n[[place]]\nkind = \"chimney\"\nchimney = \"masonry-inside\"\n")
		require.Equal(t, want, a.BeliedText(find(t, a.List, "place.flue_through"), &a.House.Places[0]), said)
	}
}
