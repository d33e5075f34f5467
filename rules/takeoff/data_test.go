package takeoff

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
)

// published is testdata/published/takeoff.json; each row there carries its
// source and whether the figure was read, computed or remembered.
type published struct {
	Sources map[string]string `json:"sources"`
	Bays    []struct {
		LengthIn float64   `json:"length_in"`
		ClearIn  []float64 `json:"clear_in"`
		From
	} `json:"bays"`
	NetArea struct {
		LengthFt    float64      `json:"length_ft"`
		HeightFt    float64      `json:"height_ft"`
		Openings    [][2]float64 `json:"openings_ft"`
		GrossFt2    float64      `json:"gross_ft2"`
		OpeningsFt2 float64      `json:"openings_ft2"`
		NetFt2      float64      `json:"net_ft2"`
		From
	} `json:"net_area"`
	Rolls struct {
		WallFt    float64 `json:"wall_ft"`
		HeightFt  float64 `json:"height_ft"`
		SpacingIn float64 `json:"spacing_in"`
		RollIn    float64 `json:"roll_width_in"`
		RollFt    float64 `json:"roll_ft"`
		Rolls     int     `json:"rolls"`
		LinearFt  float64 `json:"linear_ft"`
		ByBay     float64 `json:"by_bay"`
		From
	} `json:"rolls"`
	Loft struct {
		LengthCm       float64    `json:"length_cm"`
		RunCm          float64    `json:"run_cm"`
		Joists         int        `json:"joists"`
		JoistCm        float64    `json:"joist_cm"`
		RollCm         [2]float64 `json:"roll_cm"`
		PublishedRolls int        `json:"published_rolls"`
		StrictRolls    int        `json:"strict_rolls"`
		Price          int        `json:"price"`
		Gear           int        `json:"gear"`
		Insulation     int        `json:"insulation"`
		Total          int        `json:"total"`
		Pays           int        `json:"set_pays"`
		Gets           int        `json:"set_gets"`
		From
	} `json:"loft"`
	Gable struct {
		WallFt   float64 `json:"wall_ft"`
		HeightFt float64 `json:"height_ft"`
		GableFt2 float64 `json:"gable_ft2"`
		WallFt2  float64 `json:"wall_ft2"`
		TotalFt2 float64 `json:"total_ft2"`
		SheetFt2 float64 `json:"sheet_ft2"`
		Sheets   int     `json:"sheets"`
		From
	} `json:"gable"`
	Module []struct {
		SpacingIn float64 `json:"spacing_in"`
		Ft2PerFt  float64 `json:"ft2_per_ft"`
		Tolerance float64 `json:"tolerance"`
		From
	} `json:"module"`
	ThreeWays struct {
		GrossFt2     float64    `json:"gross_ft2"`
		NetFt2       float64    `json:"net_ft2"`
		SpacingIn    float64    `json:"spacing_in"`
		BayFt        float64    `json:"bay_ft"`
		BattIn       [2]float64 `json:"batt_in"`
		ClearShare   float64    `json:"clear_share"`
		GrossModule  int        `json:"gross_module"`
		NetModule    int        `json:"net_module"`
		NetShare     int        `json:"net_share"`
		NetSpare     int        `json:"net_module_spare"`
		Spare        float64    `json:"spare"`
		WallHeightIn float64    `json:"wall_height_in"`
		StudHeightIn float64    `json:"stud_height_in"`
		From
	} `json:"three_ways"`
	Coverage []struct {
		BattIn     [2]float64 `json:"batt_in"`
		Pieces     int        `json:"pieces"`
		ModuleIn   float64    `json:"module_in"`
		BlanketFt2 float64    `json:"blanket_ft2"`
		ModuleFt2  float64    `json:"module_ft2"`
		From
	} `json:"coverage"`
	TradeWidths struct {
		BattIn     []float64    `json:"batt_in"`
		ForSpacing [][2]float64 `json:"for_spacing"`
		From
	} `json:"trade_widths"`
	Cutting []instance `json:"cutting"`
}

// From is where a row is from.
type From struct {
	Source string `json:"source"`
	Mark   string `json:"mark"`
}

type instance struct {
	ID      string       `json:"id"`
	StockIn float64      `json:"stock"`
	Pieces  [][2]float64 `json:"pieces"`
	Optimum int          `json:"optimum"`
	LP      float64      `json:"lp"`
	L1      int          `json:"l1"`
	L2      int          `json:"l2"`
	FFD     int          `json:"ffd"`
	From
}

func (c instance) demand() []Demand {
	var d []Demand
	for _, p := range c.Pieces {
		d = append(d, Demand{p[0], int(p[1])})
	}
	return d
}

func load(t testing.TB) published {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/published/takeoff.json")
	require.NoError(t, err)
	var p published
	require.NoError(t, json.Unmarshal(raw, &p))
	return p
}

// name describes a row in a failure: source text and mark.
func (p published) name(t *testing.T, f From) string {
	t.Helper()
	require.NotEmpty(t, p.Sources[f.Source], f.Source)
	require.NotEmpty(t, f.Mark)
	return p.Sources[f.Source] + " (" + f.Mark + ")"
}
