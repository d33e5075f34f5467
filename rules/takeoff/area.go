package takeoff

import (
	"math"

	"battwright/rules/units"
)

// Area is a surface known by its size alone.
type Area struct {
	Ft2       float64    // net or gross, as the caller means it
	SpacingIn float64    // framing module, 6 to 48 in
	Share     float64    // clear share, above 0 to 1; used by ByClearShare only
	BayIn     float64    // height of a bay one piece serves; 0 = the piece's own length
	PieceIn   float64    // height of a piece as it is set, by ByModule only: a blanket twice as long gives two; 0 = one piece a bay
	How       Convention // ByModule or ByClearShare
}

// Count divides the area into pieces of the product, without spare.
//
// ByModule: linear feet = area / module in feet, because a foot of blanket
// serves the stud beside it too (estimating texts give 1.33 ft2 a foot at 16
// in); pieces = linear feet / the height one piece serves, and where a piece is
// at most half as long as the blanket, several are cut from one.
// ByClearShare: pieces = area x share / face of a piece.
// Any other convention needs the bays and is refused.
//
// Errors: ErrSize, ErrShare, ErrTooWide (a module wider than the blanket can
// fill), ErrConvention.
func (a Area) Count(p Product) (int, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	if err := sizeBetween("area", a.Ft2, 0, maxAreaFt2); err != nil {
		return 0, err
	}
	serves := a.BayIn
	if serves == 0 {
		serves = p.LengthIn
	}
	if err := sizeBetween("bay height", serves, 1, maxSizeIn); err != nil {
		return 0, err
	}
	if err := sizeBetween("piece height", a.PieceIn, 0, maxSizeIn); err != nil {
		return 0, err
	}
	switch a.How {
	case ByModule:
		return a.byModule(p, serves)
	case ByClearShare:
		return a.byShare(p)
	}
	return 0, wrapf(ErrConvention, "%q, accepted %q or %q", a.How, ByModule, ByClearShare)
}

func (a Area) byModule(p Product, servesIn float64) (int, error) {
	perFt, err := ModuleFt2PerFt(a.SpacingIn)
	if err != nil {
		return 0, err
	}
	if a.SpacingIn-StudIn > p.WidthIn {
		return 0, wrapf(ErrTooWide, "bay %v in, blanket %v in", a.SpacingIn-StudIn, p.WidthIn)
	}
	// A short piece in a taller bay serves its own length only.
	if servesIn > p.LengthIn+PlatesIn {
		servesIn = p.LengthIn
	}
	n := ceilInt(a.Ft2 / perFt * units.InchPerFoot / servesIn)
	if cut := a.PieceIn + p.FitLengthIn; a.PieceIn > 0 && p.LengthIn >= 2*cut {
		n = ceilInt(float64(n) / math.Floor(p.LengthIn/cut))
	}
	return n, nil
}

func (a Area) byShare(p Product) (int, error) {
	if err := shareBetween("clear share", a.Share, 0.01, 1); err != nil {
		return 0, err
	}
	face := ft2(p.WidthIn * p.LengthIn)
	return ceilInt(a.Ft2 * a.Share / face), nil
}

// ModuleFt2PerFt is the wall area one foot of blanket serves at a spacing:
// 1.00, 1.33, 1.60, 2.00 ft2 at 12, 16, 19.2, 24 in.
func ModuleFt2PerFt(spacingIn float64) (float64, error) {
	if err := sizeBetween("framing spacing", spacingIn, 6, 48); err != nil {
		return 0, err
	}
	return spacingIn / units.InchPerFoot, nil
}

// ceilInt rounds up, but not for the last bits of a division: 105.00000000000001
// pieces are 105.
func ceilInt(v float64) int {
	return int(math.Ceil(v - 1e-9*max(1, math.Abs(v))))
}
