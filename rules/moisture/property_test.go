package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

const cases = 400

func run(t *testing.T, w *Workspace, layers []Layer, months [Months]Month, opts Options) Result {
	t.Helper()
	r, err := w.Year(layers, 0.13, 0.04, months, opts)
	require.NoError(t, err)
	require.True(t, r.Settled, "%+v", layers)
	return r
}

// Vapour below saturation at the coldest point cannot condense anywhere.
func TestNothingCondensesBelowSaturation(t *testing.T) {
	r, w := seeded(1), &Workspace{}
	for range cases {
		layers, months := anyLayers(r, true), anyMonths(r)
		for m := range months {
			least := min(satPa(months[m].InC), satPa(months[m].OutC))
			months[m].InPa, months[m].OutPa = least*uniform(r, 0, 0.999), least*uniform(r, 0, 0.999)
		}
		res := run(t, w, layers, months, Options{Limits: limits})
		require.Empty(t, res.Planes)
		require.Zero(t, res.PeakMonth)
	}
}

// What a plane gains less what it loses is what it holds, and a year that
// repeats itself ends as it began unless it grows.
func TestGainLessLossIsHeld(t *testing.T) {
	r, w := seeded(2), &Workspace{}
	wet, growing := 0, 0
	for range cases {
		res := run(t, w, anyLayers(r, true), anyMonths(r), Options{Limits: limits})
		for _, p := range res.Planes {
			wet++
			var net float64
			for m := range Months {
				net += p.GainGM2[m]
				require.GreaterOrEqual(t, p.HeldGM2[m], 0.0)
				if p.RemainderGM2 > 0 && p.HeldGM2[m] < p.HeldGM2[(m+11)%Months]+p.GainGM2[m]-1e-6 {
					continue // where the growing year starts over
				}
				want := p.HeldGM2[(m+11)%Months] + p.GainGM2[m]
				require.InDelta(t, want, p.HeldGM2[m], 1e-5)
			}
			require.InDelta(t, p.RemainderGM2, net, 1e-3+1e-9*p.PeakGM2)
			if p.RemainderGM2 > 0 {
				growing++
				require.Zero(t, p.ClearMonth)
			}
		}
	}
	require.Greater(t, wet, cases/4)
	require.Positive(t, growing)
}

// Humidity stays within bounds, and a plane that is wet all month is at 100 %.
func TestHumidityIsBounded(t *testing.T) {
	r, w := seeded(3), &Workspace{}
	for range cases {
		layers := anyLayers(r, true)
		res := run(t, w, layers, anyMonths(r), Options{Limits: limits})
		require.Len(t, res.Interfaces, len(layers)+1)
		for _, f := range res.Interfaces {
			for m := range Months {
				require.True(t, f.RH[m] >= 0 && f.RH[m] <= 1, "%v", f.RH[m])
			}
		}
		for _, p := range res.Planes {
			if p.Share != 1 || p.Inner+1 != p.Outer {
				continue
			}
			for m := range Months {
				if p.HeldGM2[m] > 0.01 && p.HeldGM2[(m+11)%Months] > 0.01 {
					require.InDelta(t, 1, res.Interfaces[p.Outer].RH[m], 1e-9)
				}
			}
		}
	}
}

func TestStartMonthIsIrrelevant(t *testing.T) {
	r, w := seeded(4), &Workspace{}
	for range cases / 4 {
		layers, months := anyLayers(r, true), anyMonths(r)
		first := run(t, w, layers, months, Options{Limits: limits})
		for _, start := range []int{1, 5, 8, 11} {
			other := run(t, w, layers, months, Options{Limits: limits, StartMonth: start})
			require.Equal(t, first.Verdict, other.Verdict)
			require.Equal(t, first.PeakMonth, other.PeakMonth)
			require.Equal(t, first.ClearMonth, other.ClearMonth)
			tolerance := 1e-4 + 1e-9*first.PeakGM2
			require.InDelta(t, first.PeakGM2, other.PeakGM2, tolerance)
			require.InDelta(t, first.RemainderGM2, other.RemainderGM2, tolerance)
			require.InDelta(t, first.Worst.RH, other.Worst.RH, 1e-6)
		}
	}
	_, err := Year(anyLayers(r, false), 0.13, 0.04, anyMonths(r), Options{Limits: limits, StartMonth: 12})
	require.ErrorIs(t, err, ErrMonth)
}

func TestInsideResistanceNeverRaisesTheWinterPeak(t *testing.T) {
	air := published(t).air(t, "Duluth")
	months := Join(rooms(t, kept(), air), air)
	last := math.Inf(1)
	verdicts := map[Verdict]bool{}
	for sd := 0.02; sd < 100; sd *= 1.15 {
		r := year(t, winterLayers(sd, 0), 0.13, 0.04, months, Options{Limits: limits, OutsideAir: true})
		require.LessOrEqual(t, r.PeakGM2, last+1e-9, "sd %v", sd)
		last = r.PeakGM2
		verdicts[r.Verdict] = true
	}
	require.Zero(t, last, "a tight sheet keeps it dry")
	require.True(t, verdicts[MoldRisk] && verdicts[NoBuildUp])
}

// The same over random walls: more sd inside never lets more in in a month
// that starts dry and takes water up from the room.
func TestInsideResistanceNeverRaisesTheRate(t *testing.T) {
	r := seeded(5)
	wet := 0
	for range cases {
		layers, m := anyLayers(r, false), anyMonths(r)[0] // January: the coldest
		if m.InPa < m.OutPa {
			continue
		}
		before := gain(t, layers, m)
		layers = append([]Layer{{Name: "paint", SdM: logBetween(r, 0.01, 50)}}, layers...)
		after := gain(t, layers, m)
		require.LessOrEqual(t, after, before*(1+1e-9)+1e-18)
		if before > 0 {
			wet++
		}
	}
	require.Greater(t, wet, cases/10)
}

// gain is what all planes together collect in a month of a year that does not
// change, kg/(m2.s).
func gain(t *testing.T, layers []Layer, m Month) (sum float64) {
	r := year(t, layers, 0.13, 0.04, same(m), Options{Limits: limits})
	for _, p := range r.Planes {
		sum += rate(p, m)
	}
	return sum
}

// Twice the vapour resistance everywhere is half the flow everywhere, so half
// the water in the same months.
func TestPeakScalesWithPermeability(t *testing.T) {
	r, w := seeded(6), &Workspace{}
	for range cases {
		layers, months := anyLayers(r, true), anyMonths(r)
		a := run(t, w, layers, months, Options{Limits: limits})
		thick := make([]Layer, len(layers))
		for i, l := range layers {
			l.SdM, l.SdDryingM = 2*l.SdM, 2*l.SdDryingM
			thick[i] = l
		}
		b := run(t, w, thick, months, Options{Limits: limits})
		require.InDelta(t, a.TotalPeakGM2/2, b.TotalPeakGM2, 1e-4+1e-6*a.TotalPeakGM2)
		require.InDelta(t, a.Worst.RH, b.Worst.RH, 1e-6)
	}
}

// A layer cut in two is the same layer.
func TestSplitLayerIsTheSameLayer(t *testing.T) {
	r, w := seeded(7), &Workspace{}
	for range cases {
		layers, months := anyLayers(r, true), anyMonths(r)
		i := r.IntN(len(layers))
		// An even number of slices either way; a sheet would get a plane more.
		layers[i].RM2KW = 0.5 * float64(1+r.IntN(4))
		half := layers[i]
		half.RM2KW, half.SdM, half.SdDryingM = half.RM2KW/2, half.SdM/2, half.SdDryingM/2
		cut := append(append(append([]Layer{}, layers[:i]...), half, half), layers[i+1:]...)
		a := run(t, w, layers, months, Options{Limits: limits})
		b := run(t, w, cut, months, Options{Limits: limits})
		require.InDelta(t, a.TotalPeakGM2, b.TotalPeakGM2, 1e-4+1e-6*a.TotalPeakGM2)
		require.InDelta(t, a.PeakGM2, b.PeakGM2, 1e-4+1e-6*a.PeakGM2)
	}
}

// A retarder that opens while the wall dries is never wetter for it.
func TestOpeningRetarderDriesFaster(t *testing.T) {
	f := published(t)
	r, w := seeded(8), &Workspace{}
	air := f.air(t, "Duluth")
	months := Join(rooms(t, kept(), air), air)
	// A tight sheathing, so that the way out is back through the room side.
	stiff, opening := winterLayers(5.8, 0), winterLayers(5.8, 0.9)
	stiff[3].SdM, opening[3].SdM = 30, 30
	before := run(t, w, stiff, months, Options{Limits: limits})
	after := run(t, w, opening, months, Options{Limits: limits})
	require.InDelta(t, before.PeakGM2, after.PeakGM2, 1e-9, "it takes up water with the dry value")
	require.Equal(t, before.PeakMonth, after.PeakMonth)
	july := func(r Result) float64 { return r.Planes[r.Wettest].HeldGM2[6] }
	require.Less(t, july(after), july(before)-1)

	for range cases {
		months := anyMonths(r)
		sd := logBetween(r, 0.3, 30)
		stiff := run(t, w, winterLayers(sd, 0), months, Options{Limits: limits})
		opens := run(t, w, winterLayers(sd, sd*uniform(r, 0.05, 1)), months, Options{Limits: limits})
		if stiff.RemainderGM2 > 0 { // grows without end: no peak to compare
			require.LessOrEqual(t, opens.RemainderGM2, stiff.RemainderGM2+1e-6)
			continue
		}
		require.LessOrEqual(t, opens.PeakGM2, stiff.PeakGM2+1e-6)
	}
}

func winterLayers(sd, dryingSd float64) []Layer {
	return []Layer{
		{Name: "gypsum", RM2KW: 0.08, SdM: 0.7, Sensitive: true},
		{Name: "retarder", SdM: sd, SdDryingM: dryingSd},
		{Name: "fiber", RM2KW: 3.35, SdM: 0.17, Sensitive: true},
		{Name: "sheathing", RM2KW: 0.11, SdM: 2.3, Sensitive: true},
	}
}
