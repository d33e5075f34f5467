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
	for id, want := range map[string][2]float64{"wall": {20, 5}, "own": {13, 0}, "cellar": {0, 10}, "brick": {20, 0}} {
		r, board, ok := a.DrawnR(h.Place(id))
		require.True(t, ok, id)
		require.Equal(t, want, [2]float64{r, board}, id)
	}
	open := a.DrawingsOpen()
	require.Len(t, open, 1)
	require.Equal(t, "attic", open[0].ID)
	again := read(t, l, house.Write(l, h)[len("version = 1\n"):])
	require.Equal(t, h.Answers, again.Answers)
	h.Answers.Set("drawings", house.YesNo(false))
	_, _, ok := a.DrawnR(h.Place("wall"))
	require.False(t, ok, "drawings without figures have none")
	require.Empty(t, a.DrawingsOpen())
}
