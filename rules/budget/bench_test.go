package budget

import (
	"os/exec"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

func BenchmarkFrontierUsualHouse(b *testing.B) {
	places, _ := generate(20240501, "house", 7, 40)
	b.ReportAllocs()
	for b.Loop() {
		f, err := Frontier(places, Opts{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(f.States), "states")
	}
}

func BenchmarkBestUsualHouse(b *testing.B) { benchmarkBest(b, "house", 7, false) }
func BenchmarkBestHouse50(b *testing.B)    { benchmarkBest(b, "house", 50, true) }
func BenchmarkBestWeak50(b *testing.B)     { benchmarkBest(b, "weak", 50, false) }
func BenchmarkBestUnlike50(b *testing.B)   { benchmarkBest(b, "unc", 50, true) }
func BenchmarkBestDollars50(b *testing.B)  { benchmarkBest(b, "strong", 50, false) }
func BenchmarkBestHouse1000(b *testing.B)  { benchmarkBest(b, "house", 1000, false) }

// benchmarkBest reports, when the other solver is there, how many times longer
// it takes, its start and reading included.
func benchmarkBest(b *testing.B, family string, n int, compare bool) {
	places, budget := generate(20240501, family, n, 40)
	opts := Opts{MaxStates: 20_000_000}
	if family == "strong" {
		opts = Opts{OrDollars: true}
	}
	other := 0.0
	if solver, err := exec.LookPath("glpsol"); err == nil && compare {
		want, took := solveElsewhere(b, solver, places, budget)
		c, err := Best(places, budget, opts)
		require.NoError(b, err)
		require.InDelta(b, want, c.Set.Value, 1e-6)
		other = float64(took.Nanoseconds())
	}
	b.ReportAllocs()
	states := 0
	for b.Loop() {
		c, err := Best(places, budget, opts)
		if err != nil {
			b.Fatal(err)
		}
		states = c.States
	}
	b.ReportMetric(float64(states), "states")
	if other > 0 {
		b.ReportMetric(other*float64(b.N)/float64(b.Elapsed().Nanoseconds()), "x-glpsol")
	}
}

func BenchmarkFrontierHouse50(b *testing.B) {
	places, _ := generate(20240501, "house", 50, 40)
	b.ReportAllocs()
	for b.Loop() {
		f, err := Frontier(places, Opts{MaxStates: 20_000_000})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(f.States), "states")
	}
}

func BenchmarkSum20Lines(b *testing.B) {
	lines := make([]units.Range[units.Cents], 20)
	for i := range lines {
		lines[i] = units.Range[units.Cents]{Low: 40_000, Typical: 52_000 + units.Cents(i)*100, High: 76_000}
	}
	b.ReportAllocs()
	for b.Loop() {
		total, err := Sum(lines)
		if err != nil {
			b.Fatal(err)
		}
		if _, err = total.Percentile(0.9); err != nil {
			b.Fatal(err)
		}
	}
}
