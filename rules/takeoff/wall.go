package takeoff

import (
	"fmt"
	"slices"
)

// Wall is a framed wall of one height in one or more straight runs, each with
// a stud at both ends. Studs stand at 0 and at every multiple of the spacing;
// the end stud's outer face, not its centre, is at 0, so the first bay is half
// a stud narrower than the others.
type Wall struct {
	LengthsIn    []float64 // outside length of each run, up to 120,000 in
	HeightIn     float64   // foot of the bottom plate to top of the top plate
	StudHeightIn float64   // clear height between plates; 0 = HeightIn - 4-1/2 in
	DepthIn      float64   // stud depth, 1 to 24 in
	SpacingIn    float64   // centre to centre, 6 to 48 in
	Openings     []Opening // at most 10,000 in all
}

// Opening is a window or door, count of them alike; sizes are rough openings.
// Its head stands at HeadIn (or at its own height when that is more); one that
// would leave no room for a sill reaches the floor.
type Opening struct {
	WidthIn  float64
	HeightIn float64
	Count    int
}

// Layout counts the wall's bays. Each opening stands between a full stud and a
// shortened stud on both sides, under a header 5-1/2 in deep to 48 in wide,
// 7-1/4 to 72, 9-1/4 to 96, 11-1/4 above (practice; drawings and span tables
// decide). Over the header and under the sill short studs keep the wall's
// spacing, with one more against each side. The widest opening goes to the run
// with most room left; the openings of a run are spread evenly.
//
// Errors: ErrSize, ErrCount, ErrOpenings, ErrNothing.
func (w Wall) Layout() (Layout, error) {
	w, err := w.checked()
	if err != nil {
		return Layout{}, err
	}
	runs, err := w.placeOpenings()
	if err != nil {
		return Layout{}, err
	}
	l := Layout{DepthIn: w.DepthIn, SpacingIn: w.SpacingIn}
	var bays []Bay
	for _, r := range runs {
		l.GrossFt2 += ft2(r.lengthIn * w.HeightIn)
		bays = append(bays, w.runBays(r)...)
	}
	for _, o := range w.Openings {
		l.OpeningsFt2 += ft2(o.WidthIn*o.HeightIn) * float64(o.Count)
	}
	l.setBays(bays)
	if len(l.Bays) == 0 {
		return Layout{}, fmt.Errorf("%w: runs %v in leave no clear bay", ErrNothing, w.LengthsIn)
	}
	return l, nil
}

// checked refuses impossible sizes, fills defaults and sorts runs longest
// first, which makes the result independent of the order they were typed in.
func (w Wall) checked() (Wall, error) {
	if err := w.checkSizes(); err != nil {
		return w, err
	}
	if w.StudHeightIn == 0 {
		w.StudHeightIn = w.HeightIn - PlatesIn
	}
	if err := positive("stud height", w.StudHeightIn, w.HeightIn); err != nil {
		return w, err
	}
	w.LengthsIn = slices.Clone(w.LengthsIn)
	slices.Sort(w.LengthsIn)
	slices.Reverse(w.LengthsIn)
	return w, w.checkOpenings()
}

func (w Wall) checkSizes() error {
	if err := countBetween("wall runs", len(w.LengthsIn), 1, maxRuns); err != nil {
		return err
	}
	bays := 0.0
	for _, l := range w.LengthsIn {
		if err := sizeBetween("wall length", l, 2*StudIn, maxSizeIn); err != nil {
			return err
		}
		bays += l / max(w.SpacingIn, 1)
	}
	if bays > maxBays {
		return fmt.Errorf("%w: about %.0f bays, accepted up to %d", ErrCount, bays, maxBays)
	}
	if err := positive("wall height", w.HeightIn, maxHighIn); err != nil {
		return err
	}
	return checkFraming(w.DepthIn, w.SpacingIn)
}

func checkFraming(depthIn, spacingIn float64) error {
	if err := sizeBetween("framing depth", depthIn, 1, 24); err != nil {
		return err
	}
	return sizeBetween("framing spacing", spacingIn, 6, 48)
}

func (w Wall) checkOpenings() error {
	total, area, gross := 0, 0.0, 0.0
	for _, o := range w.Openings {
		if err := countBetween("openings of one size", o.Count, 0, maxOpening); err != nil {
			return err
		}
		if total += o.Count; total > maxOpening {
			return fmt.Errorf("%w: %d openings, accepted up to %d", ErrCount, total, maxOpening)
		}
		if err := positive("opening width", o.WidthIn, maxSizeIn); err != nil {
			return err
		}
		if err := positive("opening height", o.HeightIn, maxSizeIn); err != nil {
			return err
		}
		if o.Count > 0 && o.HeightIn > w.HeightIn {
			return fmt.Errorf("%w: opening %v in high, wall %v in", ErrOpenings, o.HeightIn, w.HeightIn)
		}
		area += o.WidthIn * o.HeightIn * float64(o.Count)
	}
	for _, l := range w.LengthsIn {
		gross += l * w.HeightIn
	}
	if area > gross {
		return fmt.Errorf("%w: openings %.1f ft2, wall %.1f ft2", ErrOpenings, ft2(area), ft2(gross))
	}
	return nil
}
