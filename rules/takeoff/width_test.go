package takeoff

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestPickWidth(t *testing.T) {
	l, err := plainWall(97.125, 144).Layout()
	require.NoError(t, err)
	for _, c := range []struct {
		widths []float64
		want   float64
		err    error
	}{
		{[]float64{23, 15, 11}, 15, nil},
		{[]float64{14.5}, 14.5, nil},
		{[]float64{11, 14}, 0, ErrTooWide},
		{nil, 0, ErrTooWide},
		{[]float64{math.NaN()}, 0, ErrSize},
		{[]float64{-3}, 0, ErrSize},
	} {
		got, err := PickWidth(l, c.widths)
		require.ErrorIs(t, err, c.err)
		require.InDelta(t, c.want, got, 1e-9)
	}
}
