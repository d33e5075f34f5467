package heat_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/heat"
)

// As many paths as there may be, and not one layer more; an error names the
// layer as people count, from 1.
func TestAsManyPathsAsThereMayBe(t *testing.T) {
	eight := make(heat.Layer, 8)
	for i := range eight {
		eight[i].Share, eight[i].R = 1.0/8, float64(i+1)
	}
	layers := []heat.Layer{eight, eight, eight, eight}
	_, err := heat.BoundsOf(layers)
	require.NoError(t, err)
	_, err = heat.BoundsOf(append(layers, heat.Framed(1, 2, 0.5)))
	require.ErrorIs(t, err, heat.ErrTooManyPaths)
	_, err = heat.BoundsOf([]heat.Layer{heat.Plain(1), {{Share: 0.5, R: 1}}})
	require.ErrorContains(t, err, "layer 2: ")
}
