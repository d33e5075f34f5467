package moisture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestYearRefusesTheImpossible(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	ok := []Layer{{Name: "board", RM2KW: 1, SdM: 1}}
	month := Month{InC: 20, InPa: 1000, OutC: 0, OutPa: 500, Days: 30}
	for _, c := range []struct {
		name     string
		layers   []Layer
		rsi, rse float64
		spoil    func(*Month, *Options)
		want     error
	}{
		{"none", nil, 0.13, 0.04, nil, ErrTooMany},
		{"too many layers", make([]Layer, MaxLayers+1), 0.13, 0.04, nil, ErrTooMany},
		{"too many slices", []Layer{{RM2KW: 50, SdM: 1}}, 0.13, 0.04, nil, ErrTooMany},
		{"R NaN", []Layer{{RM2KW: nan, SdM: 1}}, 0.13, 0.04, nil, ErrLayer},
		{"R negative", []Layer{{RM2KW: -1, SdM: 1}}, 0.13, 0.04, nil, ErrLayer},
		{"sd infinite", []Layer{{RM2KW: 1, SdM: inf}}, 0.13, 0.04, nil, ErrLayer},
		{"sd negative", []Layer{{RM2KW: 1, SdM: -1}}, 0.13, 0.04, nil, ErrLayer},
		{"drying sd NaN", []Layer{{RM2KW: 1, SdM: 1, SdDryingM: nan}}, 0.13, 0.04, nil, ErrLayer},
		{"drying sd only", []Layer{{RM2KW: 1, SdDryingM: 1}}, 0.13, 0.04, nil, ErrLayer},
		{"no sd at all", []Layer{{RM2KW: 1}}, 0.13, 0.04, nil, ErrLayer},
		{"no R at all", []Layer{{SdM: 1}}, 0, 0, nil, ErrResistance},
		{"rsi NaN", ok, nan, 0.04, nil, ErrResistance},
		{"rse negative", ok, 0.13, -1, nil, ErrResistance},
		{"outside NaN", ok, 0.13, 0.04, func(m *Month, _ *Options) { m.OutC = nan }, ErrTemperature},
		{"inside hot", ok, 0.13, 0.04, func(m *Month, _ *Options) { m.InC = 1e6 }, ErrTemperature},
		{"pressure", ok, 0.13, 0.04, func(m *Month, _ *Options) { m.InPa = -1 }, ErrPressure},
		{"pressure huge", ok, 0.13, 0.04, func(m *Month, _ *Options) { m.OutPa = inf }, ErrPressure},
		{"days", ok, 0.13, 0.04, func(m *Month, _ *Options) { m.Days = 0 }, ErrMonth},
		{"start", ok, 0.13, 0.04, func(_ *Month, o *Options) { o.StartMonth = -1 }, ErrMonth},
		{"peak", ok, 0.13, 0.04, func(_ *Month, o *Options) { o.Limits.PeakGM2 = nan }, ErrLimit},
		{"trace", ok, 0.13, 0.04, func(_ *Month, o *Options) { o.Limits.TraceGM2 = -1 }, ErrLimit},
		{"mold RH", ok, 0.13, 0.04, func(_ *Month, o *Options) { o.Limits.MoldRH = 80 }, ErrLimit},
		{"mold C", ok, 0.13, 0.04, func(_ *Month, o *Options) { o.Limits.MoldAboveC = nan }, ErrLimit},
		{"mold months", ok, 0.13, 0.04, func(_ *Month, o *Options) { o.Limits.MoldMonths = 13 }, ErrLimit},
	} {
		t.Run(c.name, func(t *testing.T) {
			months, opts := same(month), Options{Limits: limits}
			if c.spoil != nil {
				c.spoil(&months[7], &opts)
			}
			_, err := Year(c.layers, c.rsi, c.rse, months, opts)
			require.ErrorIs(t, err, c.want)
		})
	}
	_, err := Year(ok, 0.13, 0.04, same(month), Options{Limits: limits})
	require.NoError(t, err)
}

// Sheets without vapour resistance, wherever they are, divide nothing by zero
// and change nothing but the temperature.
func TestLayersWithoutVapourResistance(t *testing.T) {
	air := published(t).air(t, "Duluth")
	months := Join(rooms(t, kept(), air), air)
	plain := year(t, winterLayers(0.5, 0), 0.13, 0.04, months, Options{Limits: limits})
	layers := append([]Layer{{Name: "sheet"}}, winterLayers(0.5, 0)...)
	layers = append(layers[:3], append([]Layer{{Name: "sheet"}}, layers[3:]...)...)
	layers = append(layers, Layer{Name: "sheet"})
	with := year(t, layers, 0.13, 0.04, months, Options{Limits: limits})
	require.InDelta(t, plain.PeakGM2, with.PeakGM2, 1e-9)
	require.Equal(t, plain.Verdict, with.Verdict)
	require.Len(t, with.Interfaces, len(layers)+1)
	// An R without sd shifts the temperature on both of its faces: the lower
	// saturation counts for the shared plane.
	layers[len(layers)-1].RM2KW = 0.5
	warmer := year(t, layers, 0.13, 0.04, months, Options{Limits: limits})
	require.Less(t, warmer.PeakGM2, plain.PeakGM2)
}

// Dew on the surface itself is no water inside, and is reported.
func TestDewOnSurfacesIsReported(t *testing.T) {
	concrete := []Layer{{Name: "concrete", RM2KW: 0.1, SdM: 20}}
	cold := same(Month{InC: 20, InPa: 1600, OutC: -10, OutPa: 200, Days: 30})
	r := year(t, concrete, 0.13, 0.04, cold, Options{Limits: limits})
	require.True(t, r.InSurfaceWet[0])
	require.False(t, r.OutSurfaceWet[0])
	require.False(t, r.InCapped[0])
	hot := same(Month{InC: 24, InPa: 1500, OutC: 30, OutPa: 4200, Days: 30})
	r = year(t, concrete, 0.13, 0.04, hot, Options{Limits: limits})
	require.True(t, r.OutSurfaceWet[0])
	steam := same(Month{InC: 20, InPa: 9000, OutC: 0, OutPa: 100, Days: 30})
	r = year(t, concrete, 0.13, 0.04, steam, Options{Limits: limits})
	require.True(t, r.InCapped[0])
}

// The four verdicts and where the limits turn one into the next.
func TestVerdictFollowsTheLimits(t *testing.T) {
	air := published(t).air(t, "Burlington")
	months := Join(rooms(t, kept(), air), air)
	layers := winterLayers(5.8, 1.75)
	opts := Options{Limits: limits, OutsideAir: true}
	r := year(t, layers, 0.13, 0.13, months, opts)
	require.Equal(t, BuildsUpAndDries, r.Verdict)
	require.Equal(t, "builds up and dries", r.Verdict.String())
	require.Positive(t, r.ClearMonth)

	low := opts
	low.Limits.PeakGM2 = r.PeakGM2 * 0.9
	require.Equal(t, MoldRisk, year(t, layers, 0.13, 0.13, months, low).Verdict)
	blind := opts
	blind.Limits.TraceGM2 = r.PeakGM2 * 1.1
	require.Equal(t, NoBuildUp, year(t, layers, 0.13, 0.13, months, blind).Verdict)
	strict := opts
	strict.Limits.MoldRH = r.WorstWarm.RH - 0.01
	damp := year(t, layers, 0.13, 0.13, months, strict)
	require.Equal(t, MoldRisk, damp.Verdict)
	strict.Limits.MoldMonths = damp.MoldMonths + 1
	require.Equal(t, BuildsUpAndDries, year(t, layers, 0.13, 0.13, months, strict).Verdict)

	// Sheet metal outside: nothing ever leaves.
	layers = append(layers, Layer{Name: "metal", SdM: MaxSdM})
	for i := range layers {
		layers[i].SdDryingM = 0
	}
	cold := same(Month{InC: 21, InPa: 900, OutC: -5, OutPa: 300, Days: 30})
	wet := year(t, layers, 0.13, 0.04, cold, opts)
	require.Equal(t, StaysWet, wet.Verdict)
	require.Zero(t, wet.ClearMonth)
	require.InEpsilon(t, wet.PeakGM2, wet.RemainderGM2, 1e-9)
}

// Months in which a plane is no damper than open air do not count there.
func TestOpenAirIsNotBlamed(t *testing.T) {
	m := same(Month{InC: 21, InPa: 0.88 * satPa(15), OutC: 15, OutPa: 0.88 * satPa(15), Days: 30})
	layers := []Layer{{RM2KW: 3, SdM: 2, Sensitive: true}, {RM2KW: 0.1, SdM: 2, Sensitive: true}}
	r := year(t, layers, 0.13, 0.04, m, Options{Limits: limits})
	require.Equal(t, MoldRisk, r.Verdict)
	r = year(t, layers, 0.13, 0.04, m, Options{Limits: limits, OutsideAir: true})
	require.Equal(t, NoBuildUp, r.Verdict)
	require.Zero(t, r.WorstWarm.Month)
	require.Positive(t, r.Worst.RH)
}

// FuzzYear: whatever numbers come, there is an error or a bounded result.
func FuzzYear(f *testing.F) {
	f.Add(2.3, 0.1, 0.7, 8.0, 0.13, 0.04, -5.0, 300.0, 21.0, 900.0)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 1e300, 1e-300, 5e-324, -90.0, 1e5, 90.0, 0.0)
	f.Fuzz(func(t *testing.T, r, sd, sdDry, sdOut, rsi, rse, outC, outPa, inC, inPa float64) {
		layers := []Layer{
			{RM2KW: r, SdM: sd, SdDryingM: sdDry, Sensitive: true},
			{RM2KW: rse, SdM: sdOut},
		}
		months := same(Month{InC: inC, InPa: inPa, OutC: outC, OutPa: outPa, Days: 30})
		months[6].OutC, months[6].OutPa = inC, inPa
		res, err := Year(layers, rsi, rse, months, Options{Limits: limits})
		if err != nil {
			return
		}
		require.False(t, math.IsNaN(res.PeakGM2) || math.IsInf(res.PeakGM2, 0) || res.PeakGM2 < 0)
		for _, face := range res.Interfaces {
			for m := range Months {
				require.True(t, face.RH[m] >= 0 && face.RH[m] <= 1, "%v", face.RH[m])
			}
		}
	})
}
