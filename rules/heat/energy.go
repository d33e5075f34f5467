package heat

const (
	// LossFactorLow and LossFactorHigh are the ends of the range a degree-day
	// loss is shown as: sun, people and appliances heat a house as well, so a
	// tight house burns less than the plain sum (factor 1).
	LossFactorLow  = 0.65
	LossFactorHigh = 1.0

	hoursPerDay = 24
)

// Fuel is what a heater burns or draws: its sale unit and the heat in one, Btu.
type Fuel struct {
	ID      string
	PerUnit string
	Btu     float64
}

// fuels: 16 CFR 305 appendix K for kWh, oil, propane and kerosene; a therm is
// 100,000 Btu by definition; 20 million for a cord of wood is a round figure
// of the US energy statistics, the species decides.
var fuels = [...]Fuel{
	{"gas", "therm", 100_000},
	{"electric", "kWh", 3_412},
	{"heat-pump", "kWh", 3_412},
	{"oil", "gallon", 138_690},
	{"propane", "gallon", 91_333},
	{"kerosene", "gallon", 135_000},
	{"wood", "cord", 20_000_000},
}

// FuelByID finds a fuel: gas, electric, heat-pump, oil, propane, kerosene or
// wood. A heat pump draws electricity; its efficiency is above 1.
func FuelByID(id string) (Fuel, bool) {
	for _, f := range fuels {
		if f.ID == id {
			return f, true
		}
	}
	return Fuel{}, false
}

// DegreeDayLoss is the heat lost in a year in Btu through ua, Btu/(h.F), at
// hdd heating degree days (F-days): 24 ua hdd factor. factor (0 to 1) allows
// for free heat; show the range from LossFactorLow to LossFactorHigh. For a
// surface against soil give the degree days of the soil.
// Error: ErrOutOfRange.
func DegreeDayLoss(ua, hdd, factor float64) (float64, error) {
	if err := amounts(named{"UA", ua}, named{"degree days", hdd}); err != nil {
		return 0, err
	}
	if err := within("loss factor", factor, 0, 1); err != nil {
		return 0, err
	}
	return hoursPerDay * ua * hdd * factor, nil
}

// Saving is the heat saved in a year in Btu by bringing areaFt2 from uBefore
// to uAfter; negative when it got worse. Error: ErrOutOfRange.
func Saving(areaFt2, uBefore, uAfter, hdd, factor float64) (float64, error) {
	if err := amounts(named{"area", areaFt2}, named{"U before", uBefore}, named{"U after", uAfter}); err != nil {
		return 0, err
	}
	perUA, err := DegreeDayLoss(1, hdd, factor)
	return areaFt2 * (uBefore - uAfter) * perUA, err
}

// FuelUnits is how many units of fuel (therms, gallons, kWh) a heater of that
// efficiency (0.05 to 10, above 1 for a heat pump) uses to give loadBtu.
// Errors: ErrOutOfRange.
func FuelUnits(loadBtu float64, fuel Fuel, efficiency float64) (float64, error) {
	if err := within("heat load", loadBtu, -limit*limit, limit*limit); err != nil {
		return 0, err
	}
	if err := positive(named{"heat content", fuel.Btu}); err != nil {
		return 0, err
	}
	if err := within("efficiency", efficiency, 0.05, 10); err != nil {
		return 0, err
	}
	return loadBtu / (fuel.Btu * efficiency), nil
}

// FuelCost is FuelUnits times the price of one unit in dollars. It is a figure
// for ratios; round to cents only what is shown. Error: ErrOutOfRange.
func FuelCost(loadBtu float64, fuel Fuel, efficiency, usdPerUnit float64) (float64, error) {
	if err := amounts(named{"price", usdPerUnit}); err != nil {
		return 0, err
	}
	n, err := FuelUnits(loadBtu, fuel, efficiency)
	return n * usdPerUnit, err
}

// CoolingKWh is the electricity a year of cooling takes: 24 ua cdd / (1000
// seer), ua in Btu/(h.F), cdd in F-days, seer in Btu per watt-hour (1 to 100).
// Sun through the surface is not in it. Error: ErrOutOfRange.
func CoolingKWh(ua, cdd, seer float64) (float64, error) {
	if err := within("cooling efficiency", seer, 1, 100); err != nil {
		return 0, err
	}
	btu, err := DegreeDayLoss(ua, cdd, 1)
	return btu / (1000 * seer), err
}
