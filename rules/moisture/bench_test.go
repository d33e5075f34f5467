package moisture

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// kraftWall is a usual candidate: a 2x6 wall in a cold place.
func kraftWall(t testing.TB) ([]Layer, [Months]Month) {
	air := published(t).air(t, "Duluth")
	return winterLayers(5.8, 1.75), Join(rooms(t, kept(), air), air)
}

func TestYearAllocatesOnlyItsResult(t *testing.T) {
	layers, months := kraftWall(t)
	var w Workspace
	n := testing.AllocsPerRun(20, func() {
		_, _ = w.Year(layers, 0.13, 0.04, months, Options{Limits: limits})
	})
	require.LessOrEqual(t, n, 2.0, "planes and interfaces")
}

func BenchmarkYear(b *testing.B) {
	layers, months := kraftWall(b)
	var w Workspace
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.Year(layers, 0.13, 0.04, months, Options{Limits: limits}); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkYearAttic has the most slices of any usual place: R 60.
func BenchmarkYearAttic(b *testing.B) {
	_, months := kraftWall(b)
	layers := []Layer{{RM2KW: 0.08, SdM: 0.7, Sensitive: true}, {RM2KW: 10.6, SdM: 0.6, Sensitive: true}}
	var w Workspace
	b.ReportAllocs()
	for b.Loop() {
		if _, err := w.Year(layers, 0.1, 0.1, months, Options{Limits: limits}); err != nil {
			b.Fatal(err)
		}
	}
}
