package heat

// lbFt3PerKgM3 turns the density of a data sheet into pounds per cubic foot.
const lbFt3PerKgM3 = 0.0624279606

// CeilingLoad is the weight of a blanket on the ceiling under it in lb/ft2,
// from its depth in inches and its density in kg/m3, framing not counted.
// Error: ErrOutOfRange.
func CeilingLoad(depthIn, densityKgM3 float64) (float64, error) {
	if err := amounts(named{"depth", depthIn}, named{"density", densityKgM3}); err != nil {
		return 0, err
	}
	return depthIn / 12 * densityKgM3 * lbFt3PerKgM3, nil
}
