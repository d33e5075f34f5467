package wetting

import "battwright/rules/moisture"

// The saturation pressure is looked up in steps of quarterC; a straight piece
// is off by at most 0.004 %.
const (
	coldestC = -100.0
	hottestC = 100.0
	pieceC   = 0.25
)

// saturations is the saturation pressure in Pa from coldestC to hottestC.
type saturations [int((hottestC - coldestC) / pieceC)]struct{ pa, slope float64 }

func newSaturations() *saturations {
	s := &saturations{}
	for i := range s {
		t := coldestC + pieceC*float64(i)
		a, b := saturation(t), saturation(t+pieceC)
		s[i].pa, s[i].slope = a, (b-a)/pieceC
	}
	return s
}

// saturation is the formula of ISO 13788; beyond its range, 90 C either way, the
// end of the range holds.
func saturation(tC float64) float64 {
	pa, _ := moisture.SaturationPa(min(max(tC, moisture.MinTempC), moisture.MaxTempC))
	return pa
}

// at gives pressure and slope at tC.
func (s *saturations) at(tC float64) (pa, slope float64) {
	x := (tC - coldestC) * (1 / pieceC)
	k := int(x)
	if k < 0 || x < 0 {
		k = 0
	} else if k >= len(s) {
		k = len(s) - 1
	}
	e := &s[k]
	return e.pa + e.slope*(tC-coldestC-pieceC*float64(k)), e.slope
}
