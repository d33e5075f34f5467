package wetting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Exact solutions of diffusion in one dimension (Carslaw and Jaeger, Crank:
// textbook formulas, evaluated here). Heat is tried with a material that holds
// no water to speak of, moisture with one whose sorption and permeability are
// straight and whose heat hardly moves, so that D = delta psat / (dw/dRH).

const (
	tryC     = 20.0
	tryDelta = 2.5e-12      // kg/(m s Pa), softwood across the grain
	tryWater = 450 * 0.19   // kg/m3 from dry to saturated
	held     = 1e9          // W/(m2 K)
	heatD    = 2.0 / 2000e3 // m2/s of heatOnly
	day      = 86400.0
)

func heatOnly() *Material {
	return &Material{DensityKGM3: 2000, HeatJKGK: 1000, LambdaWMK: 2, Sorption: Curve{{1, 1e-6}}, Vapor: flat(1e-15), FullKGM3: 1e-6}
}

func vaporOnly() *Material {
	return &Material{DensityKGM3: 20000, HeatJKGK: 10000, LambdaWMK: 500, Sorption: Curve{{1, tryWater}}, Vapor: flat(tryDelta), FullKGM3: tryWater}
}

func vaporD() float64 { return tryDelta * saturation(tryC) / tryWater }

func tryEdge(tC, rh, film float64) Edge {
	return Edge{AirC: tC, VaporPa: rh * saturation(tryC), HeatWM2K: film, VaporKG: math.Inf(1)}
}

// goOn steps n times dt seconds.
func goOn(t *testing.T, s *solver, n int, dt float64, room, out Edge) {
	t.Helper()
	for range n {
		require.NoError(t, s.step(dt, &room, &out))
	}
}

func slab(m *Material, thickM float64, cells int, tC, rh float64) *solver {
	return newSolver(&Section{Layers: []Layer{{Of: m, ThickM: thickM, Cells: cells}}, StartC: tC, StartRH: rh})
}

// A step at the face of what goes on for ever: erfc(x / (2 sqrt(D t))).
func TestStepIsErfc(t *testing.T) {
	inf := math.Inf(1)
	for _, n := range []float64{0.25, 0.5, 1} { // x over 2 sqrt(D t)
		const span, steps = 5 * day, 400
		deep := 12 * math.Sqrt(heatD*span)
		s := slab(heatOnly(), deep, 400, 10, 0.5)
		goOn(t, s, steps, span/steps, tryEdge(30, 0.5, inf), tryEdge(10, 0.5, inf))
		_, tC := s.profile(2 * n * math.Sqrt(heatD*span))
		require.InDelta(t, math.Erfc(n), (tC-10)/20, 0.002, "heat at %v", n)

		const long = 60 * day
		s = slab(vaporOnly(), 12*math.Sqrt(vaporD()*long), 400, tryC, 0.3)
		goOn(t, s, steps, long/steps, tryEdge(tryC, 0.8, inf), tryEdge(tryC, 0.3, inf))
		w, _ := s.profile(2 * n * math.Sqrt(vaporD()*long))
		require.InDelta(t, math.Erfc(n), (w/tryWater-0.3)/0.5, 0.002, "vapor at %v", n)
	}
}

// A slab that dries through both faces, held there: the series of Crank.
func TestSlabDries(t *testing.T) {
	left := func(fo float64) float64 {
		sum := 0.0
		for n := 0; n < 200; n++ {
			k := float64(2*n+1) * math.Pi
			sum += 8 / (k * k) * math.Exp(-k*k*fo/4)
		}
		return sum
	}
	const half = 0.02
	for fo, want := range map[float64]float64{0.05: 0.747687, 0.1: 0.643177, 0.2: 0.495912, 0.5: 0.236050} {
		require.InDelta(t, want, left(fo), 1e-6)
		span := fo * half * half / vaporD()
		s := slab(vaporOnly(), 2*half, 200, tryC, 0.9)
		goOn(t, s, 500, span/500, tryEdge(tryC, 0.4, math.Inf(1)), tryEdge(tryC, 0.4, math.Inf(1)))
		require.InDelta(t, want, (s.water()/(2*half*tryWater)-0.4)/0.5, 0.002, "Fo %v", fo)
	}
}

// The same with a film on both faces: b tan b = Bi.
func TestSlabDriesThroughFilms(t *testing.T) {
	type row struct{ bi, fo, left float64 }
	for _, r := range []row{{0.5, 0.1, 0.955377}, {0.5, 2, 0.424045}, {1, 0.5, 0.681105}, {5, 0.1, 0.781417}, {5, 2, 0.028916}} {
		const half = 0.02
		film := r.bi * tryDelta / half
		s := slab(vaporOnly(), 2*half, 100, tryC, 0.9)
		edge := Edge{AirC: tryC, VaporPa: 0.4 * saturation(tryC), HeatWM2K: held, VaporKG: film}
		span := r.fo * half * half / vaporD()
		goOn(t, s, 800, span/800, edge, edge)
		require.InDelta(t, r.left, (s.water()/(2*half*tryWater)-0.4)/0.5, 0.002, "Bi %v Fo %v", r.bi, r.fo)

		film = r.bi * 2 / half
		s = slab(heatOnly(), 2*half, 100, 30, 0.5)
		edge = Edge{AirC: 10, VaporPa: 0.5 * saturation(tryC), HeatWM2K: film, VaporKG: minPerm}
		span = r.fo * half * half / heatD
		goOn(t, s, 800, span/800, edge, edge)
		sum := 0.0
		for i := range s.cells {
			sum += s.cells[i].t / 100
		}
		require.InDelta(t, r.left, (sum-10)/20, 0.002, "heat, Bi %v Fo %v", r.bi, r.fo)
	}
}

// A sine at the face dies away to 1/e where x = sqrt(D P / pi), and is late by
// 1 radian there.
func TestSineDiesAway(t *testing.T) {
	const period, steps = day, 400
	e := math.Sqrt(heatD * period / math.Pi)
	s := slab(heatOnly(), 8*e, 320, 20, 0.5)
	far := tryEdge(20, 0.5, math.Inf(1))
	var sinSum, cosSum float64
	for i := range 6 * steps {
		phase := 2 * math.Pi * float64(i+1) / steps
		room := tryEdge(20+10*math.Sin(phase), 0.5, math.Inf(1))
		require.NoError(t, s.step(period/steps, &room, &far))
		if i >= 5*steps {
			_, tC := s.profile(e)
			sinSum += (tC - 20) * math.Sin(phase) * 2 / steps
			cosSum += (tC - 20) * math.Cos(phase) * 2 / steps
		}
	}
	require.InDelta(t, 10/math.E, math.Hypot(sinSum, cosSum), 0.03)
	require.InDelta(t, -1, math.Atan2(cosSum, sinSum), 0.02)
}

// In a half space everything hangs on x / sqrt(t) alone: what stands at 0.01 m
// after 7 days stands at 0.0722 m after a year, liquid flow and all.
func TestProfileIsSimilar(t *testing.T) {
	at := map[int][2]float64{}
	runEN(t, 73, 20, 21600, func(day int, s *solver) {
		w, _ := s.profile(0.01 * math.Sqrt(float64(day)/7))
		_, tC := s.profile(0.5 * math.Sqrt(float64(day)/7))
		at[day] = [2]float64{w, tC}
	})
	for _, day := range []int{30, 365} {
		require.InDelta(t, at[7][0], at[day][0], 0.5, "water, day %d", day)
		if day == 30 { // later the far end of 20 m is felt
			require.InDelta(t, at[7][1], at[day][1], 0.05, "temperature, day %d", day)
		}
	}
}
