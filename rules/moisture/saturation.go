package moisture

import "math"

// Range in which the saturation formula is used. ISO 13788 states it for
// building temperatures; the wide limits only keep impossible input out.
const (
	MinTempC = -90.0
	MaxTempC = 90.0
)

// Coefficients of ISO 13788 Annex E (formula read in public implementation
// notes; the 2012 text from memory). Below 0 C the curve is that over ice.
const (
	satRefPa    = 610.5
	waterFactor = 17.269
	waterShiftC = 237.3
	iceFactor   = 21.875
	iceShiftC   = 265.5
)

// SaturationPa is the vapor pressure of saturated air in Pa at tC (-90 to
// 90 C), over ice below 0 C (ISO 13788:2012 Annex E). ErrTemperature outside.
func SaturationPa(tC float64) (float64, error) {
	if !within(tC, MinTempC, MaxTempC) {
		return 0, refuse(ErrTemperature, "C", tC)
	}
	return satPa(tC), nil
}

// satPa is SaturationPa for a temperature already checked.
func satPa(tC float64) float64 {
	if tC >= 0 {
		return satRefPa * math.Exp(waterFactor*tC/(waterShiftC+tC))
	}
	return satRefPa * math.Exp(iceFactor*tC/(iceShiftC+tC))
}
