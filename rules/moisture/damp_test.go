package moisture

import (
	"testing"

	"github.com/stretchr/testify/require"
)

type aboveGrade struct {
	Place      string
	Relative   float64
	GypsumR    float64 `json:"gypsum_r_ip"`
	GypsumSd   float64 `json:"gypsum_sd"`
	ConcreteR  float64 `json:"concrete_r_ip"`
	ConcreteSd float64 `json:"concrete_sd"`
	Thickness  float64 `json:"thickness_m"`
	Rows       []struct {
		Fiber string
		RIP   float64 `json:"r_ip"`
		Mu    float64
		Peak  float64 `json:"peak_g_m2"`
	}
}

// Table above_grade (computed; inputs assumed there): fiber straight on concrete fails whatever the fiber.
func TestFiberOnConcreteAboveGrade(t *testing.T) {
	all := published(t)
	f := all.AboveGrade
	air := all.air(t, f.Place)
	months := Join(rooms(t, kept(), air), air)
	least, most := 1e9, 0.0
	for _, row := range f.Rows {
		layers := []Layer{
			{Name: "gypsum", RM2KW: ip(f.GypsumR), SdM: f.GypsumSd, Sensitive: true},
			{Name: row.Fiber, RM2KW: ip(row.RIP), SdM: row.Mu * f.Thickness, Sensitive: true},
			{Name: "concrete", RM2KW: ip(f.ConcreteR), SdM: f.ConcreteSd},
		}
		r := year(t, layers, 0.13, 0.04, months, Options{Limits: limits, OutsideAir: true})
		require.InEpsilon(t, row.Peak, r.PeakGM2, f.Relative, row.Fiber)
		require.Equal(t, MoldRisk, r.Verdict, row.Fiber)
		require.Equal(t, 1, r.Planes[r.WettestJudged].Inner)
		require.Equal(t, 2, r.Planes[r.WettestJudged].Outer)
		least, most = min(least, r.PeakGM2), max(most, r.PeakGM2)
	}
	require.Less(t, most/least, 1.25, "no difference between fibers worth naming")
}

type belowGrade struct {
	Place      string
	Relative   float64
	GypsumR    float64 `json:"gypsum_r_ip"`
	GypsumSd   float64 `json:"gypsum_sd"`
	ConcreteR  float64 `json:"concrete_r_ip"`
	ConcreteSd float64 `json:"concrete_sd"`
	FiberR     float64 `json:"fiber_r_ip"`
	FiberSd    float64 `json:"fiber_sd"`
	FoamSd     float64 `json:"foam_sd_per_r5"`
	SoilMean   float64 `json:"soil_mean_c"`
	SoilAmp    float64 `json:"soil_amplitude_c"`
	Coldest    float64 `json:"soil_coldest"`
	MaxRH      float64 `json:"max_rh"`
	KeptRH     float64 `json:"kept_rh"`
	Rows       []struct {
		Foam         float64 `json:"foam_r_ip"`
		Dehumidified bool
		Held         float64 `json:"held_g_m2"`
		Years        float64
		StaysWet     bool `json:"stays_wet"`
	}
}

func (f belowGrade) wall(foamR float64) []Layer {
	layers := []Layer{
		{Name: "gypsum", RM2KW: ip(f.GypsumR), SdM: f.GypsumSd, Sensitive: true},
		{Name: "fiber", RM2KW: ip(f.FiberR), SdM: f.FiberSd, Sensitive: true},
	}
	if foamR > 0 {
		layers = append(layers, Layer{Name: "foam", RM2KW: ip(foamR), SdM: f.FoamSd * foamR / 5})
	}
	return append(layers, Layer{Name: "concrete", RM2KW: ip(f.ConcreteR), SdM: f.ConcreteSd})
}

func (f belowGrade) months(t testing.TB, air Series, dehumidified bool) [Months]Month {
	in := kept()
	in.MaxRH = f.MaxRH
	if dehumidified {
		in.MaxRH = f.KeptRH
	}
	soil, err := SoilMonths(f.SoilMean, f.SoilAmp, f.Coldest)
	require.NoError(t, err)
	return Join(rooms(t, in, air), soil)
}

// Table below_grade (computed; inputs assumed there): summer air wets bare fiber on a cool wall for good; foam
// keeps the fiber warm enough, and so does dry air.
func TestBasementWallAgainstSoil(t *testing.T) {
	all := published(t)
	f := all.BelowGrade
	air := all.air(t, f.Place)
	require.Len(t, f.Rows, 8)
	for _, row := range f.Rows {
		r := year(t, f.wall(row.Foam), 0.13, 0.04, f.months(t, air, row.Dehumidified), Options{Limits: limits})
		held := r.PeakGM2
		if row.StaysWet {
			require.Equal(t, StaysWet, r.Verdict)
			require.Zero(t, r.ClearMonth)
			held += (row.Years - 1) * r.RemainderGM2
		} else {
			require.NotEqual(t, StaysWet, r.Verdict)
		}
		require.InDelta(t, row.Held, held, f.Relative*row.Held+limits.TraceGM2, "%+v", row)
		if r.PeakGM2 > limits.TraceGM2 {
			require.Contains(t, []int{6, 7, 8, 9}, r.PeakMonth, "summer governs")
		}
	}
}

// Foam against concrete may be wet; it is listed and does not decide.
func TestPlanesWithoutFiberDoNotDecide(t *testing.T) {
	all := published(t)
	f := all.BelowGrade
	r := year(t, f.wall(15), 0.13, 0.04, f.months(t, all.air(t, f.Place), true), Options{Limits: limits})
	require.NotEmpty(t, r.Planes)
	for _, p := range r.Planes {
		require.False(t, p.Judged, "%+v", p)
	}
	require.Equal(t, -1, r.WettestJudged)
	require.GreaterOrEqual(t, r.Wettest, 0)
	require.Positive(t, r.TotalPeakGM2)
	require.Zero(t, r.PeakGM2)
	require.Equal(t, NoBuildUp, r.Verdict)

	// The same water at the same plane decides once wood is there.
	layers := f.wall(15)
	layers[3].Sensitive = true
	r = year(t, layers, 0.13, 0.04, f.months(t, all.air(t, f.Place), true), Options{Limits: limits})
	require.Equal(t, MoldRisk, r.Verdict)
}

type hotCrawl struct {
	Place      string
	RHFrom     float64 `json:"rh_from"`
	RHTo       float64 `json:"rh_to"`
	Month      int
	Layers     []layerRow
	Rsi, Rse   float64
	InMaxRH    float64 `json:"in_max_rh"`
	InCooledRH float64 `json:"in_cooled_rh"`
	Tolerance  float64
}

// Table hot_crawl (computed; inputs assumed there): nothing condenses, and the subfloor is still too damp.
func TestCooledFloorOverAHotCrawl(t *testing.T) {
	all := published(t)
	f := all.HotCrawl
	air := all.air(t, f.Place)
	in := kept()
	in.Cooled, in.MaxRH, in.MaxRHCooled = true, f.InMaxRH, f.InCooledRH
	layers := siLayers(f.Layers)
	layers[0].Sensitive = false
	r := year(t, layers, f.Rsi, f.Rse, Join(rooms(t, in, air), air), Options{Limits: limits, OutsideAir: true})
	require.Empty(t, r.Planes)
	require.Equal(t, MoldRisk, r.Verdict)
	july := r.Interfaces[2].RH[f.Month-1]
	require.GreaterOrEqual(t, july, f.RHFrom-f.Tolerance)
	require.LessOrEqual(t, july, f.RHTo+f.Tolerance)
	require.Equal(t, 2, r.WorstWarm.Interface, "under the plywood")
	require.Greater(t, r.WorstWarm.RH, limits.MoldRH)

	// A tight layer under the joists is the cure.
	layers = append(layers, Layer{Name: "membrane", SdM: 58})
	r = year(t, layers, f.Rsi, f.Rse, Join(rooms(t, in, air), air), Options{Limits: limits, OutsideAir: true})
	require.Less(t, r.Interfaces[2].RH[f.Month-1], limits.MoldRH)
}
