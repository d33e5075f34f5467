package wetting

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// harsh is a section with all there is to lose water and heat in: liquid flow
// across two layers of one material, a sheet that follows humidity, a vented
// cavity, leaks into a material and into air, cells that fill and run off.
func harsh() Section {
	wood := &Material{
		DensityKGM3: 450, HeatJKGK: 1880, LambdaWMK: 0.11, LambdaPerKGM3: 0.0003, FullKGM3: 600,
		Sorption: Curve{{0.2, 20}, {0.5, 41}, {0.8, 72}, {0.95, 108}, {1, 135}},
		Vapor:    Curve{{0, 7e-13}, {0.6, 2.5e-12}, {1, 1.8e-11}}, Liquid: Curve{{100, 1e-13}, {126, 1e-11}},
	}
	fiber := &Material{
		DensityKGM3: 12, HeatJKGK: 840, LambdaWMK: 0.04, LambdaPerKGM3: 0.001, FullKGM3: 3,
		Sorption: Curve{{0.5, 0.024}, {1, 0.24}}, Vapor: flat(1.6e-10),
	}
	return Section{
		Layers: []Layer{
			{Of: wood, ThickM: 0.01},
			{Sheet: Curve{{0, 2e-11}, {0.7, 8e-11}, {1, 5e-10}}},
			{Of: fiber, ThickM: 0.14},
			{Of: wood, ThickM: 0.011},
			{Of: wood, ThickM: 0.02},
			{Air: &Air{FaceWM2K: 10, FaceKG: 2e-8, PerHour: 5, PerHourPerMS: 10}, ThickM: 0.02},
			{Of: wood, ThickM: 0.015},
		},
		Leaks:  []Leak{{Layer: 3, M3M2H: 0.2}, {Layer: 5, M3M2H: 0.1}},
		Watch:  []Watch{{Plane: 0, Class: Sensitive}, {Plane: 2, Class: Sensitive}, {Plane: 3, Class: Sensitive}, {Plane: 7, Class: Resistant}},
		Skins:  []Skin{{Layer: 3, DepthM: 0.0045}},
		StartC: 15, StartRH: 0.9,
	}
}

// harshClimate is some days of weather that swings hard: frost, sun, wet air.
func harshClimate(days int) (room, out []Edge) {
	for i := range days * dayH {
		x := float64(i)
		tC := -8 + 14*math.Sin(x/97) + 6*math.Sin(x*math.Pi/12)
		e := Edge{
			AirC: tC, VaporPa: (0.75 + 0.2*math.Sin(x/31)) * saturation(tC), WindMS: 3 + 3*math.Sin(x/17),
			HeatWM2K: 18 + 8*math.Sin(x/17), VaporKG: 1e-7, AbsorbedWM2: 500*max(0, math.Sin(x*math.Pi/12)) - 30,
		}
		in := RoomAir(21, 0.6)
		if i%50 == 0 { // a door
			in = RoomAir(5, 0.3)
		}
		room, out = append(room, in), append(out, e)
	}
	return room, out
}

// Water and heat are kept to rounding, whatever a step leaves unsettled.
func TestNothingIsLost(t *testing.T) {
	room, out := harshClimate(60)
	for _, step := range []float64{0.25, 1, 3} {
		s := harsh()
		require.NoError(t, s.check())
		r := newRunner(&s, 60)
		before := r.s.water()
		require.NoError(t, r.through(room, out, step))
		res := r.result(60)
		moved := r.s.vaporIn - r.s.runoff
		require.Greater(t, math.Abs(moved), 0.05, "something happened")
		require.InDelta(t, 0, res.DriftGM2, 1e-9*gPerKG*(before+math.Abs(moved)), "water, step %v h", step)
		require.InDelta(t, 0, res.DriftJM2, 1e-9*1e6, "heat, step %v h", step)
		// What is booked is what the cells hold, but for what the last step left.
		held := 0.0
		for i := range r.s.cells {
			c := &r.s.cells[i]
			held += c.thick * c.tab.ref * (c.u - c.phi)
		}
		require.InEpsilon(t, r.s.water(), held, 2e-3)
		require.Positive(t, res.RunoffGM2, "cells were to run over")
	}
}

// The heat of a section that is closed to vapor is that which came in, told
// from the cells themselves.
func TestHeatOfTheCells(t *testing.T) {
	s := slab(heatOnly(), 0.1, 20, 10, 0.5)
	hot := Edge{AirC: 40, HeatWM2K: 10, VaporKG: minPerm}
	goOn(t, s, 50, 600, hot, hot)
	gained := 0.0
	for i := range s.cells {
		gained += s.cells[i].warm * (s.cells[i].t - 10)
	}
	require.InEpsilon(t, s.heatIn, gained, 1e-9)
}

// Steady heat and vapor flow through a built wall are the resistances in a row
// (ISO 6946 and 13788).
func TestSteadyState(t *testing.T) {
	a := &Material{DensityKGM3: 100, HeatJKGK: 1000, LambdaWMK: 0.04, Sorption: Curve{{1, 1}}, Vapor: flat(1e-10), FullKGM3: 10}
	b := &Material{DensityKGM3: 500, HeatJKGK: 1000, LambdaWMK: 0.13, Sorption: Curve{{1, 50}}, Vapor: flat(4e-12), FullKGM3: 100}
	sec := Section{
		Layers: []Layer{{Of: b, ThickM: 0.012}, {Sheet: flat(3e-11)}, {Of: a, ThickM: 0.14}, {Of: b, ThickM: 0.018}},
		StartC: 10, StartRH: 0.5, Watch: []Watch{{Plane: 3, Class: Sensitive}},
	}
	require.NoError(t, sec.check())
	s := newSolver(&sec)
	room := Edge{AirC: 20, VaporPa: 900, HeatWM2K: 8, VaporKG: 2e-8}
	out := Edge{AirC: 10, VaporPa: 800, HeatWM2K: 25, VaporKG: 1e-7}
	goOn(t, s, 400, 10*day, room, out)
	s.heatIn, s.vaporIn = 0, 0
	heat := []float64{1.0 / 8, 0.012 / 0.13, 0.14 / 0.04, 0.018 / 0.13, 1.0 / 25}
	vapor := []float64{1 / 2e-8, 0.012 / 4e-12, 1 / 3e-11, 0.14 / 1e-10, 0.018 / 4e-12, 1 / 1e-7}
	sum := func(r []float64) (x float64) {
		for _, v := range r {
			x += v
		}
		return x
	}
	flow, vflow := (20.0-10)/sum(heat), (900.0-800)/sum(vapor)
	tC, rh := s.at(s.spotOf(&sec, 3), &room, &out)
	pa := 800 + vflow*sum(vapor[4:])
	// Vapor carries its heat of evaporation through without leaving it.
	require.InDelta(t, 10+flow*sum(heat[3:]), tC, 1e-6)
	sat, _ := s.sat.at(tC)
	require.InDelta(t, pa/sat, rh, 1e-6)
	k := &s.links[len(s.cells)]
	last := &s.cells[len(s.cells)-1]
	require.InEpsilon(t, flow, k.k*(last.t-10), 1e-6)
	require.InEpsilon(t, vflow, k.g*(last.p-800), 1e-6)
}

// Steps allocate nothing.
func TestStepsAllocateNothing(t *testing.T) {
	sec := harsh()
	s := newSolver(&sec)
	room, out := harshClimate(1)
	i := 0
	allocated := testing.AllocsPerRun(200, func() {
		if err := s.step(secPerHour, &room[i%24], &out[i%24]); err != nil {
			t.Fatal(err)
		}
		i++
	})
	require.Zero(t, allocated)
}
