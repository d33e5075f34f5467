package moisture

import "math"

// WetLambda is the thermal conductivity, in the unit of dryLambda, of a layer
// thicknessM thick that holds waterKgM2 of water:
// lambda exp(fPsi psi) with psi the volume share of water (ISO 10456, read in
// a university script). fPsi is about 4 for mineral fiber (from memory).
// ErrLayer for a thickness or conductivity that is not above 0, for negative
// water or factor, and for more water than the layer has room for.
func WetLambda(dryLambda, waterKgM2, thicknessM, fPsi float64) (float64, error) {
	const waterKgM3 = 1000.0
	if !within(dryLambda, 1e-4, 1e3) {
		return 0, refuse(ErrLayer, "conductivity", dryLambda)
	}
	if !within(thicknessM, 1e-6, 100) {
		return 0, refuse(ErrLayer, "thickness m", thicknessM)
	}
	if !within(waterKgM2, 0, waterKgM3*thicknessM) {
		return 0, refuse(ErrLayer, "water kg/m2", waterKgM2)
	}
	if !within(fPsi, 0, 100) {
		return 0, refuse(ErrLayer, "moisture factor", fPsi)
	}
	return dryLambda * math.Exp(fPsi*waterKgM2/(waterKgM3*thicknessM)), nil
}
