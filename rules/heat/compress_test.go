package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCompressionAgainstPractice(t *testing.T) {
	p := figures(t)
	squares, answered, refused := 0.0, 0, 0
	for _, row := range p.Compression.Rows {
		got := squeezedR(row.LabelR, row.LabelIn, row.InstalledIn)
		require.InDelta(t, row.R, got, p.Compression.WithinR, "R-%v of %v in into %v in: %s",
			row.LabelR, row.LabelIn, row.InstalledIn, p.source(t, row.Source))
		squares += (got - row.R) * (got - row.R)
		r, err := CompressedR(row.LabelR, row.LabelIn, row.InstalledIn)
		if row.LabelIn/row.InstalledIn > MaxSqueeze {
			require.ErrorIs(t, err, ErrTooSqueezed)
			refused++
			continue
		}
		require.NoError(t, err)
		require.Equal(t, got, r)
		answered++
	}
	require.Less(t, math.Sqrt(squares/float64(len(p.Compression.Rows))), p.Compression.RmsR)
	require.Equal(t, 1, refused, "only the R-22 batt in a 2x4 wall is beyond the curve")
	require.Greater(t, answered, 20)
}

// "Lose half the per cent" is a rule of thumb in circulation; it must not be
// what is computed: for R-30 of 8.25 in into 5.5 in it says R-25, practice R-22.
func TestHalfThePercentIsNotTheRule(t *testing.T) {
	r, err := CompressedR(30, 8.25, 5.5)
	require.NoError(t, err)
	require.InDelta(t, 22, r, 0.85)
	require.Greater(t, 25-r, 2.0)
}

func TestNoGainFromLoft(t *testing.T) {
	for _, depth := range []float64{6.25, 6.3, 8, 1e8} {
		r, err := CompressedR(19, 6.25, depth)
		require.NoError(t, err)
		require.Equal(t, 19.0, r)
	}
}

func TestCompressedRRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		r, label, installed float64
		want                error
	}{
		"no space":        {19, 6.25, 0, ErrNoRoom},
		"beyond the cap":  {19, 6.25, 3.4, ErrTooSqueezed},
		"hair thin":       {19, 6.25, 1e-300, ErrTooSqueezed},
		"better than air": {30, 5, 4, ErrLabel},
		"air itself":      {1, StillAirK, 0.1, ErrLabel},
		"no label R":      {0, 6.25, 5.5, ErrOutOfRange},
		"negative":        {19, 6.25, -1, ErrOutOfRange},
		"not a number":    {math.NaN(), 6.25, 5.5, ErrOutOfRange},
		"infinite":        {19, math.Inf(1), 5.5, ErrOutOfRange},
		"huge":            {19, 6.25, 1e300, ErrOutOfRange},
	} {
		_, err := CompressedR(c.r, c.label, c.installed)
		require.ErrorIs(t, err, c.want, name)
	}
}
