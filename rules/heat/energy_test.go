package heat

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

type energyData struct {
	Season struct {
		UA         float64 `json:"ua"`
		HDD        float64 `json:"hdd"`
		Efficiency float64 `json:"efficiency"`
		PerGallon  float64 `json:"btu_per_gallon"`
		SeasonBtu  float64 `json:"season_btu"`
		UsableBtu  float64 `json:"usable_btu_per_gallon"`
		Gallons    float64 `json:"gallons"`
		Source     string  `json:"source"`
	} `json:"season"`
	Payback struct {
		UsdFt2      float64 `json:"usd_ft2"`
		RBefore     float64 `json:"r_before"`
		RAfter      float64 `json:"r_after"`
		Efficiency  float64 `json:"efficiency"`
		UsdPerTherm float64 `json:"usd_per_therm"`
		HDD         float64 `json:"hdd"`
		Years       float64 `json:"years"`
		Within      float64 `json:"within"`
		Source      string  `json:"source"`
	} `json:"payback"`
	Saving struct {
		AreaFt2    float64 `json:"area_ft2"`
		UBefore    float64 `json:"u_before"`
		UAfter     float64 `json:"u_after"`
		HDD        float64 `json:"hdd"`
		Efficiency float64 `json:"efficiency"`
		Therms     float64 `json:"therms"`
		Source     string  `json:"source"`
	} `json:"saving"`
	HeatContent struct {
		Electric float64 `json:"electric"`
		Oil      float64 `json:"oil"`
		Propane  float64 `json:"propane"`
		Kerosene float64 `json:"kerosene"`
		Source   string  `json:"source"`
	} `json:"heat_content_btu"`
}

func fuel(t testing.TB, id string) Fuel {
	t.Helper()
	f, ok := FuelByID(id)
	require.True(t, ok, id)
	return f
}

func TestSeasonOfOil(t *testing.T) {
	p := figures(t)
	s := p.Energy.Season
	btu, err := DegreeDayLoss(s.UA, s.HDD, 1)
	require.NoError(t, err)
	require.InDelta(t, s.SeasonBtu, btu, 1e-6, p.source(t, s.Source))
	oil := fuel(t, "oil")
	require.Equal(t, s.PerGallon, oil.Btu)
	require.InDelta(t, s.UsableBtu, oil.Btu*s.Efficiency, 0.5)
	gallons, err := FuelUnits(btu, oil, s.Efficiency)
	require.NoError(t, err)
	require.InDelta(t, s.Gallons, gallons, 0.06)

	part, err := DegreeDayLoss(s.UA, s.HDD, 0.65)
	require.NoError(t, err)
	require.InEpsilon(t, 0.65*s.SeasonBtu, part, 1e-12)
}

func TestPaybackExample(t *testing.T) {
	p := figures(t)
	e := p.Energy.Payback
	saved, err := DegreeDayLoss(1/e.RBefore-1/e.RAfter, e.HDD, 1)
	require.NoError(t, err)
	usd, err := FuelCost(saved, fuel(t, "gas"), e.Efficiency, e.UsdPerTherm)
	require.NoError(t, err)
	require.InDelta(t, e.Years, e.UsdFt2/usd, e.Within, p.source(t, e.Source))
}

func TestSavingExample(t *testing.T) {
	p := figures(t)
	e := p.Energy.Saving
	btu, err := DegreeDayLoss(e.AreaFt2*(e.UBefore-e.UAfter), e.HDD, 1)
	require.NoError(t, err)
	therms, err := FuelUnits(btu, fuel(t, "gas"), e.Efficiency)
	require.NoError(t, err)
	require.InDelta(t, e.Therms, therms, 1e-9, p.source(t, e.Source))
}

func TestHeatContents(t *testing.T) {
	p := figures(t)
	h := p.Energy.HeatContent
	for id, want := range map[string]float64{
		"electric": h.Electric, "heat-pump": h.Electric, "oil": h.Oil, "propane": h.Propane, "kerosene": h.Kerosene,
	} {
		require.Equal(t, want, fuel(t, id).Btu, "%s: %s", id, p.source(t, h.Source))
	}
	_, ok := FuelByID("coal")
	require.False(t, ok)
}

// A heat pump of 3 gives the same heat for a third of the current.
func TestEfficiencyAboveOne(t *testing.T) {
	plain, err := FuelCost(1e7, fuel(t, "electric"), 1, 0.17)
	require.NoError(t, err)
	pump, err := FuelCost(1e7, fuel(t, "heat-pump"), 3, 0.17)
	require.NoError(t, err)
	require.InEpsilon(t, plain/3, pump, 1e-12)
}

func TestEnergyRefuses(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1} {
		for name, call := range map[string]func() (float64, error){
			"loss UA":     func() (float64, error) { return DegreeDayLoss(bad, 5000, 1) },
			"loss days":   func() (float64, error) { return DegreeDayLoss(1, bad, 1) },
			"loss factor": func() (float64, error) { return DegreeDayLoss(1, 1, bad) },
			"content":     func() (float64, error) { return FuelUnits(1, Fuel{Btu: bad}, 1) },
			"efficiency":  func() (float64, error) { return FuelUnits(1, Fuel{Btu: 1}, bad) },
			"price":       func() (float64, error) { return FuelCost(1, Fuel{Btu: 1}, 1, bad) },
		} {
			_, err := call()
			require.ErrorIs(t, err, ErrOutOfRange, "%s %v", name, bad)
		}
	}
	_, err := FuelUnits(math.NaN(), Fuel{Btu: 1}, 1)
	require.ErrorIs(t, err, ErrOutOfRange)
}
