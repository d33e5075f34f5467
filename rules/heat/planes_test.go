package heat

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// The heat that passes each layer is the same, which is all of the physics.
func TestPlaneTempsCarryOneFlow(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 5))
	for range 300 {
		layers := make([]float64, 1+rng.IntN(8))
		for i := range layers {
			layers[i] = rng.Float64() * 20
		}
		inside, outside := rng.Float64()*80, rng.Float64()*120-40
		planes, err := PlaneTemps(layers, inside, outside)
		require.NoError(t, err)
		require.Len(t, planes, len(layers)+1)
		require.Equal(t, inside, planes[0])
		require.InDelta(t, outside, planes[len(layers)], 1e-12)
		total, err := SeriesR(layers)
		require.NoError(t, err)
		flow := (inside - outside) / total
		for i, r := range layers {
			require.InDelta(t, flow*r, planes[i]-planes[i+1], 1e-10)
		}
	}
}

// Half the R, half the drop; a layer without R drops nothing.
func TestPlaneTempsByHand(t *testing.T) {
	planes, err := PlaneTemps([]float64{0, 1, 3}, 70, 30)
	require.NoError(t, err)
	require.Equal(t, []float64{70, 70, 60, 30}, planes)
}

func TestPlaneTempsRefuses(t *testing.T) {
	for _, layers := range [][]float64{nil, {}, {0, 0}} {
		_, err := PlaneTemps(layers, 70, 0)
		require.ErrorIs(t, err, ErrNoResistance)
	}
	_, err := PlaneTemps([]float64{1, -1}, 70, 0)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = PlaneTemps([]float64{1}, math.NaN(), 0)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = PlaneTemps([]float64{1}, 70, math.Inf(-1))
	require.ErrorIs(t, err, ErrOutOfRange)
}
