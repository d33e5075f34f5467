package takeoff

import (
	"fmt"
	"math"
)

// Floor is a joist or rafter plane: an attic floor, a floor over a crawl
// space, a sloped ceiling. Joists run along WidthIn and are spaced along
// LengthIn, as studs are in a wall.
type Floor struct {
	LengthIn  float64 // across the joists, up to 120,000 in
	WidthIn   float64 // along the joists, up to 120,000 in
	DepthIn   float64 // joist depth, 1 to 24 in
	SpacingIn float64 // centre to centre, 6 to 48 in
	Rim       bool    // bays stop at a rim joist at both ends (floors); attics run through
}

func (f Floor) checked() (Floor, error) {
	for _, s := range []struct {
		name string
		in   float64
	}{{"floor length", f.LengthIn}, {"floor width", f.WidthIn}} {
		if err := sizeBetween(s.name, s.in, 2*StudIn, maxSizeIn); err != nil {
			return f, err
		}
	}
	return f, checkFraming(f.DepthIn, f.SpacingIn)
}

// bayLengthIn is the clear length of a bay along the joists.
func (f Floor) bayLengthIn() float64 {
	if f.Rim {
		return f.WidthIn - 2*StudIn
	}
	return f.WidthIn
}

// Layout counts the bays between the joists. Under trusses it serves both
// layers: the second is laid in strips between the webs, not across.
//
// Errors: ErrSize, ErrNothing.
func (f Floor) Layout() (Layout, error) {
	f, err := f.checked()
	if err != nil {
		return Layout{}, err
	}
	w := Wall{SpacingIn: f.SpacingIn, StudHeightIn: f.bayLengthIn()}
	bays := w.runBays(run{lengthIn: f.LengthIn, freeIn: f.LengthIn})
	return f.layout(bays)
}

func (f Floor) layout(bays []Bay) (Layout, error) {
	l := Layout{DepthIn: f.DepthIn, SpacingIn: f.SpacingIn, GrossFt2: ft2(f.LengthIn * f.WidthIn)}
	l.setBays(bays)
	if len(l.Bays) == 0 || l.ClearFt2 <= 0 {
		return Layout{}, fmt.Errorf("%w: floor %v x %v in leaves no clear bay", ErrNothing, f.LengthIn, f.WidthIn)
	}
	return l, nil
}

// Across lays a second layer over the joists at right angles to them: rows
// side by side, each as long as the floor and as wide as the blanket, the last
// one cut narrower. Nothing is taken off for wood, so the layer covers it.
//
// Errors: ErrSize.
func (f Floor) Across(blanketIn float64) (Layout, error) {
	f, err := f.checked()
	if err != nil {
		return Layout{}, err
	}
	if err := sizeBetween("blanket width", blanketIn, 6, 120); err != nil {
		return Layout{}, err
	}
	rows := math.Floor(f.WidthIn / blanketIn)
	bays := []Bay{{KindAcross, blanketIn, f.LengthIn, int(rows)}}
	if last := f.WidthIn - rows*blanketIn; last >= 1.0/64 {
		bays = append(bays, Bay{KindAcross, last, f.LengthIn, 1})
	}
	if rows == 0 {
		bays = bays[1:]
	}
	l, err := f.layout(bays)
	l.DepthIn = 0 // nothing above to press against
	return l, err
}

// RimLayout counts the pieces at the rim: one in every bay at both ends of
// the joists, as high as the joist; and a strip along each of the two outer
// joists, cut as wide as the joist is deep. Gross and net area are perimeter x
// depth.
//
// Errors: ErrSize, ErrNothing.
func (f Floor) RimLayout() (Layout, error) {
	f, err := f.checked()
	if err != nil {
		return Layout{}, err
	}
	l := Layout{
		SpacingIn: f.SpacingIn,
		GrossFt2:  ft2(2 * (f.LengthIn + f.WidthIn) * f.DepthIn),
	}
	w := Wall{SpacingIn: f.SpacingIn, StudHeightIn: f.DepthIn}
	var bays []Bay
	for _, b := range w.runBays(run{lengthIn: f.LengthIn, freeIn: f.LengthIn}) {
		bays = append(bays, Bay{KindRim, b.WidthIn, f.DepthIn, 2})
	}
	if side := f.WidthIn - 2*StudIn; side > 0 {
		bays = append(bays, Bay{KindRim, f.DepthIn, side, 2})
	}
	l.setBays(bays)
	if len(l.Bays) == 0 {
		return Layout{}, fmt.Errorf("%w: rim of %v x %v in", ErrNothing, f.LengthIn, f.WidthIn)
	}
	return l, nil
}

// Chase is a framed enclosure round a chimney, open inside.
type Chase struct {
	ChimneyWidthIn float64 // outside of the chimney, 2 to 600 in
	ChimneyDepthIn float64
	ClearanceIn    float64 // air space that stays EMPTY between chimney and framing; never 0
	DepthIn        float64 // stud depth
	SpacingIn      float64
	StoreyIn       float64 // framed height of one storey
	Storeys        int     // 1 to 10
	Sides          int     // framed sides: 4 round it, 3 against a wall
}

// Wall returns the chase as one wall: two sides as wide as chimney, clearances
// and studs together, the other two between them. With 3 sides one of the
// wide ones is left out. The bays are beside the clearance, never in it.
//
// Errors: ErrSize, ErrCount.
func (c Chase) Wall() (Wall, error) {
	for _, s := range []struct {
		name      string
		in        float64
		low, high float64
	}{
		{"chimney width", c.ChimneyWidthIn, 2, 600},
		{"chimney depth", c.ChimneyDepthIn, 2, 600},
		{"clearance", c.ClearanceIn, 0.5, 48},
		{"story height", c.StoreyIn, 12, maxHighIn},
	} {
		if err := sizeBetween(s.name, s.in, s.low, s.high); err != nil {
			return Wall{}, err
		}
	}
	if err := checkFraming(c.DepthIn, c.SpacingIn); err != nil {
		return Wall{}, err
	}
	if err := countBetween("stories", c.Storeys, 1, 10); err != nil {
		return Wall{}, err
	}
	if err := countBetween("chase sides", c.Sides, 3, 4); err != nil {
		return Wall{}, err
	}
	wide := c.ChimneyWidthIn + 2*(c.ClearanceIn+c.DepthIn)
	deep := c.ChimneyDepthIn + 2*c.ClearanceIn
	sides := []float64{wide, deep, deep, wide}[:c.Sides]
	w := Wall{HeightIn: c.StoreyIn, DepthIn: c.DepthIn, SpacingIn: c.SpacingIn}
	for range c.Storeys {
		w.LengthsIn = append(w.LengthsIn, sides...)
	}
	return w, nil
}
