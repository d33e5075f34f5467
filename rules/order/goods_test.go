package order_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
)

// Boards of one R that go to different sides of a wall are two things to buy:
// one goes on the concrete before the studs, one outside before the siding.
func TestBoardsOfTwoSidesStayApart(t *testing.T) {
	a := fixture.OfPlaces(t, "zone = \"3A\"",
		"id = \"c\"\nkind = \"basement-wall\"\nlabel = \"Cellar\"\narea_ft2 = 160\ndampness = \"dry\"",
		"id = \"w\"\nkind = \"exterior-wall\"\nlabel = \"Wall\"\narea_ft2 = 480\nframing.size = \"2x4\"")
	p := plan.Make(a)
	require.Equal(t, p.Places[0].Target.AddR, p.Places[1].Target.AddR, "the case: one R on both sides")
	var boards []bill.Goods
	for _, g := range order.Make(p, a).Goods {
		if g.Unit == "board" {
			boards = append(boards, g)
		}
	}
	require.Len(t, boards, 2)
	require.NotEqual(t, boards[0].ID, boards[1].ID)
	for _, g := range boards {
		if g.Places[0] == "Cellar" {
			require.Contains(t, g.Name, "on the concrete")
		} else {
			require.Contains(t, g.Name, "outside the studs")
		}
		require.Len(t, g.Places, 1)
	}
}
