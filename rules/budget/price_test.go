package budget

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

type price = units.Range[units.Cents]

func checkSet(data published) []price {
	var lines []price
	for _, l := range data.Prices.Lines {
		lines = append(lines, price{Low: units.FromDollars(l[0]), Typical: units.FromDollars(l[1]), High: units.FromDollars(l[2])})
	}
	return lines
}

func mustSum(t testing.TB, lines []price) Total {
	t.Helper()
	total, err := Sum(lines)
	require.NoError(t, err)
	return total
}

func law(p price) []term { return lawTriangle(int64(p.Low), int64(p.Typical), int64(p.High)) }

func exactOdds(lines []price, budget units.Cents) float64 {
	var laws [][]term
	for _, p := range lines {
		laws = append(laws, law(p))
	}
	f, _ := exactShare(laws, int64(budget)).Float64()
	return f
}

// Source "irwin-hall", "three-triangles" (computed): the oracle itself.
func TestOracleAgainstClosedForms(t *testing.T) {
	data := load(t)
	for _, row := range data.UniformSums {
		var laws [][]term
		for range row.N {
			laws = append(laws, lawUniform(row.At[1]))
		}
		got := exactShare(laws, row.At[0])
		require.Zero(t, got.Cmp(big.NewRat(row.Share[0], row.Share[1])), "n=%d: %s", row.N, got)
	}
}

// Two uniform variables make one triangle, so even n are prices too.
func TestUniformSumsAsPrices(t *testing.T) {
	data := load(t)
	const unit = 100_000
	checked := 0
	for _, row := range data.UniformSums {
		if row.N%2 != 0 {
			continue
		}
		lines := slices.Repeat([]price{{Low: 0, Typical: unit, High: 2 * unit}}, row.N/2)
		budget := units.Cents(unit * row.At[0] / row.At[1])
		want := float64(row.Share[0]) / float64(row.Share[1])
		require.InDelta(t, want, mustSum(t, lines).Within(budget).Independent, 2e-6)
		checked++
	}
	require.Equal(t, 2, checked)
}

// Source "triangle-moments" (read and computed).
func TestTriangleMoments(t *testing.T) {
	data := load(t)
	for _, row := range data.TriangleVariance {
		p := price{Low: units.Cents(row.Low), Typical: units.Cents(row.Typical), High: units.Cents(row.High)}
		total := mustSum(t, []price{p})
		require.InDelta(t, row.Variance[0]/row.Variance[1], total.SDCents*total.SDCents, 1e-12)
		require.InDelta(t, float64(row.Low+row.Typical+row.High)/3, total.MeanCents, 1e-12)
	}
}

// Source "check-set" (computed): grid convolution, normal approximation.
func TestCheckSet(t *testing.T) {
	data := load(t)
	lines := checkSet(data)
	total := mustSum(t, lines)
	want := data.Prices
	require.Equal(t, units.FromDollars(want.TypicalSum), total.Typical)
	require.InDelta(t, want.Mean[0]/want.Mean[1], total.MeanCents/100, 1e-9)
	require.InDelta(t, want.Variance, total.SDCents*total.SDCents/1e4, 1e-6)
	require.InDelta(t, want.SD, total.SDCents/100, 1e-8)
	for _, row := range want.Odds {
		budget := units.FromDollars(row.Budget)
		got := total.Within(budget).Independent
		require.InDelta(t, row.Exact, got, 1e-5, "budget %v", row.Budget)
		require.InDelta(t, exactOdds(lines, budget), got, 1e-5, "budget %v", row.Budget)
		normal := math.Erfc(-(float64(budget)-total.MeanCents)/total.SDCents/math.Sqrt2) / 2
		require.InDelta(t, row.Normal, normal, 6e-6)
	}
	require.InDelta(t, want.AtTypicalSum, total.Within(total.Typical).Independent, 1e-5)
	p, err := total.Percentile(0.9)
	require.NoError(t, err)
	require.InDelta(t, want.NineInTen, p.Independent.Dollars(), 0.5)
}
