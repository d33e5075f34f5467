package moisture

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// figures is testdata/published/moisture.json: every figure taken from
// outside, with its source and how it is known. A name below is a table there.
type figures struct {
	Saturation struct {
		Band []struct {
			FromC    float64 `json:"from_c"`
			ToC      float64 `json:"to_c"`
			Relative float64
		}
		Rows []satRow
	}
	SaturationISO    struct{ Rows []satRow } `json:"saturation_iso"`
	SaturationCourse struct {
		Relative float64
		Rows     []satRow
	} `json:"saturation_course"`
	Dew struct {
		ToleranceK float64 `json:"tolerance_k"`
		Rows       []struct {
			C, RH, Pa float64
			DewC      float64 `json:"dew_c"`
		}
	}
	Perm []struct {
		Perm float64
		SdM  float64 `json:"sd_m"`
	}
	Indoor struct {
		Rows []struct {
			Class  float64
			OutC   float64 `json:"out_c"`
			Excess float64 `json:"excess_g_m3"`
		}
		PaOf4 float64 `json:"pa_of_4_g_m3_at_20c"`
	}
	PeriodWall struct {
		Rsi, Rse      float64
		InC           float64 `json:"in_c"`
		InPa          float64 `json:"in_pa"`
		OutC          float64 `json:"out_c"`
		OutPa         float64 `json:"out_pa"`
		Seconds       float64
		Layers        []layerRow
		TotalR        float64   `json:"total_r"`
		HeatWM2       float64   `json:"heat_w_m2"`
		TotalSd       float64   `json:"total_sd"`
		FaceC         []float64 `json:"face_c"`
		FaceSatPa     []float64 `json:"face_sat_pa"`
		PlaneInner    int       `json:"plane_inner"`
		Rate          float64   `json:"rate_kg_m2s"`
		Condensed     float64   `json:"condensed_kg_m2"`
		SummerPa      float64   `json:"summer_pa"`
		SummerPlanePa float64   `json:"summer_plane_pa"`
		Drying        float64   `json:"drying_kg_m2s"`
		Dried         float64   `json:"dried_kg_m2"`
	} `json:"period_wall"`
	FrameWallIP frameWallIP `json:"frame_wall_ip"`
	MoldFactor  []struct {
		InC       float64 `json:"in_c"`
		InRH      float64 `json:"in_rh"`
		OutC      float64 `json:"out_c"`
		Limit     float64
		Tolerance float64
		SurfaceC  float64 `json:"surface_c"`
	} `json:"mold_factor"`
	FrameYear  frameYear  `json:"frame_year"`
	AboveGrade aboveGrade `json:"above_grade"`
	BelowGrade belowGrade `json:"below_grade"`
	HotCrawl   hotCrawl   `json:"hot_crawl"`
	FrostCap   struct {
		Place    string
		Capped   float64 `json:"capped_g_m2"`
		Uncapped float64 `json:"uncapped_g_m2"`
	} `json:"frost_cap"`
	Climate []struct {
		Place string
		C, Pa [Months]float64
	}
}

type satRow struct{ C, Pa float64 }

type layerRow struct {
	Name string
	R    float64
	RIP  float64 `json:"r_ip"`
	Sd   float64
	Perm float64
}

func published(t testing.TB) figures {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/moisture.json")
	require.NoError(t, err)
	var f figures
	require.NoError(t, json.Unmarshal(text, &f))
	return f
}

func (f figures) air(t testing.TB, place string) Series {
	t.Helper()
	for _, c := range f.Climate {
		if c.Place == place {
			s, err := AirSeries(c.C, c.Pa)
			require.NoError(t, err)
			return s
		}
	}
	require.Fail(t, "no climate", place)
	return Series{}
}

// limits are those the program starts from.
var limits = Limits{PeakGM2: 200, TraceGM2: 1, MoldRH: 0.8, MoldAboveC: 5}

// ip turns h.ft2.F/Btu into m2K/W.
func ip(r float64) float64 { return r / units.RIPPerRSI }

// kept is a house of usual moisture, as the program starts from.
func kept() Indoor {
	return Indoor{Class: Usual, HeatingC: 21, CoolingC: 24, CoolAboveC: 21, MaxRH: 0.7, MaxRHCooled: 0.55}
}

func rooms(t testing.TB, in Indoor, air Series) Series {
	t.Helper()
	s, err := in.Months(air)
	require.NoError(t, err)
	return s
}

func year(t testing.TB, layers []Layer, rsi, rse float64, months [Months]Month, opts Options) Result {
	t.Helper()
	r, err := Year(layers, rsi, rse, months, opts)
	require.NoError(t, err)
	require.True(t, r.Settled)
	return r
}
