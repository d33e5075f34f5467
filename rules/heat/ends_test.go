package heat_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/heat"
)

// An error names the path and the layer as people count, from 1.
func TestErrorsNameWhatIsMeant(t *testing.T) {
	good := heat.Path{Share: 0.5, Layers: []float64{1}}
	for want, bad := range map[string]heat.Path{
		"path 2: ": {Share: 1.5, Layers: []float64{1}},
		"path 2":   {Share: 0.5},
	} {
		_, err := heat.ParallelU([]heat.Path{good, bad})
		require.ErrorContains(t, err, want)
	}
	_, err := heat.ParallelU([]heat.Path{good, {Share: 0.5, Layers: []float64{math.NaN()}}})
	require.ErrorContains(t, err, "path 2")
	whole := heat.Layer{{Share: 1, R: 1}}
	_, err = heat.Paths([]heat.Layer{whole, {{Share: 0.5, R: 1}}})
	require.ErrorContains(t, err, "layer 2: ")
}

// As many paths as there may be, and not one layer more.
func TestAsManyPathsAsThereMayBe(t *testing.T) {
	eight := make(heat.Layer, 8)
	for i := range eight {
		eight[i].Share, eight[i].R = 1.0/8, float64(i+1)
	}
	layers := []heat.Layer{eight, eight, eight, eight}
	paths, err := heat.Paths(layers)
	require.NoError(t, err)
	require.Len(t, paths, heat.MaxPaths)
	require.Equal(t, heat.MaxPaths, cap(paths), "made in one piece")
	_, err = heat.Paths(append(layers, heat.Layer{{Share: 0.5, R: 1}, {Share: 0.5, R: 2}}))
	require.ErrorIs(t, err, heat.ErrTooManyPaths)
}
