package bill

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// Dealing out an amount gives every cent once, whatever the weights.
func TestDeal(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 5))
	for range 300 {
		weights := make([]float64, 1+r.IntN(9))
		any := false
		for i := range weights {
			if r.IntN(3) > 0 {
				weights[i] = r.Float64() * 1000
				any = true
			}
		}
		total, sum := units.Cents(r.IntN(1_000_000)), units.Cents(0)
		for i, c := range deal(total, weights) {
			sum += c
			require.GreaterOrEqual(t, c, units.Cents(0))
			require.False(t, weights[i] == 0 && c > 0)
		}
		if any {
			require.Equal(t, total, sum)
		}
	}
}
