package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Voids go beside the blanket, not across it. The loss of walls
// and of attics by 2 % and 5 % of voids: the table computed by
// parallel paths with 2.7 around a wall and nothing in its voids but 1, 1.7
// around an attic and nothing at all in its voids (mark: computed).
func TestVoidsBesideTheBlanket(t *testing.T) {
	for _, row := range []struct{ fill, other, empty, share, loss float64 }{
		{13, 2.7, 1, 0.02, 0.074},
		{13, 2.7, 1, 0.05, 0.169},
		{21, 2.7, 1, 0.02, 0.110},
		{38, 1.7, 0, 0.02, 0.32},
		{49, 1.7, 0, 0.02, 0.38},
		{49, 1.7, 0, 0.05, 0.61},
	} {
		b, err := BoundsBeside([]Voided{Whole(Plain(row.other)), Cavity{FillR: row.fill, EmptyR: row.empty, VoidShare: row.share}.Voided()})
		require.NoError(t, err)
		require.InDelta(t, row.loss, 1-(b.Mean-row.other)/row.fill, 0.006, "%v", row)
		require.InDelta(t, b.Parallel, b.Mean, 1e-9, "without wood there is nothing to take a mean of")
		require.InDelta(t, b.Parallel, b.Isothermal, 1e-9)
	}
}

// Worked by hand: R-49 between wood of in 6 % of an attic, R-1.67 of film
// and board, 2 % void of R-1. Full: isothermal 1.67 + 1/(.94/49 + .06/4.4) =
// 32.11, parallel 1/(.94/50.67 + .06/6.07) = 35.16, mean 33.63. Empty, with the
// wood: isothermal 1.67 + 1/(.94/1 + .06/4.4) = 2.718, parallel 1/(.94/2.67 +
// .06/6.07) = 2.763, mean 2.740. Beside each other: 1/(.98/33.63 + .02/2.740) =
// 27.45. The mean over voids and wood together would be 24.8.
func TestVoidBesideWoodByHand(t *testing.T) {
	cavity := Cavity{FillR: 49, WoodR: 4.4, WoodShare: 0.06, EmptyR: 1, VoidShare: 0.02}
	b, err := BoundsBeside([]Voided{Whole(Plain(1.67)), cavity.Voided()})
	require.NoError(t, err)
	require.InDelta(t, 27.45, b.Mean, 0.02)
	across, err := BoundsOf([]Layer{Plain(1.67), across(cavity)})
	require.NoError(t, err)
	require.InDelta(t, across.Parallel, b.Parallel, 1e-9, "straight through, both ways are one")
	require.Greater(t, b.Mean, across.Mean+2)
}

// Two layers with voids of their own meet by chance; without voids nothing
// changes; what cannot be is refused.
func TestVoidsOfTwoLayers(t *testing.T) {
	one := Cavity{FillR: 13, EmptyR: 1, VoidShare: 0.1}
	two := Cavity{FillR: 30, EmptyR: 2, VoidShare: 0.5}
	b, err := BoundsBeside([]Voided{Whole(Plain(1)), one.Voided(), two.Voided()})
	require.NoError(t, err)
	u := 0.9*0.5/44 + 0.9*0.5/16 + 0.1*0.5/32 + 0.1*0.5/4
	require.InDelta(t, 1/u, b.Mean, 1e-9)

	wood := Cavity{FillR: 21, WoodR: 6.9, WoodShare: 0.23}
	same, err := BoundsBeside([]Voided{Whole(Plain(2.7)), wood.Voided()})
	require.NoError(t, err)
	want, err := BoundsOf([]Layer{Plain(2.7), across(wood)})
	require.NoError(t, err)
	require.InDelta(t, want.Mean, same.Mean, 1e-9)
	require.InDelta(t, want.Isothermal, same.Isothermal, 1e-9)

	for _, share := range []float64{-0.1, 1.1, math.NaN()} {
		_, err = BoundsBeside([]Voided{{Full: Plain(1), Empty: Plain(1), Share: share}})
		require.ErrorIs(t, err, ErrShares)
	}
	var many []Voided
	for range 13 {
		many = append(many, Voided{Full: Plain(1), Empty: Plain(0), Share: 0.5})
	}
	_, err = BoundsBeside(many)
	require.ErrorIs(t, err, ErrTooManyPaths)
}
