package heat

import "testing"

func benchmarkWall() []Layer {
	return []Layer{Plain(0.17), Plain(0.62), Plain(0.62), Framed(21, 6.88, 0.23), Framed(5, 1.9, 0.1), Plain(0.45), Plain(0.68)}
}

func BenchmarkBoundsOf(b *testing.B) {
	layers := benchmarkWall()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := BoundsOf(layers); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkGroundWallU(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := GroundWallU(0.8, 0, 7, 11.47); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDegreeDaysFromMonths(b *testing.B) {
	means := inF(figures(b).DegreeDays.Ottawa.MeanC)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := DegreeDaysFromMonths(means, 65); err != nil {
			b.Fatal(err)
		}
	}
}
