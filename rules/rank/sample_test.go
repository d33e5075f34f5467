package rank_test

import (
	"math"
	"slices"
	"testing"

	"battwright/rules/rank"

	"github.com/stretchr/testify/require"
)

func nan() float64 { return math.NaN() }

// weighting gives point i of an even, repeatable spread over all weightings of
// n priorities: the additive recurrence with powers of the root of
// x^n = x + 1 fills a cube, and the gaps between its sorted coordinates are
// spread evenly over the simplex.
func weighting(n, i int) []float64 {
	root := 2.0
	for range 60 {
		root = math.Pow(1+root, 1/float64(n))
	}
	cuts := make([]float64, n+1)
	cuts[n] = 1
	for k := 1; k < n; k++ {
		_, cuts[k] = math.Modf(0.5 + float64(i+1)*math.Pow(root, -float64(k)))
	}
	slices.Sort(cuts)
	w := make([]float64, n)
	for k := range w {
		w[k] = cuts[k+1] - cuts[k]
	}
	return w
}

// Counting winners over a sample shares no code and no idea with cutting, so it
// catches a mistake that both cutters could have in common.
func TestSharesAgainstASample(t *testing.T) {
	const points = 40_000
	rng := seeded(20)
	cases := [][]rank.Option{workedCase(t, load(t)), randomOptions(rng, 6, 5, 0), randomOptions(rng, 3, 5, 0)}
	for _, options := range cases {
		free, ordered := make([]float64, len(options)), make([]float64, len(options))
		for i := range points {
			w := weighting(5, i)
			free[leader(options, w)] += 1.0 / points
			// Sorting maps the whole simplex evenly onto the weightings in order.
			slices.Sort(w)
			slices.Reverse(w)
			ordered[leader(options, w)] += 1.0 / points
		}
		require.InDeltaSlice(t, shares(t, options, anyWeights(t, 5)), free, 3e-3)
		require.InDeltaSlice(t, shares(t, options, inOrder(t, 5, 4, 3, 2, 1)), ordered, 5e-3)
	}
}

// A sampled weighting belongs to a tied order if no later group outweighs an
// earlier one; counting those checks the splitting of ties.
func TestTiedSharesAgainstASample(t *testing.T) {
	const points = 60_000
	levels := []float64{2, 4, 4, 2}
	options := randomOptions(seeded(21), 4, 4, 0)
	count, wins := 0.0, make([]float64, len(options))
	for i := range points {
		w := weighting(4, i)
		if min(w[1], w[2]) >= max(w[0], w[3]) {
			count++
			wins[leader(options, w)]++
		}
	}
	require.InDelta(t, 1.0/6, count/points, 2e-3, "4 of 24 orders")
	for i := range wins {
		wins[i] /= count
	}
	require.InDeltaSlice(t, shares(t, options, inOrder(t, levels...)), wins, 1e-2)
}

func leader(options []rank.Option, w []float64) int {
	best, at := -1.0, 0
	for i, o := range options {
		sum := 0.0
		for k, v := range o.Values {
			sum += w[k] * v
		}
		if sum > best {
			best, at = sum, i
		}
	}
	return at
}
