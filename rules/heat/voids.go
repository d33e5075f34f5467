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

// Voided is a layer that stands empty, front to back, in a share of its area.
type Voided struct {
	Full, Empty Layer
	Share       float64 // of the area, 0 to 1, where it is Empty
}

// Whole is a layer without voids.
func Whole(l Layer) Voided { return Voided{Full: l} }

// Voided parts the cavity into what is filled and what stayed empty, each with
// its share of wood.
func (c Cavity) Voided() Voided {
	return Voided{
		Full:  Framed(c.FillR, c.WoodR, c.WoodShare),
		Empty: Framed(emptyR(c.FillR, c.EmptyR), c.WoodR, c.WoodShare),
		Share: c.VoidShare,
	}
}

// BoundsBeside is BoundsOf with voids: where a layer is empty the heat goes
// through a path of its own, beside the rest, as WithVoids has it. The two
// bounds and their mean are for the wood alone: ISO 6946 does not hold for the
// mean where they lie further apart than 1.5 to 1, and a void of R-1 beside
// R-49 puts them there. Voids of several layers meet by chance.
//
// Errors: those of BoundsOf, and ErrTooManyPaths beyond a dozen layers with
// voids.
func BoundsBeside(layers []Voided) (Bounds, error) {
	var u Bounds
	const mostVoided = 12
	n, as := 0, make([]Layer, len(layers))
	for i, l := range layers {
		if !(l.Share >= 0 && l.Share <= 1) {
			return Bounds{}, fmt.Errorf("layer %d: %w: void share is %v", i+1, ErrShares, l.Share)
		}
		if l.Share > 0 {
			n++
		}
	}
	if n > mostVoided {
		return Bounds{}, fmt.Errorf("%w: %d layers with voids", ErrTooManyPaths, n)
	}
	if err := addBeside(layers, as, 0, 1, &u); err != nil {
		return Bounds{}, err
	}
	return Bounds{Isothermal: 1 / u.Isothermal, Mean: 1 / u.Mean, Parallel: 1 / u.Parallel}, nil
}

// addBeside adds the transmittance of every way the layers from i on can be
// full or empty, in proportion to its area.
func addBeside(layers []Voided, as []Layer, i int, share float64, u *Bounds) error {
	if share == 0 {
		return nil
	}
	if i == len(layers) {
		b, err := BoundsOf(as)
		if err != nil {
			return err
		}
		u.Isothermal += share / b.Isothermal
		u.Mean += share / b.Mean
		u.Parallel += share / b.Parallel
		return nil
	}
	as[i] = layers[i].Full
	if err := addBeside(layers, as, i+1, share*(1-layers[i].Share), u); err != nil {
		return err
	}
	if layers[i].Share == 0 {
		return nil
	}
	as[i] = layers[i].Empty
	return addBeside(layers, as, i+1, share*layers[i].Share, u)
}
