package heat

import (
	"math"
	"testing"

	"battwright/rules/units"

	"github.com/stretchr/testify/require"
)

// R-25 between 2x8 joists with R-38 across them is meant to be about R-62; the
// bottom blanket is 8 in pressed to the 7.25 in of the joist, R-24.
func TestCrossedAttic(t *testing.T) {
	bottomR, err := CompressedR(25, 8, 7.25)
	require.NoError(t, err)
	require.InDelta(t, 24, bottomR, 0.5)
	wood, err := WoodR(7.25)
	require.NoError(t, err)

	layers := CrossedAttic(1.06, Cavity{FillR: bottomR, WoodR: wood, WoodShare: 0.06}, 38, 0.61)
	b, err := BoundsOf(layers)
	require.NoError(t, err)
	require.Less(t, b.Parallel, bottomR+38+1.67, "the joists cost something")
	require.Greater(t, b.Parallel, 61.0)

	// Left uncovered, the same joists would cost far more: the top layer is
	// what makes them harmless.
	bare, err := BoundsOf([]Layer{Plain(1.67), Framed(bottomR+38, wood, 0.06)})
	require.NoError(t, err)
	require.Greater(t, b.Parallel-bare.Parallel, 5.0)
}

// Crossing is worth its trouble where work is not perfect: the same void that
// runs through parallel blankets is covered by a crossing one.
func TestCrossingCoversVoids(t *testing.T) {
	bottom := Cavity{FillR: 24, WoodR: 9.06, WoodShare: 0.06, VoidShare: GradeII.VoidShare()}
	top := Cavity{FillR: 38, WoodR: 38, VoidShare: GradeII.VoidShare()}

	crossed, err := BoundsOf(CrossedAttic(1.06, bottom, 38, 0.61))
	require.NoError(t, err)
	staggered, err := BoundsOf([]Layer{Plain(1.06), bottom.Layer(), top.Layer(), Plain(0.61)})
	require.NoError(t, err)
	aligned, err := ParallelR(UncrossedAttic(1.06, bottom, top, 0.61))
	require.NoError(t, err)

	require.Greater(t, crossed.Parallel, staggered.Parallel)
	require.Greater(t, staggered.Parallel, aligned)
	// Aligned voids over bare board are the attic case of the derating table.
	bottom.WoodShare = 0
	plain, err := ParallelR(UncrossedAttic(1.06, bottom, top, 0.61))
	require.NoError(t, err)
	viaFormula, err := WithVoids(62, 1.67, 0, GradeII.VoidShare())
	require.NoError(t, err)
	require.InEpsilon(t, viaFormula+1.67, plain, 1e-12)
}

// Two runs of the same direction share their seams, so the worse layer decides,
// whichever it is.
func TestUncrossedTakesTheWorseVoid(t *testing.T) {
	good := Cavity{FillR: 24, WoodR: 9.06, WoodShare: 0.06}
	bad := Cavity{FillR: 24, WoodR: 9.06, WoodShare: 0.06, VoidShare: GradeIII.VoidShare()}
	below, err := ParallelR(UncrossedAttic(1.06, bad, good, 0.61))
	require.NoError(t, err)
	above, err := ParallelR(UncrossedAttic(1.06, good, bad, 0.61))
	require.NoError(t, err)
	none, err := ParallelR(UncrossedAttic(1.06, good, good, 0.61))
	require.NoError(t, err)
	require.Equal(t, below, above)
	require.Greater(t, none-below, 5.0)
	require.NoError(t, whole(sharesOf(UncrossedAttic(1.06, bad, good, 0.61))))
}

func sharesOf(paths []Path) (sum float64) {
	for _, p := range paths {
		sum += p.Share
	}
	return sum
}

func TestStripAtTheEave(t *testing.T) {
	// A 5.5 in heel with 1 in of airway leaves 4.5 in.
	r, err := StripR(25, 8, 5.5, 1)
	require.NoError(t, err)
	want, err := CompressedR(25, 8, 4.5)
	require.NoError(t, err)
	require.Equal(t, want, r)
	require.Less(t, r, 25*0.8)

	r, err = StripR(25, 8, 9, 1)
	require.NoError(t, err)
	require.Equal(t, 25.0, r, "a heel of batt plus airway keeps the full R")

	_, err = StripR(60, 19, 5.5, 1)
	require.ErrorIs(t, err, ErrTooSqueezed)
	for _, heel := range []float64{0, 0.5, 1} {
		_, err = StripR(25, 8, heel, 1)
		require.ErrorIs(t, err, ErrNoRoom)
	}
	_, err = StripR(25, 8, math.NaN(), 1)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = StripR(25, 8, 5.5, -1)
	require.ErrorIs(t, err, ErrOutOfRange)
}

func TestCeilingLoad(t *testing.T) {
	require.InEpsilon(t, units.M3PerFt3/units.KgPerLb, lbFt3PerKgM3, 1e-8)
	p := figures(t)
	c := p.CeilingLoad
	require.Len(t, c.Rows, 4)
	for _, row := range c.Rows {
		load, err := CeilingLoad(c.LabelR/row.RPerIn, row.KgM3)
		require.NoError(t, err)
		require.InDelta(t, row.LbFt2, load, c.Within, "%s: %s", row.Fiber, p.source(t, c.Source))
	}
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := CeilingLoad(bad, 12)
		require.ErrorIs(t, err, ErrOutOfRange)
		_, err = CeilingLoad(12, bad)
		require.ErrorIs(t, err, ErrOutOfRange)
	}
}
