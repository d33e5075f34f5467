package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// brute is the same physics found another way: many short steps, the string
// as the lowest chord over every pair of points, and flows between neighbours
// instead of between bends. It shares only the cut of the layers and the
// saturation formula with what it checks.
type brute struct {
	x   []float64         // sd of each node
	bar [Months][]float64 // saturation, with the end pressures
	at  [Months]float64   // seconds in the month
}

func newBrute(t *testing.T, layers []Layer, months [Months]Month) brute {
	var g grid
	require.NoError(t, g.cut(layers, 0.13, 0.04))
	b := brute{x: append([]float64{}, g.sdWetM[:g.last+1]...)}
	for m := range months {
		sat := make([]float64, g.last+1)
		for i := range sat {
			sat[i] = math.Inf(1)
		}
		for p := range g.points {
			c := months[m].InC - (months[m].InC-months[m].OutC)*g.rTo[p]/g.rTotal
			sat[g.node[p]] = min(sat[g.node[p]], satPa(c))
		}
		sat[0] = min(sat[0], months[m].InPa, satPa(months[m].InC))
		sat[g.last] = min(sat[g.last], months[m].OutPa, satPa(months[m].OutC))
		b.bar[m], b.at[m] = sat, months[m].Days*secPerDay
	}
	return b
}

// envelope is the highest convex curve under y over nodes from to upto.
func (b brute) envelope(y, out []float64, from, upto int) {
	for k := from; k <= upto; k++ {
		out[k] = y[k]
		for i := from; i < k; i++ {
			for j := k + 1; j <= upto; j++ {
				chord := y[i] + (y[j]-y[i])*(b.x[k]-b.x[i])/(b.x[j]-b.x[i])
				out[k] = min(out[k], chord)
			}
		}
	}
}

// years walks the given number of years in steps per month and gives the
// water held at the end of each month of the last one, in g/m2, per node.
func (b brute) years(years, steps int) [Months][]float64 {
	n := len(b.x)
	held, p := make([]float64, n), make([]float64, n)
	var out [Months][]float64
	for range years {
		for m := range Months {
			for range steps {
				b.step(m, b.at[m]/float64(steps), held, p)
			}
			out[m] = make([]float64, n)
			for k := range held {
				out[m][k] = held[k] * gPerKg
			}
		}
	}
	return out
}

func (b brute) step(m int, seconds float64, held, p []float64) {
	y, from, last := b.bar[m], 0, len(b.x)-1
	for k := 1; k <= last; k++ {
		if held[k] > 0 || k == last {
			b.envelope(y, p, from, k)
			from = k
		}
	}
	for k := 1; k < last; k++ {
		in := (p[k-1] - p[k]) / (b.x[k] - b.x[k-1])
		out := (p[k] - p[k+1]) / (b.x[k+1] - b.x[k])
		change := 2e-10 * (in - out) * seconds
		if held[k] == 0 && change < 1e-12*(math.Abs(in)+math.Abs(out))*2e-10*seconds+1e-13 {
			continue // on a straight stretch: rounding
		}
		held[k] = max(0, held[k]+change)
	}
}

func TestAgreesWithManyShortSteps(t *testing.T) {
	r, w := seeded(9), &Workspace{}
	compared := 0
	for range 60 {
		layers, months := anyLayers(r, false), anyMonths(r)
		for i := range layers {
			layers[i].RM2KW = min(layers[i].RM2KW, 0.7) // few nodes: the check is slow
		}
		res := run(t, w, layers, months, Options{Limits: limits})
		if res.TotalPeakGM2 < 5 || res.Years > 3 || grows(res) {
			continue
		}
		compared++
		held := newBrute(t, layers, months).years(3, 250)
		for m := range Months {
			var want, got float64
			for _, h := range held[m] {
				want += h
			}
			for _, p := range res.Planes {
				got += p.HeldGM2[m]
			}
			require.InDelta(t, want, got, 0.1+0.01*res.TotalPeakGM2, "month %d of %+v", m+1, layers)
		}
	}
	require.Greater(t, compared, 8)
}

func grows(r Result) bool {
	for _, p := range r.Planes {
		if p.RemainderGM2 > 0 {
			return true
		}
	}
	return false
}
