package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestVoidsTable(t *testing.T) {
	p := figures(t)
	v := p.Voids
	cells := 0
	for _, row := range v.Rows {
		require.Len(t, row.R, len(v.VoidPct))
		for i, want := range row.R {
			r, err := WithVoids(row.LabelR, row.OtherR, row.EmptyR, v.VoidPct[i]/100)
			require.NoError(t, err)
			require.InDelta(t, want, r, v.Within, "%s R-%v, %v %%: %s", row.Where, row.LabelR, v.VoidPct[i], p.source(t, v.Source))
			cells++
		}
	}
	require.Equal(t, 70, cells)
}

func TestVoidExamplesFromPrint(t *testing.T) {
	p := figures(t)
	for _, e := range p.Voids.Examples {
		r, err := WithVoids(e.Fill, e.Other, e.Empty, e.Share)
		require.NoError(t, err)
		require.InDelta(t, e.R, r, e.Within, p.source(t, e.Source))
	}
}

func TestGradeShares(t *testing.T) {
	p := figures(t)
	for name, g := range map[string]Grade{"I": GradeI, "II": GradeII, "III": GradeIII} {
		want, ok := p.Voids.GradePct[name]
		require.True(t, ok)
		require.InDelta(t, want/100, g.VoidShare(), 1e-12)
	}
	require.Equal(t, 1.0, Ungraded.VoidShare())
	require.Equal(t, 1.0, Grade(0).VoidShare(), "an unknown grade must not flatter")
}

// across lays a cavity out as three parts of one layer.
func across(c Cavity) Layer {
	open := 1 - c.WoodShare
	return Layer{{open * (1 - c.VoidShare), c.FillR}, {open * c.VoidShare, c.EmptyR}, {c.WoodShare, c.WoodR}}
}

// A cavity laid out as parts and the formula that corrects the blanket first
// are two ways to the same parallel-path R.
func TestCavityAgreesWithVoidFormula(t *testing.T) {
	const other, share = 2.7, 0.23
	c := Cavity{FillR: 21, WoodR: 6.88, WoodShare: share, EmptyR: 1, VoidShare: GradeIII.VoidShare()}
	b, err := BoundsOf([]Layer{Plain(other), across(c)})
	require.NoError(t, err)
	r, err := WithVoids(21, other, 1, GradeIII.VoidShare())
	require.NoError(t, err)
	corrected, err := BoundsOf([]Layer{Plain(other), Framed(r, 6.88, share)})
	require.NoError(t, err)
	require.InEpsilon(t, corrected.Parallel, b.Parallel, 1e-12)
}

func TestAVoidIsNeverAGain(t *testing.T) {
	r, err := WithVoids(0.5, 1, 3, 0.5)
	require.NoError(t, err)
	require.Equal(t, 0.5, r)
	b, err := BoundsBeside([]Voided{Cavity{FillR: 0.5, EmptyR: 3, VoidShare: 1}.Voided()})
	require.NoError(t, err)
	require.InDelta(t, 0.5, b.Mean, 1e-12)
}

// Behind a huge resistance the subtraction at the end loses its digits; the
// answer must still lie between the void and the blanket.
func TestVoidsBehindHugeResistance(t *testing.T) {
	for fill := 1e-8; fill < 1e-6; fill *= 1.1 {
		r, err := WithVoids(fill, 9e8, 0, 0.3)
		require.NoError(t, err)
		require.GreaterOrEqual(t, r, 0.0)
		require.LessOrEqual(t, r, fill)
	}
}

func TestWithVoidsRefuses(t *testing.T) {
	for _, share := range []float64{-0.01, 1.01, math.NaN(), math.Inf(1)} {
		_, err := WithVoids(13, 2.7, 1, share)
		require.ErrorIs(t, err, ErrShares)
	}
	_, err := WithVoids(13, 0, 0, 0.5)
	require.ErrorIs(t, err, ErrNoResistance)
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1), 1e300} {
		_, err := WithVoids(bad, 2.7, 1, 0.5)
		require.ErrorIs(t, err, ErrOutOfRange)
		_, err = WithVoids(13, bad, 1, 0.5)
		require.ErrorIs(t, err, ErrOutOfRange)
		_, err = WithVoids(13, 2.7, bad, 0.5)
		require.ErrorIs(t, err, ErrOutOfRange)
	}
}
