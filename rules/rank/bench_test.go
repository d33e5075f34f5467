package rank_test

import (
	"fmt"
	"testing"

	"battwright/rules/rank"
)

// Ranking runs on every keystroke, for every place.
func BenchmarkRank(b *testing.B) {
	rng := seeded(30)
	options, weights := randomOptions(rng, 20, 5, 0), randomWeights(b, rng, 5)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := rank.Rank(options, weights); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSwitches(b *testing.B) {
	rng := seeded(31)
	options, weights := randomOptions(rng, 20, 5, 0), randomWeights(b, rng, 5)
	b.Run("weights", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := rank.WeightSwitches(options, weights); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("levels", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := rank.LevelSwitches(options, []float64{3, 1, 4, 2, 3}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkShares(b *testing.B) {
	for _, m := range []int{4, 8, 20} {
		options := randomOptions(seeded(uint64(m)), m, 5, 0)
		for name, region := range map[string]rank.Region{
			"any": anyWeights(b, 5), "in order": inOrder(b, 5, 4, 3, 2, 1), "tied": inOrder(b, 5, 3, 3, 3, 3),
		} {
			b.Run(fmt.Sprintf("%s/%d options", name, m), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, err := rank.Shares(options, region, 0); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
