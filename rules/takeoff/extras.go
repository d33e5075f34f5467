package takeoff

import (
	"math"

	"battwright/rules/units"
)

// What goes with the blanket. Every convention in this file is common
// practice, no source, unless it says otherwise; the maker's instructions and
// the local code come first.

// SupportEndIn is how far from a bay's end the first wire support sits.
const SupportEndIn = 6.0

// WireSupports counts the springy wires that hold blanket up between joists:
// in each bay one 6 in from both ends and the others at most everyIn apart, 12
// to 18 in; a bay of a foot or less takes one.
//
// Errors: ErrSize.
func WireSupports(bays []Bay, everyIn float64) (int, error) {
	if err := sizeBetween("support spacing", everyIn, 12, 18); err != nil {
		return 0, err
	}
	return perBay(bays, func(b Bay) int {
		return 1 + ceilInt(max(0, b.HeightIn-2*SupportEndIn)/everyIn)
	})
}

// Staples counts the staples for faced blanket: both flanges of every bay,
// one at each end and at most everyIn apart, 4 to 24 in.
//
// Errors: ErrSize.
func Staples(bays []Bay, everyIn float64) (int, error) {
	if err := sizeBetween("staple spacing", everyIn, 4, 24); err != nil {
		return 0, err
	}
	return perBay(bays, func(b Bay) int { return 2 * (1 + ceilInt(b.HeightIn/everyIn)) })
}

// Baffles counts one air channel per rafter bay at each eave, 1 to 4 eaves.
// Bays of the layout are taken to run from eave to eave.
//
// Errors: ErrSize, ErrCount.
func Baffles(bays []Bay, eaves int) (int, error) {
	if err := countBetween("eaves", eaves, 1, 4); err != nil {
		return 0, err
	}
	return perBay(bays, func(Bay) int { return eaves })
}

func perBay(bays []Bay, each func(Bay) int) (int, error) {
	n := 0
	for _, b := range bays {
		if err := positive("bay height", b.HeightIn, maxSizeIn); err != nil {
			return 0, err
		}
		if err := countBetween("bays of one size", b.Count, 0, maxBays); err != nil {
			return 0, err
		}
		n += b.Count * each(b)
	}
	return n, nil
}

// Sheet is a plastic or paper sheet laid in lapped rows.
type Sheet struct {
	Rows     int
	SheetFt2 float64 // to buy, laps and turn-ups in it
	SeamFt   float64 // laps to tape
}

// GroundSheet covers the earth of a crawl space: rows as wide as the roll,
// lapped by lapIn, turned up the walls all round by upIn, laid the way that takes
// less.
//
// Errors: ErrSize.
func GroundSheet(lengthIn, widthIn, rollIn, lapIn, upIn float64) (Sheet, error) {
	if err := sizeBetween("turn-up", upIn, 0, 120); err != nil {
		return Sheet{}, err
	}
	if err := positive("crawl space length", lengthIn, maxSizeIn); err != nil {
		return Sheet{}, err
	}
	if err := positive("crawl space width", widthIn, maxSizeIn); err != nil {
		return Sheet{}, err
	}
	along, err := rows(lengthIn+2*upIn, widthIn+2*upIn, rollIn, lapIn)
	across, errAcross := rows(widthIn+2*upIn, lengthIn+2*upIn, rollIn, lapIn)
	narrow := min(lengthIn, widthIn)+2*upIn < rollIn // nobody cuts rows shorter than the roll is wide
	if err == nil && (narrow || errAcross != nil || across.SheetFt2 >= along.SheetFt2) {
		return along, nil
	}
	return across, errAcross
}

// RetarderSheet covers walls or a ceiling of so much length and height in
// rows along the length, lapped by lapIn, in one turn of the roll. Openings
// are covered and cut out afterwards, so they are not taken off.
//
// Errors: ErrSize.
func RetarderSheet(lengthIn, heightIn, rollIn, lapIn float64) (Sheet, error) {
	if err := positive("wall length", lengthIn, maxSizeIn); err != nil {
		return Sheet{}, err
	}
	if err := positive("wall height", heightIn, maxSizeIn); err != nil {
		return Sheet{}, err
	}
	// The last turn laps the first.
	return rows(lengthIn+lapIn, heightIn, rollIn, lapIn)
}

func rows(alongIn, acrossIn, rollIn, lapIn float64) (Sheet, error) {
	if err := sizeBetween("sheet width", rollIn, 24, 600); err != nil {
		return Sheet{}, err
	}
	if err := sizeBetween("lap", lapIn, 0, rollIn/2); err != nil {
		return Sheet{}, err
	}
	n := max(1, ceilInt((acrossIn-lapIn)/(rollIn-lapIn)))
	return Sheet{
		Rows:     n,
		SheetFt2: ft2(alongIn*rollIn) * float64(n),
		SeamFt:   alongIn / units.InchPerFoot * float64(n-1),
	}, nil
}

// SealantFt is the length of sealant for walls: top and bottom plates of every
// run, both ends, and round every opening.
//
// Errors: as Wall.Layout.
func (w Wall) SealantFt() (float64, error) {
	if _, err := w.Layout(); err != nil {
		return 0, err
	}
	in := 0.0
	for _, l := range w.LengthsIn {
		in += 2 * (l + w.HeightIn)
	}
	for _, o := range w.Openings {
		in += 2 * (o.WidthIn + o.HeightIn) * float64(o.Count)
	}
	return in / units.InchPerFoot, nil
}

// HatchPieces counts stock pieces of blanket for attic hatch covers: each
// layer is cut to the hatch's face, side by side and, when the hatch is longer
// than the blanket, end to end. One cover frame is needed per hatch.
//
// Errors: ErrSize, ErrCount.
func HatchPieces(hatches int, lengthIn, widthIn float64, layers int, p Product) (int, error) {
	if err := p.check(); err != nil {
		return 0, err
	}
	if err := countBetween("hatches", hatches, 0, 100); err != nil {
		return 0, err
	}
	if err := countBetween("layers", layers, 1, 10); err != nil {
		return 0, err
	}
	for _, in := range []float64{lengthIn, widthIn} {
		if err := sizeBetween("hatch", in, 6, 240); err != nil {
			return 0, err
		}
	}
	long, short := math.Max(lengthIn, widthIn), math.Min(lengthIn, widthIn)
	strips := ceilInt(short/p.WidthIn) * layers * hatches
	perPiece := int(math.Floor(p.LengthIn/long + 1e-9))
	if perPiece == 0 {
		return strips * ceilInt(long/p.LengthIn), nil
	}
	return ceilDiv(strips, perPiece), nil
}
