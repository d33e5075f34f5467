package heat

const hoursPerDay = 24

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
// for the heat of sun, people and appliances. For a surface against soil give
// the degree days of the soil.
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
