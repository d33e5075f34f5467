package heat

import "fmt"

// Part is one of the side-by-side pieces of a layer: the share of the area it
// takes (0 to 1) and its R.
type Part struct{ Share, R float64 }

// Layer is one layer of an assembly, its parts side by side. A layer of one
// part is homogeneous; several parts make it bridged. Shares add up to 1.
type Layer []Part

// Plain is a layer, or a surface film, of the same R everywhere.
func Plain(r float64) Layer { return Layer{{Share: 1, R: r}} }

// Framed is a layer of fill between wood that takes woodShare of the area.
func Framed(fillR, woodR, woodShare float64) Layer {
	return Layer{{Share: 1 - woodShare, R: fillR}, {Share: woodShare, R: woodR}}
}

// Cavity is a framed layer whose fill is not perfect: VoidShare of the space
// between the wood stayed empty, front to back.
type Cavity struct {
	FillR     float64 // the blanket as it stands in the cavity
	WoodR     float64 // the framing, full depth
	WoodShare float64 // share of the whole area, 0 to 1
	EmptyR    float64 // the cavity where nothing was put
	VoidShare float64 // share of the space between the wood, 0 to 1
}

// emptyR keeps a hole from being worth more than the blanket around it: a
// blanket thinner than an air space would otherwise gain by being left out.
func emptyR(fillR, voidR float64) float64 {
	if voidR > fillR {
		return fillR
	}
	return voidR
}

// check finds what cannot be in a layer.
func (l Layer) check() error {
	sum := 0.0
	for _, p := range l {
		if err := amounts(named{"R", p.R}); err != nil {
			return err
		}
		if !(p.Share >= 0 && p.Share <= 1) {
			return fmt.Errorf("%w: one is %v", ErrShares, p.Share)
		}
		sum += p.Share
	}
	return whole(sum)
}

// isothermalR takes the layer as if heat spread sideways freely inside it:
// its parts are resistors side by side. One part without any R shorts it.
func (l Layer) isothermalR() float64 {
	if len(l) == 1 {
		return l[0].R
	}
	u := 0.0
	for _, p := range l {
		if p.Share == 0 {
			continue
		}
		if p.R == 0 {
			return 0
		}
		u += p.Share / p.R
	}
	return 1 / u
}
