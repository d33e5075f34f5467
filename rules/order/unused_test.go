package order

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/bill"
	"battwright/rules/units"
)

// A price typed for a blanket that no place takes stays on the list where it
// can be put right; one of a blanket that is bought stands at its line alone.
func TestQuotesOfBlanketsNobodyTakes(t *testing.T) {
	ids := func(text string) (out []string) {
		o, _, _ := made(t, text)
		for _, l := range o.Unused {
			out = append(out, l.Product.ID)
		}
		return out
	}
	q := func(id string) string {
		return "[[quote]]\nproduct = \"" + id + "\"\npieces = 10\nwidth_in = 15\nlength_in = 93\n"
	}
	o, _, _ := made(t, wall(plainWall))
	require.Len(t, o.Lines, 1)
	bought := o.Lines[0].Product.ID
	require.Empty(t, ids(wall(plainWall)+q(bought)))
	require.Equal(t, []string{"mw-23"}, ids(wall(plainWall)+q("mw-23")))
	require.Equal(t, []string{"mw-23"}, ids(wall(plainWall)+q(bought)+q("mw-23")))
}

// A budget holds at the high prices with everything priced, does not hold below
// the typical sum, and may hold between.
func TestWordOnTheBudget(t *testing.T) {
	total := bill.PlaceMoney{Total: units.Range[units.Cents]{Low: 100, Typical: 200, High: 300}}
	for budget, want := range map[units.Cents]string{99: bill.DoesNotHold, 199: bill.DoesNotHold, 200: bill.MayHold, 299: bill.MayHold, 300: bill.Holds, 500: bill.Holds} {
		m := bill.Money{HasBudget: true, Budget: budget, Priced: 1, PlaceMoney: total}
		require.Equal(t, want, m.Word(), budget)
		m.HasBudget = false
		require.Empty(t, m.Word())
	}
	require.Empty(t, bill.Money{HasBudget: true, PlaceMoney: total}.Word(), "nothing is priced")
	without := bill.Money{HasBudget: true, Budget: 500, Priced: 1, PlaceMoney: total}
	without.Without = append(without.Without, "board")
	require.Equal(t, bill.MayHold, without.Word(), "something has no price")
}
