package heat

import (
	"bytes"
	"encoding/json"
	"os"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// The checks of this package against figures from outside the project all read
// testdata/published/heat.json. Each row there names its source, and each
// source says whether it was read, is from memory, or was computed elsewhere.

type assembly struct {
	ID     string         `json:"id"`
	What   string         `json:"what"`
	SI     bool           `json:"si"`
	Layers [][][2]float64 `json:"layers"` // parts of a layer: share, R
	Want   struct {
		ParallelR   float64   `json:"parallel_r"`
		ParallelU   float64   `json:"parallel_u"`
		IsothermalR float64   `json:"isothermal_r"`
		IsothermalU float64   `json:"isothermal_u"`
		MeanR       float64   `json:"mean_r"`
		MeanU       float64   `json:"mean_u"`
		PathR       []float64 `json:"path_r"`
	} `json:"want"`
	Within float64 `json:"within"`
	Source string  `json:"source"`
	Note   string  `json:"note"`
}

type roofTable struct {
	Kind        string    `json:"kind"`
	SurfacesRSI float64   `json:"surfaces_rsi"`
	JoistShare  float64   `json:"joist_share"`
	JoistLambda float64   `json:"joist_lambda_w_mk"`
	JoistMM     float64   `json:"joist_mm"`
	Lambda      []float64 `json:"lambda_w_mk"`
	Rows        []struct {
		U  float64   `json:"u"`
		MM []float64 `json:"mm"`
	} `json:"rows"`
	WithinMM float64 `json:"within_mm"`
	Source   string  `json:"source"`
	Note     string  `json:"note"`
}

type squeeze struct {
	LabelR      float64 `json:"label_r"`
	LabelIn     float64 `json:"label_in"`
	InstalledIn float64 `json:"installed_in"`
	R           float64 `json:"r"`
	Source      string  `json:"source"`
}

type depthRow struct {
	DepthFt float64   `json:"depth_ft"`
	U       []float64 `json:"u"`
}

type groundData struct {
	SoilK  float64 `json:"soil_k"`
	OtherR float64 `json:"other_r"`
	Wall   struct {
		InsulationR []float64  `json:"insulation_r"`
		Rows        []depthRow `json:"rows"`
		Within      float64    `json:"within"`
		Source      string     `json:"source"`
	} `json:"wall"`
	FootByFoot struct {
		OtherR      float64   `json:"other_r"`
		InsulationR []float64 `json:"insulation_r"`
		Rows        []struct {
			FromFt float64   `json:"from_ft"`
			U      []float64 `json:"u"`
		} `json:"rows"`
		Within float64 `json:"within"`
		Source string  `json:"source"`
	} `json:"foot_by_foot"`
	SecondCode struct {
		DepthFt []float64 `json:"depth_ft"`
		Rows    []struct {
			InsulationR float64   `json:"insulation_r"`
			Side        string    `json:"side"`
			U           []float64 `json:"u"`
		} `json:"rows"`
		Within float64 `json:"within"`
		Source string  `json:"source"`
	} `json:"second_code"`
}

type voidData struct {
	VoidPct  []float64          `json:"void_pct"`
	GradePct map[string]float64 `json:"grade_pct"`
	Within   float64            `json:"within"`
	Source   string             `json:"source"`
	Rows     []struct {
		Where  string    `json:"where"`
		LabelR float64   `json:"label_r"`
		OtherR float64   `json:"other_r"`
		EmptyR float64   `json:"empty_r"`
		R      []float64 `json:"r"`
	} `json:"rows"`
	Examples []struct {
		Fill   float64 `json:"fill"`
		Empty  float64 `json:"empty"`
		Other  float64 `json:"other"`
		Share  float64 `json:"share"`
		R      float64 `json:"r"`
		Within float64 `json:"within"`
		Source string  `json:"source"`
	} `json:"examples"`
}

type published struct {
	About   string `json:"about"`
	Sources map[string]struct {
		Text string `json:"text"`
		Mark string `json:"mark"`
	} `json:"sources"`
	Assemblies  []assembly  `json:"assemblies"`
	Roofs       []roofTable `json:"roofs"`
	Compression struct {
		WithinR float64   `json:"within_r"`
		RmsR    float64   `json:"rms_r"`
		Note    string    `json:"note"`
		Rows    []squeeze `json:"rows"`
	} `json:"compression"`
	Ground      groundData `json:"ground"`
	Voids       voidData   `json:"voids"`
	Energy      energyData `json:"energy"`
	DegreeDays  dayData    `json:"degree_days"`
	TwoD        twoDData   `json:"two_d"`
	CeilingLoad struct {
		LabelR float64 `json:"label_r"`
		Source string  `json:"source"`
		Within float64 `json:"within"`
		Rows   []struct {
			Fiber  string  `json:"fiber"`
			RPerIn float64 `json:"r_per_in"`
			KgM3   float64 `json:"kg_m3"`
			LbFt2  float64 `json:"lb_ft2"`
		} `json:"rows"`
	} `json:"ceiling_load"`
}

var readPublished = sync.OnceValues(func() (*published, error) {
	raw, err := os.ReadFile("../../testdata/published/heat.json")
	if err != nil {
		return nil, err
	}
	d := json.NewDecoder(bytes.NewReader(raw))
	d.DisallowUnknownFields()
	var p published
	return &p, d.Decode(&p)
})

func figures(t testing.TB) *published {
	t.Helper()
	p, err := readPublished()
	require.NoError(t, err)
	return p
}

// source gives a failure message that says where the expected figure is from.
func (p *published) source(t testing.TB, id string) string {
	t.Helper()
	s, ok := p.Sources[id]
	require.True(t, ok, "no source %q", id)
	return s.Text + " (" + s.Mark + ")"
}

func TestEverySourceIsMarkedAndUsed(t *testing.T) {
	p := figures(t)
	raw, err := os.ReadFile("../../testdata/published/heat.json")
	require.NoError(t, err)
	for id, s := range p.Sources {
		require.NotEmpty(t, s.Text, id)
		require.Contains(t, []string{"read", "secondary", "memory", "computed"}, s.Mark, id)
		require.Contains(t, string(raw), `source": "`+id+`"`, "source %q is not used", id)
	}
}
