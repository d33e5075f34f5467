package house_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// The questions of the check of damp are asked where their answers can count: what
// goes on drywall of cooled houses, of what a board is that is said to be there, how
// steep a roof is.
func TestDampQuestionsAreAskedWhereTheyCount(t *testing.T) {
	const wall, cellar, crawl, closed = `kind = "exterior-wall"`, `kind = "basement-wall"`, "kind = \"crawl-space\"\nvented = true", "kind = \"crawl-space\"\nvented = false"
	const cooled, warm = "cooled = true", "cooled = false"
	for _, x := range []struct {
		site, place string
		want        []string
	}{
		{cooled, wall, []string{"inside_cover"}},
		{warm, wall, nil},
		{"zone = \"2A\"", wall, []string{"inside_cover"}}, // taken as cooled there
		{cooled, wall + "\nexposed = true", nil},
		{cooled, cellar, []string{"inside_cover"}},
		{cooled, cellar + "\nexposed = true", nil},
		{cooled, closed, nil}, // no drywall by its layers
		{cooled, `kind = "rim-joist"`, nil},
		{warm, wall + "\nci_r = 5", []string{"board_kind"}},
		{warm, wall + "\nci_r = 0", nil},
		{warm, wall + "\nci_r = \"unknown\"", nil},
		{warm, "kind = \"rim-joist\"\nci_r = 5", []string{"board_kind"}},
		{warm, cellar + "\nfoam_r = 10", []string{"board_kind"}},
		{warm, cellar, nil}, // the plan buys it
		{warm, closed + "\nfoam_r = 10", []string{"board_kind"}},
		{warm, crawl + "\nfoam_r = 10", nil}, // its walls have no blanket
		{warm, `kind = "attic"`, []string{"roof_pitch"}},
		{cooled, `kind = "sloped-ceiling"`, []string{"roof_pitch"}},
		{cooled, `kind = "chimney"`, nil},
	} {
		a := fixture.OfPlaces(t, x.site, x.place)
		var got []string
		for _, q := range a.List.In(house.PlaceScope, a.House.Places[0].Kind) {
			if q.ForDamp && a.Asked(q, &a.House.Places[0]) {
				got = append(got, q.Key)
				v := a.ValueOf(q, &a.House.Places[0])
				require.False(t, v.Known, "nothing stands in: %s", q.Key)
			}
		}
		require.Equal(t, x.want, got, "%s %s", x.site, x.place)
	}
}

// What may be answered is what the data of the check have.
func TestDampOptionsAreTheDatas(t *testing.T) {
	l := fixture.List(t)
	values := func(key string) (out []string) {
		q, ok := l.Find(key)
		require.True(t, ok)
		for _, o := range q.Options {
			out = append(out, o.Value)
		}
		return out
	}
	require.ElementsMatch(t, []string{"paint", "wallpaper-or-vinyl"}, values("place.inside_cover"))
	require.ElementsMatch(t, []string{"eps", "xps", "polyiso", "mineral-wool"}, values("place.board_kind"))
}

// Mineral wool goes outdoors: behind a blanket on concrete it is not offered, and in a
// file it counts as not known.
func TestMineralWoolIsNoAnswerBelowGround(t *testing.T) {
	for place, want := range map[string]bool{
		"kind = \"exterior-wall\"\nci_r = 5":                 true,
		"kind = \"rim-joist\"\nci_r = 5":                     true,
		"kind = \"basement-wall\"\nfoam_r = 5":               false,
		"kind = \"crawl-space\"\nvented = false\nfoam_r = 5": false,
	} {
		a := fixture.OfPlaces(t, "zone = \"5A\"", place+"\nboard_kind = \"mineral-wool\"")
		p := &a.House.Places[0]
		q := a.Question(house.PlaceScope, "board_kind")
		_, told := a.Told(p, "board_kind")
		require.Equal(t, want, told, place)
		require.Equal(t, !want, a.BeliedText(q, p) != "", place)
		p.Answers.Set("board_kind", house.Answer{})
		offered := slices.ContainsFunc(a.Offered(q, p).Options, func(o house.Option) bool { return o.Value == "mineral-wool" })
		require.Equal(t, want, offered, place)
	}
}

// A pitch is typed as it stands on drawings, kept as its rise, and shown as it is read.
func TestPitchIsTypedAndKept(t *testing.T) {
	q, ok := fixture.List(t).Find("place.roof_pitch")
	require.True(t, ok)
	for typed, want := range map[string]house.Answer{
		"6/12": house.Number(6), "6:12": house.Number(6), "0": house.Number(0), "don't know": house.DontKnow(), "": {},
	} {
		got, err := q.Parse(typed)
		require.NoError(t, err, typed)
		require.Equal(t, want, got, typed)
	}
	for _, typed := range []string{"25", "-1", "6/10", "flat"} {
		_, err := q.Parse(typed)
		require.ErrorContains(t, err, "want a number of inches of rise in 12 from 0 to 24", typed)
	}
	require.Equal(t, "6 in 12", q.Show(house.Number(6), units.US))
	require.Equal(t, "27 degrees", q.Show(house.Number(6), units.SI))
	_, err := house.Read(fixture.List(t), "f", "version = 1\n[[place]]\nkind = \"attic\"\nroof_pitch = \"6/12\"\n")
	require.ErrorContains(t, err, "(write 6, without quote marks)")
	h, err := house.Read(fixture.List(t), "f", "version = 1\n[[place]]\nkind = \"attic\"\nroof_pitch = 6\n")
	require.NoError(t, err)
	require.Contains(t, house.Write(fixture.List(t), h), "roof_pitch = 6\n")
}
