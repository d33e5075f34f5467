package heat

import "fmt"

// lbFt3PerKgM3 turns the density of a data sheet into pounds per cubic foot.
const lbFt3PerKgM3 = 0.0624279606

// CrossedAttic lists the layers of an attic floor with a second blanket laid
// across the joists: what is below (film and board), the bottom layer between
// the joists, the top layer without a break, what is above. Seams of the top
// layer lie over solid blanket, so voids count in the bottom layer only.
func CrossedAttic(belowR float64, bottom Cavity, topR, aboveR float64) []Layer {
	return []Layer{Plain(belowR), bottom.Layer(), Plain(topR), Plain(aboveR)}
}

// UncrossedAttic lists the paths of an attic floor whose two blankets run the
// same way, as between truss webs. Their seams lie over each other, so a void
// goes through both: the larger void share of the two counts for the full
// depth. Wood shares are those of the bottom layer; top.WoodR is what stands
// over the wood there (web, or blanket closed over the chord).
//
// This is the pessimistic reading. If the seams are known to be staggered,
// give both Cavity.Layer to BoundsOf instead.
func UncrossedAttic(belowR float64, bottom, top Cavity, aboveR float64) []Path {
	voidShare := max(bottom.VoidShare, top.VoidShare)
	open := 1 - bottom.WoodShare
	return []Path{
		{open * (1 - voidShare), []float64{belowR, bottom.FillR, top.FillR, aboveR}},
		{open * voidShare, []float64{belowR, emptyR(bottom.FillR, bottom.EmptyR), emptyR(top.FillR, top.EmptyR), aboveR}},
		{bottom.WoodShare, []float64{belowR, bottom.WoodR, top.WoodR, aboveR}},
	}
}

// StripR is the R of an attic blanket at the eave, over the outer wall, where
// the roof leaves heelIn inches less the airway that must stay open above it.
// The blanket is squeezed into what is left, as by CompressedR; with a high
// enough heel it keeps its full R.
//
// Errors: those of CompressedR; ErrNoRoom when the airway takes the whole
// heel. On ErrTooSqueezed lay a thinner blanket over the strip, such as the
// bottom layer alone.
func StripR(nominalR, labelIn, heelIn, airwayIn float64) (float64, error) {
	if err := amounts(named{"heel", heelIn}, named{"airway", airwayIn}); err != nil {
		return 0, err
	}
	if heelIn <= airwayIn {
		return 0, fmt.Errorf("%w: %v in heel, %v in airway", ErrNoRoom, heelIn, airwayIn)
	}
	return CompressedR(nominalR, labelIn, heelIn-airwayIn)
}

// CeilingLoad is the weight of a blanket on the ceiling under it in lb/ft2,
// from its depth in inches and its density in kg/m3, framing not counted.
// Error: ErrOutOfRange.
func CeilingLoad(depthIn, densityKgM3 float64) (float64, error) {
	if err := amounts(named{"depth", depthIn}, named{"density", densityKgM3}); err != nil {
		return 0, err
	}
	return depthIn / 12 * densityKgM3 * lbFt3PerKgM3, nil
}
