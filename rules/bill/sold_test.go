package bill

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLengthForABay(t *testing.T) {
	l := label{lengths: []float64{93, 48, 105}}
	for bay, want := range map[float64]float64{92.625: 93, 40: 48, 104.625: 105, 93: 93, 200: 105, 0: 105} {
		require.Equal(t, want, l.lengthFor(bay), "bay of %v", bay)
	}
}

func TestCeilTakesWhatIsNoNumber(t *testing.T) {
	require.Zero(t, ceil(math.NaN()))
	require.Equal(t, 1_000_000_000, ceil(math.Inf(1)))
}
