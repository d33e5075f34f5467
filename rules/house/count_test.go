package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// Each size is asked one way: a length that was given makes the list of lengths
// and the area needless, listed windows their sum.
func TestSizesAreAskedOneWay(t *testing.T) {
	l := fixture.List(t)
	keys := func(text string) (out []string) {
		a := house.Answered{List: l, House: read(t, l, "[[place]]\nkind = \"exterior-wall\"\n"+text)}
		for _, q := range a.ToOrder(&a.House.Places[0]) {
			out = append(out, q.Key)
		}
		return out
	}
	frame := []string{"framing.size", "framing.spacing_in", "framing.practice"}
	require.Equal(t, append([]string{"length_ft", "lengths_ft", "height_ft", "area_ft2", "openings"}, append(frame, "openings_ft2")...), keys(""))
	require.Equal(t, append([]string{"length_ft", "height_ft", "openings"}, frame...), keys("length_ft = 30\nopenings = [\"1 of 36 in x 48 in\"]\n"))
}

// On the way to an order a chimney is first asked for what nothing is planned
// without: its kind, its listing where it can have one, the air to the wood.
func TestAChimneyIsFirstAskedForItsGap(t *testing.T) {
	l := fixture.List(t)
	for text, first := range map[string][]string{
		"":                               {"chimney", "clearance_in", "gap_in"},
		"chimney = \"type-b-vent\"\n":    {"chimney", "clearance_in", "gap_in"},
		"chimney = \"masonry-inside\"\n": {"chimney", "gap_in"},
	} {
		a := house.Answered{List: l, House: read(t, l, "[[place]]\nkind = \"chimney\"\n"+text)}
		var keys []string
		for _, q := range a.ToOrder(&a.House.Places[0]) {
			keys = append(keys, q.Key)
		}
		require.Equal(t, first, keys[:len(first)], text)
		require.Contains(t, keys[len(first):], "width_in", text)
		require.NotContains(t, keys[len(first):], "clearance_in", text)
	}
}

// What is promised at the start is what the list asks.
func TestCountsAreThoseOfTheList(t *testing.T) {
	l := fixture.List(t)
	a := house.Answered{List: l, House: house.New()}
	rough, whole := 0, 0
	for _, q := range l.Questions {
		switch q.Scope {
		case house.Top, house.Site, house.Shape, house.Drawings:
			if a.Asked(q, nil) && !q.LaterAsked() {
				whole++
				if q.Rough {
					rough++
				}
			}
		}
	}
	require.Equal(t, rough, l.Counts(true).House)
	require.Equal(t, whole, l.Counts(false).House)
	require.Equal(t, len(house.Propose(l, a.House)), l.Counts(false).Places)
	require.Equal(t, len(l.Catalog().Criteria)+1, l.Counts(true).Matters)
	more := 0
	for i := range a.House.Places {
		more += len(a.ToOrder(&a.House.Places[i]))
	}
	require.Equal(t, more, l.Counts(false).Sizes)
}
