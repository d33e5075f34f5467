package damp_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/damp"
	"battwright/testdata/fixture"
)

const (
	attic = "id = \"attic\"\nkind = \"attic\""
	slope = "id = \"slope\"\nkind = \"sloped-ceiling\"\nexposed = false"
)

// said are answers to what the check of damp must know, each in a place where it is
// asked.
var said = []struct {
	site, place string
	answers     []string
}{
	{at("houston-tx", true), vented("2x4", unfaced, "ci_r = 0"), []string{`inside_cover = "paint"`, `inside_cover = "wallpaper-or-vinyl"`}},
	{at("charleston-sc", true), wall("2x6", unfaced, `cladding = "direct"`, "ci_r = 0"), []string{`inside_cover = "paint"`, `inside_cover = "wallpaper-or-vinyl"`}},
	{at("chicago-il", true), "id = \"cellar\"\nkind = \"basement-wall\"\nfoam_r = 10\nboard_kind = \"eps\"", []string{`inside_cover = "paint"`, `inside_cover = "wallpaper-or-vinyl"`}},
	{at("chicago-il", false), vented("2x6", "ci_r = 5"), boards},
	{at("duluth-mn", false), vented("2x6", unfaced, "ci_r = 15"), boards},
	{at("baltimore-md", false), wall("2x6", unfaced, "ci_r = 5"), boards},
	{at("miami-fl", true), vented("2x4", unfaced, "ci_r = 5", `inside_cover = "paint"`), boards},
	{at("chicago-il", false), "id = \"cellar\"\nkind = \"basement-wall\"\nfoam_r = 10", boards[:3]},
	{at("chicago-il", false), attic, pitches},
	{at("fairbanks-ak", false), slope, pitches},
	{at("houston-tx", true), slope, pitches},
}

var (
	boards  = []string{`board_kind = "eps"`, `board_kind = "xps"`, `board_kind = "polyiso"`, `board_kind = "mineral-wool"`}
	pitches = []string{"roof_pitch = 2", "roof_pitch = 4", "roof_pitch = 7", "roof_pitch = 12", "roof_pitch = 24"}
)

func judged(t *testing.T, j *damp.Judge, site, place string) damp.Verdict {
	t.Helper()
	h, b := planned(t, site, place, "fiberglass")
	v, err := j.Judge(context.Background(), h, b)
	require.NoError(t, err)
	require.NotEqual(t, damp.NotJudged, v.Word, v.Why)
	return v
}

// An answer is never worse than none: unknown takes the worst. What lies between two
// that are tried may differ by a hair. What is answered is open no more, and some
// answers tell something.
func TestAnAnswerIsNeverWorseThanNone(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	for _, x := range said {
		open, better := judged(t, j, x.site, x.place), 0
		require.Len(t, open.Open, 1, x.place)
		for _, answer := range x.answers {
			v := judged(t, j, x.site, x.place+"\n"+answer)
			what := x.site + "\n" + x.place + "\n" + answer
			t.Logf("%-8s %-14s %-40s %-16s %-16s %.3f M %.2f, open %.3f M %.2f", x.site[11:18], open.Word, answer, v.Word, v.WithHoles, v.Sealed.Moisture, v.Sealed.Mold, open.Sealed.Moisture, open.Sealed.Mold)
			require.Empty(t, v.Open, what)
			require.LessOrEqual(t, damp.Rank(v.Word), damp.Rank(open.Word), what)
			require.LessOrEqual(t, damp.Rank(v.WithHoles), damp.Rank(open.WithHoles), what)
			const wetHair, moldHair = 0.003, 0.05
			require.LessOrEqual(t, v.Sealed.Moisture, open.Sealed.Moisture+wetHair, what)
			require.LessOrEqual(t, v.Holed.Moisture, open.Holed.Moisture+wetHair, what)
			require.LessOrEqual(t, v.Sealed.Mold, open.Sealed.Mold+moldHair, what)
			require.LessOrEqual(t, v.Holed.Mold, open.Holed.Mold+moldHair, what)
			if v.Holed.Moisture < open.Holed.Moisture || v.Holed.Mold < open.Holed.Mold {
				better++
			}
		}
		require.Positive(t, better, x.place)
	}
}

// Mineral wool harms where damp comes from outdoors alone; an unknown board of a house
// that is not cooled need not be tried as that.
func TestWhatIsTriedWhileNobodySays(t *testing.T) {
	c := fixture.Yearly(t).Catalog()
	for _, x := range []struct {
		site, place string
		want        int
	}{
		{at("chicago-il", false), vented("2x6", unfaced, "ci_r = 5"), 2},
		{at("chicago-il", true), vented("2x6", unfaced, "ci_r = 5", `inside_cover = "paint"`), 3},
		{at("chicago-il", true), "id = \"cellar\"\nkind = \"basement-wall\"\nfoam_r = 10\nabove_grade_ft = 0\ninside_cover = \"paint\"", 4}, // two boards in each section
		{at("chicago-il", true), vented("2x4", unfaced, "ci_r = 15", `board_kind = "eps"`), 2},
		{at("chicago-il", true), vented("2x6", unfaced, "ci_r = 5", `inside_cover = "paint"`, `board_kind = "eps"`), 1},
	} {
		h, b := planned(t, x.site, x.place, "fiberglass")
		got, err := damp.Cuts(c, h, b)
		require.NoError(t, err)
		require.Len(t, got, x.want, x.place)
	}
}

// A board that is still to be bought is of no kind yet, whatever is there.
func TestABoardToBuyStaysOpen(t *testing.T) {
	_, b := planned(t, at("duluth-mn", false), vented("2x6", "ci_r = 1", `board_kind = "eps"`), "fiberglass")
	require.Equal(t, damp.Unknown, b.Board)
	_, b = planned(t, at("chicago-il", false), vented("2x6", "ci_r = 15", `board_kind = "eps"`), "fiberglass")
	require.Equal(t, "eps", b.Board)
}

// A roof that is flat, or nearly, is not judged, and that is said: no such roof was
// among those the check was held against. Not to know is something else.
func TestAFlatRoofIsNotJudged(t *testing.T) {
	if testing.Short() {
		t.Skip("many years of weather")
	}
	j := damp.Of(fixture.Yearly(t).Catalog())
	for pitch, flat := range map[string]bool{"0": true, "1.9": true, "2": false, `"unknown"`: false} {
		for _, place := range []string{attic, slope} {
			h, b := planned(t, at("chicago-il", false), place+"\nroof_pitch = "+pitch, "fiberglass")
			v, err := j.Judge(context.Background(), h, b)
			require.NoError(t, err)
			require.Equal(t, flat, v.Word == damp.NotJudged, "%s %s", place, pitch)
			if flat {
				require.Contains(t, v.Why, "flatter than 2:12")
			}
			require.Equal(t, pitch == `"unknown"`, len(v.Open) > 0, pitch)
		}
	}
}
