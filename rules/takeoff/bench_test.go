package takeoff

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func BenchmarkHouseWalls(b *testing.B) {
	w := plainWall(97.125, FeetIn(40, 28, 40, 28)...)
	w.Openings = []Opening{{36, 48, 8}, {38, 82, 2}, {60, 48, 2}, {28, 36, 3}}
	b.ReportAllocs()
	for b.Loop() {
		l, err := w.Layout()
		require.NoError(b, err)
		_, err = TakeOff(l, batt15, Options{SpareShare: 0.05})
		require.NoError(b, err)
	}
}

func BenchmarkCutHardest(b *testing.B) {
	p := load(b)
	for _, row := range p.Cutting {
		if row.ID != "u120_03" && row.ID != "textbook-100" && row.ID != "greedy-480" {
			continue
		}
		demand := row.demand()
		b.Run(row.ID, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, err := Cut(row.StockIn, demand, 0)
				require.NoError(b, err)
			}
		})
	}
}
