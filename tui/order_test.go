package tui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
)

func orderPlayer(t *testing.T, keys ...string) *player {
	t.Helper()
	for _, s := range stops {
		if s.name == "order" {
			return at(t, s, Config{Mono: true}, 120, 60).press(keys...)
		}
	}
	require.Fail(t, "no order screen")
	return nil
}

// A price typed on the screen is kept, replaces ours in the order and in the
// plan, and goes into the file.
func TestTypedPriceReplacesOurs(t *testing.T) {
	p := orderPlayer(t, "p", "1", "1")
	before := p.m.s.Plan.Bill.Money.Total
	p.typed("58.40 a package").press("enter")
	s := p.m.s
	q, ok := house.FindQuote(s.House.Quotes, "fg-13", "kraft")
	require.True(t, ok)
	require.Equal(t, house.Quote{Product: "fg-13", Facing: "kraft", USD: 58.4, Per: "package", Pieces: 11, WidthIn: 15, LengthIn: 93}, q)
	require.NotEqual(t, before, s.Plan.Bill.Money.Total)
	require.True(t, s.Order().Lines[0].Quoted)
	require.Contains(t, s.Text(), "[[quote]]")
	require.Contains(t, p.view(), "The usual size of a package was put beside the price")

	p.press("6").typed("2").press("enter", "b", "b")
	require.Contains(t, p.view(), "4 packages (of 6; you have 2)")
	again, err := house.Read(s.List, "again", s.Text())
	require.NoError(t, err)
	require.Equal(t, s.House.Quotes, again.Quotes)

	// What makes no sense together is refused and stays on the screen.
	p.press("p", "1", "5").typed("900").press("enter")
	require.Contains(t, p.view(), "look at the label again")
	p.press("esc", "1", "enter")
	require.Contains(t, p.view(), alreadyTaken, "the price is not taken away by the enter of the choice")
	p.press("enter")
	q, _ = house.FindQuote(s.House.Quotes, "fg-13", "kraft")
	require.Zero(t, q.USD, "empty takes the price away")
	require.Equal(t, 2, q.Have)
}

func TestMeasuredOnTheCutList(t *testing.T) {
	p := orderPlayer(t, "c", "3")
	require.Contains(t, p.view(), "Sizes: 0 measured, 5 as typed")
	p.press("m")
	require.Contains(t, p.view(), "Sizes: 5 measured, 0 as typed")
	require.Contains(t, p.m.s.House.Place("street-wall").Measured, "openings")
	// What nobody answered cannot have been measured.
	p.press("b", "6", "m")
	require.Contains(t, p.view(), "NOT MEASURED: windows and doors")
	require.NotContains(t, p.m.s.House.Place("basement").Measured, "openings_ft2")
}
