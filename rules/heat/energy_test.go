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
	PresentWorth struct {
		Years []float64 `json:"years"`
		Rows  []struct {
			Rate   float64   `json:"rate"`
			Factor []float64 `json:"factor"`
		} `json:"rows"`
		Within float64 `json:"within"`
		Source string  `json:"source"`
	} `json:"present_worth"`
	Growing []struct {
		Rate   float64 `json:"rate"`
		Growth float64 `json:"growth"`
		Years  float64 `json:"years"`
		Factor float64 `json:"factor"`
	} `json:"growing"`
	Case struct {
		Cost       float64 `json:"cost"`
		Saved      float64 `json:"saved"`
		Years      float64 `json:"years"`
		Rate       float64 `json:"rate"`
		Present    float64 `json:"present"`
		Simple     float64 `json:"simple"`
		Discounted float64 `json:"discounted"`
		Source     string  `json:"source"`
	} `json:"case"`
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
	btu, err := DegreeDayLoss(s.UA, s.HDD, LossFactorHigh)
	require.NoError(t, err)
	require.InDelta(t, s.SeasonBtu, btu, 1e-6, p.source(t, s.Source))
	oil := fuel(t, "oil")
	require.Equal(t, s.PerGallon, oil.Btu)
	require.InDelta(t, s.UsableBtu, oil.Btu*s.Efficiency, 0.5)
	gallons, err := FuelUnits(btu, oil, s.Efficiency)
	require.NoError(t, err)
	require.InDelta(t, s.Gallons, gallons, 0.06)

	low, err := DegreeDayLoss(s.UA, s.HDD, LossFactorLow)
	require.NoError(t, err)
	require.InEpsilon(t, 0.65*s.SeasonBtu, low, 1e-12)
}

func TestPaybackExample(t *testing.T) {
	p := figures(t)
	e := p.Energy.Payback
	saved, err := Saving(1, 1/e.RBefore, 1/e.RAfter, e.HDD, 1)
	require.NoError(t, err)
	usd, err := FuelCost(saved, fuel(t, "gas"), e.Efficiency, e.UsdPerTherm)
	require.NoError(t, err)
	years, err := SimplePayback(e.UsdFt2, usd)
	require.NoError(t, err)
	require.InDelta(t, e.Years, years, e.Within, p.source(t, e.Source))
}

func TestSavingExample(t *testing.T) {
	p := figures(t)
	e := p.Energy.Saving
	btu, err := Saving(e.AreaFt2, e.UBefore, e.UAfter, e.HDD, 1)
	require.NoError(t, err)
	therms, err := FuelUnits(btu, fuel(t, "gas"), e.Efficiency)
	require.NoError(t, err)
	require.InDelta(t, e.Therms, therms, 1e-9, p.source(t, e.Source))
	worse, err := Saving(e.AreaFt2, e.UAfter, e.UBefore, e.HDD, 1)
	require.NoError(t, err)
	require.Equal(t, -btu, worse)
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

// 24 h at 100 Btu/(h.F) and 1,000 F-days is 2.4 million Btu; at 12 Btu/Wh that
// is 200 kWh.
func TestCoolingByHand(t *testing.T) {
	kWh, err := CoolingKWh(100, 1000, 12)
	require.NoError(t, err)
	require.InDelta(t, 200, kWh, 1e-9)
	_, err = CoolingKWh(100, 1000, 0)
	require.ErrorIs(t, err, ErrOutOfRange)
}

func TestPresentWorthTable(t *testing.T) {
	p := figures(t)
	w := p.Energy.PresentWorth
	for _, row := range w.Rows {
		for i, want := range row.Factor {
			f, err := PresentWorth(row.Rate, w.Years[i])
			require.NoError(t, err)
			require.InDelta(t, want, f, w.Within, "%v, %v years: %s", row.Rate, w.Years[i], p.source(t, w.Source))
			sum := 0.0
			for n := 1.0; n <= w.Years[i]; n++ {
				one, err := SinglePresentWorth(row.Rate, n)
				require.NoError(t, err)
				sum += one
			}
			require.InEpsilon(t, sum, f, 1e-12)
		}
	}
	for _, g := range p.Energy.Growing {
		f, err := GrowingPresentWorth(g.Rate, g.Growth, g.Years)
		require.NoError(t, err)
		require.InDelta(t, g.Factor, f, w.Within)
	}
}

func TestEqualRatesCountYears(t *testing.T) {
	for _, rate := range []float64{0, 0.03, -0.02} {
		f, err := GrowingPresentWorth(rate, rate, 20)
		require.NoError(t, err)
		require.Equal(t, 20.0, f)
		near, err := GrowingPresentWorth(rate, rate+1e-13, 20)
		require.NoError(t, err)
		require.InEpsilon(t, 20, near, 1e-9, "no cancellation next to it")
	}
}

func TestWorthCase(t *testing.T) {
	p := figures(t)
	c := p.Energy.Case
	f, err := PresentWorth(c.Rate, c.Years)
	require.NoError(t, err)
	require.InDelta(t, c.Present, f*c.Saved, 0.006, p.source(t, c.Source))
	simple, err := SimplePayback(c.Cost, c.Saved)
	require.NoError(t, err)
	require.InDelta(t, c.Simple, simple, 1e-12)
	discounted, err := DiscountedPayback(c.Cost, c.Saved, c.Rate)
	require.NoError(t, err)
	require.InDelta(t, c.Discounted, discounted, 0.006)
	back, err := PresentWorth(c.Rate, discounted)
	require.NoError(t, err)
	require.InEpsilon(t, c.Cost, back*c.Saved, 1e-12)
	plain, err := DiscountedPayback(c.Cost, c.Saved, 0)
	require.NoError(t, err)
	require.Equal(t, simple, plain)
}

func TestNeverPaysBack(t *testing.T) {
	for _, saved := range []float64{0, -5} {
		_, err := SimplePayback(100, saved)
		require.ErrorIs(t, err, ErrNoSaving)
	}
	_, err := DiscountedPayback(1000, 25, 0.03) // 30 $ of interest a year
	require.ErrorIs(t, err, ErrNoSaving)
	free, err := SimplePayback(0, -5)
	require.NoError(t, err)
	require.Zero(t, free)
}

func TestEnergyRefuses(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e300, -1} {
		for name, call := range map[string]func() (float64, error){
			"loss UA":     func() (float64, error) { return DegreeDayLoss(bad, 5000, 1) },
			"loss days":   func() (float64, error) { return DegreeDayLoss(1, bad, 1) },
			"loss factor": func() (float64, error) { return DegreeDayLoss(1, 1, bad) },
			"area":        func() (float64, error) { return Saving(bad, 1, 1, 1, 1) },
			"U":           func() (float64, error) { return Saving(1, 1, bad, 1, 1) },
			"content":     func() (float64, error) { return FuelUnits(1, Fuel{Btu: bad}, 1) },
			"efficiency":  func() (float64, error) { return FuelUnits(1, Fuel{Btu: 1}, bad) },
			"price":       func() (float64, error) { return FuelCost(1, Fuel{Btu: 1}, 1, bad) },
			"cost":        func() (float64, error) { return SimplePayback(bad, 1) },
			"rate":        func() (float64, error) { return PresentWorth(bad, 1) },
			"years":       func() (float64, error) { return SinglePresentWorth(0.03, bad) },
			"growth":      func() (float64, error) { return GrowingPresentWorth(0.03, bad, 1) },
			"rate back":   func() (float64, error) { return DiscountedPayback(1, 1, bad) },
		} {
			_, err := call()
			require.ErrorIs(t, err, ErrOutOfRange, "%s %v", name, bad)
		}
	}
	_, err := FuelUnits(math.NaN(), Fuel{Btu: 1}, 1)
	require.ErrorIs(t, err, ErrOutOfRange)
	_, err = SimplePayback(1, math.NaN())
	require.ErrorIs(t, err, ErrOutOfRange)
}
