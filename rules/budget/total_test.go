package budget

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

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
		if total.High > total.Low {
			require.Equal(t, Odds{}, total.Within(total.Low))
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

// Moving as one, n equal prices are one price n times as large; on their own
// they spread less.
func TestTogetherAgainstOnePrice(t *testing.T) {
	one := price{Low: 40_000, Typical: 52_000, High: 76_000}
	single := mustSum(t, []price{one})
	for _, n := range []units.Cents{2, 5, 30} {
		total := mustSum(t, slices.Repeat([]price{one}, int(n)))
		require.InDelta(t, math.Sqrt(float64(n))*single.SDCents, total.SDCents, 1e-6)
		for budget := one.Low; budget <= one.High; budget += 1000 {
			require.InDelta(t, single.Within(budget).Independent, total.Within(n*budget).Together, 1e-9)
		}
	}
}

// Whatever the shapes, the spread of prices moving as one is at most the sum
// of the deviations and at least that of independent prices.
func TestSpreadLiesBetweenTheEnds(t *testing.T) {
	r := rand.New(rand.NewPCG(54, 1))
	for range 40 {
		total := mustSum(t, []price{randomPrice(r), randomPrice(r), randomPrice(r)})
		asOne := 0.0
		for _, l := range total.lines {
			asOne += math.Sqrt(l.variance())
		}
		const n = 20_000
		sum, squares := 0.0, 0.0
		for k := range n {
			x := float64(total.Low) + total.pointTogether((float64(k)+0.5)/n) - total.MeanCents
			sum += x
			squares += x * x
		}
		require.InDelta(t, 0, sum/n, 1e-3*asOne+1e-9)
		sd := math.Sqrt(squares / n)
		require.LessOrEqual(t, sd, asOne*(1+1e-3)+1e-9)
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
