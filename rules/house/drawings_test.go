package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// Drawings that name R-values are asked for them, part by part of the house at
// hand: by its places, and before there are any by its shape.
func TestDrawingsAreAskedForTheirFigures(t *testing.T) {
	l := fixture.List(t)
	asked := func(text string) (out []string) {
		a := house.Answered{List: l, House: read(t, l, text)}
		for _, q := range l.OfHouse() {
			if q.Scope == house.Drawings && a.Asked(q, nil) {
				out = append(out, q.Key)
			}
		}
		return out
	}
	require.Empty(t, asked("drawings = false\n"))
	require.Empty(t, asked(""))
	require.Equal(t, []string{"attic", "wall", "wall_board", "floor"}, asked("drawings = true\n"))
	require.Equal(t, []string{"attic", "slope", "wall", "wall_board", "basement", "basement_board"},
		asked("drawings = true\n[shape]\nabove = \"both\"\nbelow = \"basement\"\n"))
	require.Equal(t, []string{"slope", "crawl_wall", "crawl_wall_board"},
		asked("drawings = true\n[[place]]\nkind = \"sloped-ceiling\"\n[[place]]\nkind = \"crawl-space\"\nvented = false\n"))
	// They are the next questions after the one that opens them, in both looks.
	for i, q := range l.OfHouse() {
		if q.Key == "drawings" {
			require.Equal(t, house.Drawings, l.OfHouse()[i+1].Scope)
		}
		if q.Scope == house.Drawings {
			require.True(t, q.Rough, q.Key)
		}
	}
}

// A place's own R wins over that of the house; without either the place is open.
func TestWhatTheDrawingsNameForAPlace(t *testing.T) {
	l := fixture.List(t)
	const text = `drawings = true
[drawing_r]
wall = 20
wall_board = 5
basement_board = 10
attic = "unknown"
[[place]]
id = "wall"
kind = "exterior-wall"
[[place]]
id = "own"
kind = "exterior-wall"
target_r = 13
[[place]]
id = "cellar"
kind = "basement-wall"
[[place]]
id = "attic"
kind = "attic"
[[place]]
id = "brick"
kind = "chimney"
chimney = "masonry-in-wall"
[[place]]
id = "inside"
kind = "chimney"
chimney = "masonry-inside"
`
	h := read(t, l, text)
	a := house.Answered{List: l, House: h}
	for id, want := range map[string][2]float64{"wall": {20, 5}, "own": {13, 0}, "brick": {20, 0}} {
		r, board, ok := a.DrawnR(h.Place(id))
		require.True(t, ok, id)
		require.Equal(t, want, [2]float64{r, board}, id)
	}
	require.Equal(t, []string{"cellar", "attic"}, openPlaces(a), "a board alone does not tell what the blanket must have")
	_, _, ok := a.DrawnR(h.Place("cellar"))
	require.False(t, ok)
	again := read(t, l, house.Write(l, h)[len("version = 1\n"):])
	require.Equal(t, h.Answers, again.Answers)
	h.Answers.Set("drawings", house.YesNo(false))
	_, _, ok = a.DrawnR(h.Place("wall"))
	require.False(t, ok, "drawings without figures have none")
	require.Empty(t, a.DrawingsOpen())
}

func openPlaces(a house.Answered) (out []string) {
	for _, p := range a.DrawingsOpen() {
		out = append(out, p.ID)
	}
	return out
}

// A board alone is what the drawings name once 0 stands for the blanket. 0 and no
// board name nothing: the code stands in, and nothing is left to type.
func TestZeroIsABlanketTheDrawingsDoNotName(t *testing.T) {
	l := fixture.List(t)
	for _, c := range []struct {
		figures     string
		r, board    float64
		named, open bool
	}{
		{"wall_board = 5", 0, 0, false, true},
		{"wall_board = 5\nwall = \"unknown\"", 0, 0, false, true},
		{"wall_board = 5\nwall = 0", 0, 5, true, false},
		{"wall_board = 5\nwall = 20", 20, 5, true, false},
		{"wall = 20", 20, 0, true, false},
		{"wall = 0", 0, 0, false, false},
		{"wall = 0\nwall_board = 0", 0, 0, false, false},
		{"attic = 49", 0, 0, false, true},
	} {
		h := read(t, l, "drawings = true\n[drawing_r]\n"+c.figures+"\n[[place]]\nid = \"wall\"\nkind = \"exterior-wall\"\n")
		a := house.Answered{List: l, House: h}
		r, board, ok := a.DrawnR(h.Place("wall"))
		require.Equal(t, c.named, ok, c.figures)
		require.Equal(t, [2]float64{c.r, c.board}, [2]float64{r, board}, c.figures)
		require.Equal(t, c.open, len(openPlaces(a)) > 0, c.figures)
	}
}

// Figures of drawings count unless the drawings are said to name none. Then they
// are kept, and said to disagree.
func TestFiguresOfDrawingsAreNotIgnoredInSilence(t *testing.T) {
	l := fixture.List(t)
	for _, c := range []struct {
		said             string
		counts, disagree bool
	}{
		{"drawings = true\n", true, false},
		{"", true, false},
		{"drawings = \"unknown\"\n", true, false},
		{"drawings = false\n", false, true},
	} {
		h := read(t, l, c.said+"[drawing_r]\nwall = 15\n[[place]]\nid = \"wall\"\nkind = \"exterior-wall\"\n")
		a := house.Answered{List: l, House: h}
		_, _, ok := a.DrawnR(h.Place("wall"))
		require.Equal(t, c.counts, ok, c.said)
		require.Equal(t, c.disagree, len(a.Disagree()) == 1, c.said)
		require.True(t, a.Asked(find(t, l, "drawing_r.wall"), nil), "so that it can be taken out: %s", c.said)
		again := read(t, l, house.Write(l, h)[len("version = 1\n"):])
		require.Equal(t, house.Number(15), again.Answers["drawing_r.wall"], c.said)
	}
}
