package moisture

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
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
	Indoor struct {
		Rows []struct {
			Class  float64
			OutC   float64 `json:"out_c"`
			Excess float64 `json:"excess_g_m3"`
		}
		PaOf4 float64 `json:"pa_of_4_g_m3_at_20c"`
	}
	MoldFactor []struct {
		InC       float64 `json:"in_c"`
		InRH      float64 `json:"in_rh"`
		OutC      float64 `json:"out_c"`
		Limit     float64
		Tolerance float64
		SurfaceC  float64 `json:"surface_c"`
	} `json:"mold_factor"`
	Climate []air
}

type satRow struct{ C, Pa float64 }

// air is outdoor air, month by month.
type air struct {
	Place string
	C, Pa [12]float64
}

func published(t testing.TB) figures {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/moisture.json")
	require.NoError(t, err)
	var f figures
	require.NoError(t, json.Unmarshal(text, &f))
	return f
}

func (f figures) air(t testing.TB, place string) air {
	t.Helper()
	for _, c := range f.Climate {
		if c.Place == place {
			return c
		}
	}
	require.Fail(t, "no climate", place)
	return air{}
}

// kept is a house of usual moisture, as the program starts from.
func kept() Indoor {
	return Indoor{Class: Usual, HeatingC: 21, CoolingC: 24, CoolAboveC: 21, MaxRH: 0.7, MaxRHCooled: 0.55}
}
