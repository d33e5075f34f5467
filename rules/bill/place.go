package bill

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// place counts one place.
func (m *maker) place(it *Item) Place {
	s := it.Place.Surface
	out := Place{ID: s.ID, Label: s.Label, AreaFt2: s.AreaFt2, Self: s.Labour == "self"}
	at := sizes{m, m.a.House.Place(s.ID), it}
	switch {
	case it.Closed || at.p == nil:
		return out
	case it.Choice == nil:
		out.Extras = m.unplanned(at)
		return out
	}
	b := kept(m.kept.bays, s.ID, at.geometry)
	out = b.place
	c, err := b.count, b.err
	if err == nil {
		x := kept(m.kept.stack, name(s.ID, it.Choice), func() stack { return m.layers(at, c) })
		out.Layers, err = slices.Clone(x.layers), x.err
		out.Notes = slices.Concat(out.Notes, x.notes)
		if len(out.Layers) > 0 { // the inner one; the others lie behind it
			out.Layers[0].visible = visibleAt(it)
		}
	}
	if err != nil {
		out.Problem = problemText(err)
		out.Layers = nil
		return out
	}
	out.Counted = true
	out.Extras = m.extras(at, c)
	out.Hours = m.hours(it)
	return out
}

// geometry counts the bays of a place.
func (s sizes) geometry() bays {
	surface := s.item.Place.Surface
	out := Place{ID: surface.ID, Label: surface.Label, AreaFt2: surface.AreaFt2, Self: surface.Labour == "self", How: takeoff.ByBay}
	c, err := s.count()
	if c.wall != nil && err == nil {
		c.sealFt, _ = c.wall.SealantFt() // without it none is counted
	}
	s.confirmed(c.keys, &out)
	out.Notes, out.Differ, out.Bays = c.notes, c.differ, c.layout.Bays
	if c.byArea {
		out.How = takeoff.ByModule
	}
	return bays{c, out, err}
}

// layers takes off each blanket of the stack.
func (m *maker) layers(s sizes, c count) (out stack) {
	choice := s.item.Choice
	spare := m.spareOf(s.item)
	for i, l := range choice.Layers {
		facing := "none"
		if i == 0 {
			facing = choice.Facing.OnBlanket
		}
		x := Layer{Product: *l.Product, Material: *choice.Material, Facing: facing, Across: l.Across, spare: spare, overChords: l.OverChords, lies: s.item.Place.Surface.Kind.StackOverFraming, id: fmt.Sprintf("%s#%d", name(s.item.Place.Surface.ID, choice), i)}
		if out.err = m.layer(s, c, &x, &out); out.err != nil {
			return out
		}
		out.layers = append(out.layers, x)
	}
	return out
}

func (m *maker) spareOf(it *Item) float64 {
	if it.Place.Surface.Kind.CutUp || it.Place.Surface.Frame.Practice == "trusses" {
		return m.c.Figure("spare-cut-up").Value
	}
	return m.c.Figure("spare-plain").Value
}

func (m *maker) layer(s sizes, c count, x *Layer, out *stack) error {
	label := m.labelOf(x.Product, x.Facing)
	pick := func(widths []float64) error {
		switch {
		case x.Across:
			x.WidthIn = slices.Max(widths)
			return nil
		case x.overChords: // as wide as from chord to chord, to meet over them
			if x.pickFor(s.item.Place.Surface.Frame.SpacingIn, widths) != nil {
				x.WidthIn = slices.Max(widths)
			}
			return nil
		case c.byArea:
			return x.pickFor(s.item.Place.Surface.Frame.SpacingIn-takeoff.StudIn, widths)
		}
		w, err := takeoff.PickWidth(c.layout, widths)
		x.WidthIn = w
		return err
	}
	err := pick(label.widths)
	if err != nil && label.typedWidth {
		// The package on the label does not fill this place: another width of
		// the same blanket does.
		label = usualLabel(x.Product)
		out.notes = append(out.notes, "the width on your label does not fill these spaces: another width is needed here")
		err = pick(label.widths)
	}
	if err != nil {
		return err
	}
	x.LengthIn = label.lengthFor(c.studIn)
	x.Form = formOf(x.Product, x.LengthIn)
	x.key = key{x.Product.ID, x.Facing, x.WidthIn, x.LengthIn}
	if c.byArea {
		return x.countArea(s, c, label)
	}
	return x.countBays(c, label, s.m.a.System, out)
}

func (x *Layer) pickFor(clearIn float64, widths []float64) error {
	best := math.Inf(1)
	for _, w := range widths {
		if w >= clearIn {
			best = min(best, w)
		}
	}
	if math.IsInf(best, 1) {
		return fmt.Errorf("%w: bay %v in, widths offered %v", takeoff.ErrTooWide, clearIn, widths)
	}
	x.WidthIn = best
	return nil
}

// product is a blanket as the take-off knows it.
func (x *Layer) product(perPackage int) takeoff.Product {
	p := takeoff.Product{WidthIn: x.WidthIn, LengthIn: x.LengthIn, ThicknessIn: x.Product.ThicknessIn, PerPackage: perPackage}
	if x.Across {
		return p
	}
	if !x.lies {
		p.PressIn = takeoff.StandPressInIn
	}
	return p.FrictionFit()
}

func (x *Layer) countArea(s sizes, c count, label label) error {
	x.area = takeoff.Area{Ft2: s.item.Place.Surface.AreaFt2, SpacingIn: s.item.Place.Surface.Frame.SpacingIn, BayIn: c.highIn, PieceIn: c.pieceIn, How: takeoff.ByModule}
	if x.Across {
		x.area = takeoff.Area{Ft2: x.area.Ft2, Share: 1, How: takeoff.ByClearShare}
	}
	n, err := x.area.Count(x.product(label.pieces))
	if err != nil {
		return err
	}
	x.Stock = n
	x.Packages, x.Spare, err = takeoff.Packages(n, x.spare, label.pieces)
	return err
}

func (x *Layer) countBays(c count, label label, shown units.System, out *stack) error {
	x.layout = c.layout
	if x.Across {
		var err error
		if x.layout, err = c.floor.Across(x.WidthIn); err != nil {
			return err
		}
	}
	t, err := takeoff.TakeOff(x.layout, x.product(label.pieces), x.spare)
	if err != nil {
		return err
	}
	x.Bays, x.Cut, x.Joints, x.Stock, x.Packages, x.Spare = x.layout.Bays, t.Pieces, t.Joints, t.Stock, t.Packages, t.SparePieces
	x.tallNote(c, shown, out)
	return x.more(c, label)
}

// more counts by area what was typed beyond the lengths: a gable, most often.
func (x *Layer) more(c count, label label) error {
	if c.moreFt2 <= 0 {
		return nil
	}
	x.area = takeoff.Area{Ft2: c.moreFt2, SpacingIn: c.layout.SpacingIn, How: takeoff.ByModule}
	if x.Across {
		x.area = takeoff.Area{Ft2: c.moreFt2, Share: 1, How: takeoff.ByClearShare}
	}
	n, err := x.area.Count(x.product(label.pieces))
	if err != nil {
		return err
	}
	x.Stock += n
	x.Packages, x.Spare, err = takeoff.Packages(x.Stock, x.spare, label.pieces)
	return err
}

// rollFrom is the length, in inches, from which a blanket comes as a roll: the
// longest batts, for walls called 10 ft high, are 117 in.
const rollFrom = 120

func formOf(p catalog.Product, lengthIn float64) string {
	if p.Form == "roll" || lengthIn > rollFrom {
		return "roll"
	}
	return "batt"
}

// tallNote says in one line what walls taller than the blanket need.
func (x *Layer) tallNote(c count, shown units.System, out *stack) {
	if c.wall == nil || c.studIn <= x.LengthIn || len(x.Joints) == 0 {
		return
	}
	at := slices.IndexFunc(x.Joints, func(j takeoff.Joint) bool { return j.BayIn == c.studIn })
	if at < 0 {
		return
	}
	j := x.Joints[at]
	text := fmt.Sprintf("each space of %s takes", shown.Inches(c.studIn))
	if j.Whole > 0 {
		text += fmt.Sprintf(" %d whole %s", j.Whole, shown.Inches(x.LengthIn))
	}
	if j.EvenIn > 0 {
		text += ", one cut to " + shown.Inches(j.EvenIn)
	}
	if j.RemnantIn > 0 {
		text += " and a piece of " + shown.Inches(j.RemnantIn)
	}
	out.notes = append(out.notes, text+", pushed together without a gap; or ask the store for a length that fits in one piece")
}

// label is what a package of a product holds: as typed, or as usual.
type label struct {
	widths      []float64
	lengths     []float64
	pieces      int
	coverageFt2 float64 // as printed, 0 when it was not typed
	typed       bool
	typedWidth  bool
	have        int
	of          string // which label it is: what is there already is taken off once
}

func usualLabel(p catalog.Product) label {
	return label{widths: p.WidthsIn, lengths: p.LengthsIn, pieces: max(1, p.Pieces)}
}

// labelOf is the label of a product: the builder's, as far as it was typed.
func (m *maker) labelOf(p catalog.Product, facing string) label {
	out := usualLabel(p)
	q, ok := house.FindQuote(m.a.House.Quotes, p.ID, facing)
	if !ok {
		return out
	}
	out.coverageFt2, out.have, out.of = q.CoverageFt2, q.Have, q.Product+"/"+q.Facing
	if q.WidthIn > 0 {
		out.widths, out.typedWidth = []float64{q.WidthIn}, true
	}
	if q.LengthIn > 0 {
		out.lengths = []float64{q.LengthIn}
	}
	switch face := out.widths[0] * out.lengths[0] / (units.InchPerFoot * units.InchPerFoot); {
	case q.Pieces > 0:
		out.pieces = q.Pieces
	case q.CoverageFt2 > 0:
		out.pieces = max(1, int(math.Round(q.CoverageFt2/face)))
	}
	out.typed = q.WidthIn > 0 && q.LengthIn > 0 && (q.Pieces > 0 || q.CoverageFt2 > 0)
	return out
}

// lengthFor is the shortest length that fills a bay in one piece, else the
// longest there is; a bay of unknown length takes the longest.
func (l label) lengthFor(bayIn float64) float64 {
	long := slices.Max(l.lengths)
	if bayIn <= 0 {
		return long
	}
	best := long
	for _, v := range l.lengths {
		if v >= bayIn && v < best {
			best = v
		}
	}
	return best
}

// problemText says in the builder's words why a place could not be counted.
func problemText(err error) string {
	switch {
	case errors.Is(err, takeoff.ErrOpenings):
		return "the windows and doors do not fit into the wall with the studs beside them: check their sizes and the lengths (" + figures(err) + ")"
	case errors.Is(err, takeoff.ErrTooWide):
		return "its spaces are wider than any blanket sold: check the spacing of the framing, or ask how to close them (" + figures(err) + ")"
	case errors.Is(err, takeoff.ErrNothing):
		return "its sizes leave no space to fill: check them"
	case errors.Is(err, takeoff.ErrCount):
		return "there are more pieces than a house has: check the sizes (" + figures(err) + ")"
	case errors.Is(err, takeoff.ErrSize), errors.Is(err, takeoff.ErrShare):
		return "a size cannot be right: check it (" + figures(err) + ")"
	}
	return "it could not be counted: " + err.Error()
}

// figures is what an error of the take-off says after its own name.
func figures(err error) string {
	if _, rest, ok := strings.Cut(err.Error(), ": "); ok {
		return rest
	}
	return err.Error()
}
