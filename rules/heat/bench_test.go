package heat

import "testing"

func benchmarkWall() []Layer {
	c := Cavity{FillR: 21, WoodR: 6.88, WoodShare: 0.23, EmptyR: 1, VoidShare: 0.02}
	return []Layer{Plain(0.17), Plain(0.62), Plain(0.62), c.Layer(), Framed(5, 1.9, 0.1), Plain(0.45), Plain(0.68)}
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

func BenchmarkPaths(b *testing.B) {
	layers := benchmarkWall()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Paths(layers); err != nil {
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
