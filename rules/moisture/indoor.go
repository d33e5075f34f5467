package moisture

// Class is how much moisture a household adds to its air: the excess over
// outdoors in g/m3 while it is 0 C or colder outside. The three in use are
// upper edges of the humidity classes 1 to 3 of ISO 13788:2012 Annex A (chart
// read in a university course).
type Class float64

// Moisture classes of a house.
const (
	Dry   Class = 2
	Usual Class = 4
	Humid Class = 6
)

// Excess left at 20 C outside and above, and where the fall ends (same chart).
const (
	warmExcessGM3  = 1.0
	warmExcessAtC  = 20.0
	vaporGasJKgK   = 461.5
	zeroCelsiusK   = 273.15
	maxExcessGM3   = 20.0
	gPerKg         = 1000.0
	maxPa          = 1e5 // keeps pressures physical: saturation at MaxTempC is about 70 kPa
	lowestIndoorC  = -40.0
	highestIndoorC = 50.0
)

// excessGM3At is the moisture excess of the room over outdoors in g/m3:
// the class value at 0 C outside or colder, falling along a straight line to
// 1 at 20 C (or to the class value if that is lower) and level above.
// ErrTemperature, ErrHumidity for a class outside 0 to 20.
func excessGM3At(class Class, outC float64) (float64, error) {
	n := float64(class)
	if !within(n, 0, maxExcessGM3) {
		return 0, refuse(ErrHumidity, "excess g/m3", n)
	}
	if !within(outC, MinTempC, MaxTempC) {
		return 0, refuse(ErrTemperature, "C", outC)
	}
	warm := min(warmExcessGM3, n)
	share := min(max(outC/warmExcessAtC, 0), 1)
	return n - (n-warm)*share, nil
}

// excessPa is the vapor pressure in Pa of an excess in g/m3 in a room at
// roomC (ideal gas: 1 g/m3 is 135 Pa at 20 C).
func excessPa(excessGM3, roomC float64) float64 {
	return excessGM3 / gPerKg * vaporGasJKgK * (roomC + zeroCelsiusK)
}

// Indoor is how a house is kept. Humidities are shares, 0 to 1.
type Indoor struct {
	Class       Class
	HeatingC    float64 // kept while it is colder outside
	Cooled      bool    // has cooling
	CoolingC    float64 // kept while it is warmer than CoolAboveC outside
	CoolAboveC  float64
	MaxRHCooled float64 // ceiling while cooling runs: the cooling dries the air
	MaxRH       float64 // ceiling else
	DriedRH     float64 // ceiling from May to September, where a machine dries the air; 0: none does
}

// Dried is the same house while that machine runs.
func (in Indoor) Dried() Indoor {
	if in.DriedRH > 0 {
		in.MaxRH, in.MaxRHCooled = min(in.MaxRH, in.DriedRH), min(in.MaxRHCooled, in.DriedRH)
	}
	return in
}

// At gives the room in C and Pa while the outdoor air is on average like that.
// Neither heated nor cooled, the room follows outdoors when that is warmer.
// Pressure above the ceiling is taken down. ErrTemperature, ErrPressure,
// ErrHumidity.
func (in Indoor) At(outC, outPa float64) (tC, pa float64, err error) {
	if err := in.check(); err != nil {
		return 0, 0, err
	}
	if !within(outPa, 0, maxPa) {
		return 0, 0, refuse(ErrPressure, "Pa", outPa)
	}
	excess, err := excessGM3At(in.Class, outC)
	if err != nil {
		return 0, 0, err
	}
	t, ceiling := in.HeatingC, in.MaxRH
	switch {
	case in.Cooled && outC > in.CoolAboveC:
		t, ceiling = in.CoolingC, in.MaxRHCooled
	case outC > t:
		t = outC
	}
	pa = outPa + excessPa(excess, t)
	return t, min(pa, ceiling*satPa(t)), nil
}

func (in Indoor) check() error {
	for _, t := range [...]float64{in.HeatingC, in.CoolingC, in.CoolAboveC} {
		if !within(t, lowestIndoorC, highestIndoorC) {
			return refuse(ErrTemperature, "room C", t)
		}
	}
	for _, rh := range [...]float64{in.MaxRH, in.MaxRHCooled, in.DriedRH} {
		if !within(rh, 0, 1) {
			return refuse(ErrHumidity, "share", rh)
		}
	}
	return nil
}
