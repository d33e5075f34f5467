package budget

import (
	"math"
	"math/big"
	"math/rand/v2"
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
		v, err := VarianceCents2(p)
		require.NoError(t, err)
		require.InDelta(t, row.Variance[0]/row.Variance[1], v, 1e-12)
		m, err := MeanCents(p)
		require.NoError(t, err)
		require.InDelta(t, float64(row.Low+row.Typical+row.High)/3, m, 1e-12)
	}
}

// Moments, found again from the distribution by summing it up.
func TestMomentsFromTheDistribution(t *testing.T) {
	for _, p := range []price{{Low: 0, Typical: 0, High: 600}, {Low: 100, Typical: 100, High: 100},
		{Low: 50, Typical: 400, High: 400}, {Low: 10, Typical: 200, High: 900}} {
		mean, err := MeanCents(p)
		require.NoError(t, err)
		variance, err := VarianceCents2(p)
		require.NoError(t, err)
		l := triangleOf(p)
		const n = 20_000
		sum, squares := 0.0, 0.0
		for k := range n { // midpoints of u: x = point(u)
			x := float64(p.Low) + l.point((float64(k)+0.5)/n)
			sum += x
			squares += (x - mean) * (x - mean)
		}
		require.InDelta(t, mean, sum/n, 1e-2)
		require.InDelta(t, variance, squares/n, 1e-4*variance+1e-9)
	}
}

// The odds of one price invert its points.
func TestShareUnderInvertsPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(50, 1))
	for range 2000 {
		p := randomPrice(r)
		u := r.Float64()
		x := p.Low + units.Cents(math.Ceil(triangleOf(p).point(u)))
		got, err := ShareUnder(p, x)
		require.NoError(t, err)
		require.GreaterOrEqual(t, got, u-1e-9)
		if x > p.Low {
			got, err = ShareUnder(p, x-1)
			require.NoError(t, err)
			require.LessOrEqual(t, got, u+1e-9)
		}
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

func randomPrice(r *rand.Rand) price {
	low := r.Int64N(100_000)
	width := []int64{0, 1, 100, 20_000, 500_000}[r.IntN(5)]
	if width > 0 {
		width = 1 + r.Int64N(width)
	}
	mode := low + r.Int64N(width+1)
	switch r.IntN(5) {
	case 0:
		mode = low
	case 1:
		mode = low + width
	}
	return price{Low: units.Cents(low), Typical: units.Cents(mode), High: units.Cents(low + width)}
}

func TestGridAgainstExactSums(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 1))
	worst, usual := 0.0, 0.0
	for range 150 {
		lines := make([]price, 1+r.IntN(4))
		plain := true
		for i := range lines {
			lines[i] = randomPrice(r)
			w := lines[i].High - lines[i].Low
			plain = plain && w > 2000 && lines[i].Typical-lines[i].Low > w/10 && lines[i].High-lines[i].Typical > w/10
		}
		total := mustSum(t, lines)
		for range 6 {
			budget := total.Low + units.Cents(r.Int64N(int64(total.High-total.Low)+2))
			off := math.Abs(total.Within(budget).Independent - exactOdds(lines, budget))
			worst = max(worst, off)
			if plain {
				usual = max(usual, off)
			}
		}
	}
	t.Logf("worst %.2g, usual shapes %.2g", worst, usual)
	require.Less(t, worst, 1e-5)
	require.Less(t, usual, 1e-6)
}

// Many lines, of a few shapes so that the exact sum stays small.
func TestGridAgainstExactSumsOfManyLines(t *testing.T) {
	worst := 0.0
	for _, n := range []int{10, 25} {
		lines := slices.Repeat([]price{{Low: 40_000, Typical: 52_000, High: 76_000}}, n)
		for i := range n / 5 {
			lines[i] = price{Low: 100_000, Typical: 100_000, High: 172_000}
		}
		total := mustSum(t, lines)
		for _, sds := range []float64{-2, 0, 0.5, 1.5} {
			budget := units.Cents(total.MeanCents + sds*total.SDCents)
			worst = max(worst, math.Abs(total.Within(budget).Independent-exactOdds(lines, budget)))
		}
	}
	t.Logf("worst %.2g", worst)
	require.Less(t, worst, 1e-5)
}

// A thousand lines are coarser than the grid; their sum is all but normal.
func TestVeryManyLinesAreNormal(t *testing.T) {
	total := mustSum(t, slices.Repeat([]price{{Low: 40_000, Typical: 52_000, High: 76_000}}, MaxLines))
	for _, sds := range []float64{-2, -1, 0, 1, 2} {
		budget := units.Cents(total.MeanCents + sds*total.SDCents)
		require.InDelta(t, math.Erfc(-sds/math.Sqrt2)/2, total.Within(budget).Independent, 3e-3)
	}
}

func TestWithinRisesFromNoneToAll(t *testing.T) {
	r := rand.New(rand.NewPCG(52, 1))
	for range 60 {
		lines := make([]price, 1+r.IntN(12))
		for i := range lines {
			lines[i] = randomPrice(r)
		}
		total := mustSum(t, lines)
		require.Equal(t, Odds{1, 1}, total.Within(total.High))
		require.Equal(t, Odds{}, total.Within(total.Low-1))
		require.Equal(t, Certain, total.Reach(total.High))
		require.Equal(t, Never, total.Reach(total.Low-1))
		if total.High > total.Low {
			require.Equal(t, Odds{}, total.Within(total.Low))
			require.Equal(t, Possible, total.Reach(total.Low))
		}
		last := Odds{}
		for k := range 201 {
			o := total.Within(total.Low + (total.High-total.Low)*units.Cents(k)/200)
			require.GreaterOrEqual(t, o.Independent, last.Independent)
			require.GreaterOrEqual(t, o.Together, last.Together)
			require.True(t, o.Independent >= 0 && o.Independent <= 1 && o.Together >= 0 && o.Together <= 1)
			last = o
		}
		r.Shuffle(len(lines), func(a, b int) { lines[a], lines[b] = lines[b], lines[a] })
		require.Equal(t, total, mustSum(t, lines), "the order of lines changes nothing")
	}
}

func TestPercentileIsTheLeastThatHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(53, 1))
	for range 30 {
		lines := []price{randomPrice(r), randomPrice(r), randomPrice(r)}
		total := mustSum(t, lines)
		for _, share := range []float64{0, 0.001, 0.1, 0.5, r.Float64(), 0.9, 0.999, 1} {
			p, err := total.Percentile(share)
			require.NoError(t, err)
			require.GreaterOrEqual(t, total.Within(p.Independent).Independent, share)
			require.GreaterOrEqual(t, total.Within(p.Together).Together, share)
			if p.Independent > total.Low {
				require.Less(t, total.Within(p.Independent-1).Independent, share)
			}
			if p.Together > total.Low {
				require.Less(t, total.Within(p.Together-1).Together, share)
			}
		}
	}
}

// Moving as one, n equal prices are one price n times as large, and spread as
// far as the sum of their deviations; on their own they spread less.
func TestTogetherAgainstOnePrice(t *testing.T) {
	one := price{Low: 40_000, Typical: 52_000, High: 76_000}
	single := mustSum(t, []price{one})
	for _, n := range []units.Cents{2, 5, 30} {
		total := mustSum(t, slices.Repeat([]price{one}, int(n)))
		require.InDelta(t, float64(n)*single.SDCents, total.SDTogetherCents, 1e-6)
		require.InDelta(t, math.Sqrt(float64(n))*single.SDCents, total.SDCents, 1e-6)
		for budget := one.Low; budget <= one.High; budget += 1000 {
			want, err := ShareUnder(one, budget)
			require.NoError(t, err)
			require.InDelta(t, want, total.Within(n*budget).Together, 1e-9)
			require.Equal(t, want, single.Within(budget).Independent)
		}
	}
}

// Whatever the shapes, the spread of prices moving as one is at most the sum
// of the deviations and at least that of independent prices.
func TestSpreadLiesBetweenTheEnds(t *testing.T) {
	r := rand.New(rand.NewPCG(54, 1))
	for range 40 {
		total := mustSum(t, []price{randomPrice(r), randomPrice(r), randomPrice(r)})
		const n = 20_000
		sum, squares := 0.0, 0.0
		for k := range n {
			x := float64(total.Low) + total.pointTogether((float64(k)+0.5)/n) - total.MeanCents
			sum += x
			squares += x * x
		}
		require.InDelta(t, 0, sum/n, 1e-3*total.SDTogetherCents+1e-9)
		sd := math.Sqrt(squares / n)
		require.LessOrEqual(t, sd, total.SDTogetherCents*(1+1e-3)+1e-9)
		require.GreaterOrEqual(t, sd, total.SDCents*(1-1e-3)-1e-9)
	}
}

func TestFixedPricesAreAStep(t *testing.T) {
	total := mustSum(t, []price{units.Same(units.Cents(300)), units.Same(units.Cents(50))})
	require.Equal(t, Odds{}, total.Within(349))
	require.Equal(t, Odds{1, 1}, total.Within(350))
	require.Zero(t, total.SDCents)
	p, err := total.Percentile(0.5)
	require.NoError(t, err)
	require.Equal(t, Amounts{350, 350}, p)
}

func TestLargestTotals(t *testing.T) {
	total := mustSum(t, slices.Repeat([]price{{Low: 0, Typical: MaxCost / 2, High: MaxCost}}, 200))
	require.InDelta(t, 0.5, total.Within(200*MaxCost/2).Independent, 1e-5)
	require.InDelta(t, 0.5, total.Within(200*MaxCost/2).Together, 1e-6)
}
