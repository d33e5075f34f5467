package heat

import "fmt"

const (
	// StillAirK is the conductivity of still air at 75 F in
	// Btu.in/(h.ft2.F): the part of a blanket's conduction that squeezing
	// cannot change.
	StillAirK = 0.1765

	// MaxSqueeze is the greatest label thickness per installed thickness that
	// CompressedR answers for. Beyond it the curve has no data to stand on,
	// and none at all exists for cotton or wool at any squeeze.
	MaxSqueeze = 1.8
)

// CompressedR gives the R of a blanket pressed from its label thickness into
// installedIn inches.
//
// The blanket keeps its mass, so x = labelIn/installedIn is also how much
// denser it gets. Conductivity k(x) = a + c/x, in Btu.in/(h.ft2.F): a is still
// air, c the radiation between fibers, found from the label itself since
// k(1) = labelIn/nominalR. The form is the usual one for light fiber blankets
// (still air + radiation falling with density; solid conduction left out); it
// is an estimate for cotton and wool, for which no published data was found.
//
// A space as deep as the label or deeper gives nominalR: lofting a blanket
// beyond its label promises nothing. Inches throughout.
//
// Errors: ErrOutOfRange, ErrNoRoom when installedIn is 0, ErrLabel when the
// label beats still air, ErrTooSqueezed beyond MaxSqueeze.
func CompressedR(nominalR, labelIn, installedIn float64) (float64, error) {
	err := positive(named{"nominal R", nominalR}, named{"label thickness", labelIn})
	if err != nil {
		return 0, err
	}
	if err := amounts(named{"installed thickness", installedIn}); err != nil {
		return 0, err
	}
	if labelIn/nominalR <= StillAirK {
		return 0, fmt.Errorf("%w: R-%v in %v in", ErrLabel, nominalR, labelIn)
	}
	if installedIn == 0 {
		return 0, fmt.Errorf("%w: installed thickness is 0", ErrNoRoom)
	}
	if installedIn >= labelIn {
		return nominalR, nil
	}
	if x := labelIn / installedIn; x > MaxSqueeze {
		return 0, fmt.Errorf("%w: %v in into %v in is %.2f times, at most %v", ErrTooSqueezed, labelIn, installedIn, x, MaxSqueeze)
	}
	return squeezedR(nominalR, labelIn, installedIn), nil
}

// squeezedR is the curve itself, for checked input and installedIn < labelIn.
func squeezedR(nominalR, labelIn, installedIn float64) float64 {
	c := labelIn/nominalR - StillAirK
	k := StillAirK + c*installedIn/labelIn
	return installedIn / k
}
