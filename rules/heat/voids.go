package heat

import (
	"fmt"
	"math"
)

// Grade is how well a blanket was installed, by the voids left through its
// whole depth.
type Grade int

// The grades of US home energy rating, best first, then work too poor for any.
const (
	GradeI Grade = 1 + iota
	GradeII
	GradeIII
	Ungraded
)

// VoidShare is the share of the insulated area (0 to 1) a grade is modelled
// as leaving empty: none, 2 % and 5 %; work below grade III counts as no
// insulation at all. An unknown grade is Ungraded.
func (g Grade) VoidShare() float64 {
	switch g {
	case GradeI:
		return 0
	case GradeII:
		return 0.02
	case GradeIII:
		return 0.05
	}
	return 1
}

// WithVoids is the R a blanket is really worth when voidShare of its area (0
// to 1) stayed empty. cavityR is the blanket, otherR all other layers and
// films of the surface together, emptyR the cavity where nothing was put. Two
// paths side by side, then the other layers taken off again:
//
//	U = (1-p)/(cavityR+otherR) + p/(emptyR+otherR);  R = 1/U - otherR
//
// Sideways flow into a narrow slot is left out, so a real slit takes less than
// this. An empty cavity is never taken as better than the blanket.
//
// Errors: ErrOutOfRange, ErrShares, ErrNoResistance when the void path has no
// R at all.
func WithVoids(cavityR, otherR, emptyCavityR, voidShare float64) (float64, error) {
	err := amounts(named{"cavity R", cavityR}, named{"other R", otherR}, named{"empty cavity R", emptyCavityR})
	if err != nil {
		return 0, err
	}
	if !(voidShare >= 0 && voidShare <= 1) {
		return 0, fmt.Errorf("%w: void share is %v", ErrShares, voidShare)
	}
	empty := emptyR(cavityR, emptyCavityR)
	if voidShare == 0 || empty == cavityR {
		return cavityR, nil
	}
	if empty+otherR < leastR {
		return 0, fmt.Errorf("%w: neither the void nor the other layers have any", ErrNoResistance)
	}
	u := (1-voidShare)/(cavityR+otherR) + voidShare/(empty+otherR)
	return math.Min(math.Max(1/u-otherR, empty), cavityR), nil
}
