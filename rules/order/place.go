package order

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// place counts one place of the plan.
func (m *maker) place(pl *plan.Place) {
	out := Place{ID: pl.Surface.ID, Label: pl.Surface.Label, AreaFt2: pl.Surface.AreaFt2, Self: pl.Surface.Labour == "self"}
	defer func() { m.out.Places = append(m.out.Places, out) }()
	out.FindFirst, out.Settle = pl.FindFirst(m.c, m.a.System), pl.SettleFirst(m.c, m.a.System)
	out.Mind = pl.Minds(m.a.System)
	switch {
	case pl.Stopped():
		out.Skipped = pl.StopText()
		return
	case pl.Surface.Held() != "":
		out.Skipped = pl.Surface.Held()
		return
	case pl.Target.Idle:
		out.Skipped, out.Idle = "nothing is planned there: "+pl.Target.Text, true
		out.Extras = m.unplanned(pl)
		return
	case pl.Choice == nil:
		out.Skipped, out.Extras = m.noneText(pl), m.unplanned(pl)
		return
	}
	out.Board, out.NearHeat = pl.BoardCautions(), pl.Surface.Kind.BesideChimney
	out.Short = pl.ShortText(m.a.System)
	out.Damp, out.AllDamp = pl.Choice.Damp, pl.AllDamp()
	s := sizes{m, m.a.House.Place(pl.Surface.ID), pl}
	if s.p == nil {
		out.Skipped = "no longer in the house"
		return
	}
	c, err := s.count()
	s.confirmed(c.keys, &out)
	out.Notes, out.Differ, out.Bays, out.How = c.notes, c.differ, c.layout.Bays, takeoff.ByBay
	if c.byArea {
		out.How = takeoff.ByModule
	}
	if err == nil {
		err = m.layers(s, c, &out)
	}
	if err != nil {
		out.Problem = problemText(err)
		out.Layers = nil
		return
	}
	out.Extras = m.extras(s, c)
	out.Hours = m.hours(pl)
}

// noneText says why a place gets no blanket: none fits, or none may go there.
func (m *maker) noneText(pl *plan.Place) string {
	for _, e := range pl.Entries {
		if e.NoFit == "" {
			return "no blanket may go there as it stands; the plan says why"
		}
	}
	if len(pl.Unfit) == 0 {
		return "no blanket may go there as it stands"
	}
	u := pl.Unfit[0]
	material, _ := m.c.Material(u.Product.Material)
	return fmt.Sprintf("no blanket that is sold fits there as it stands (for instance %s %s: %s)", material.Name, m.a.System.R(u.Product.NominalR), u.Why)
}

// layers takes off each blanket of the stack.
func (m *maker) layers(s sizes, c count, out *Place) error {
	choice := s.place.Choice
	spare := m.spareOf(s.place)
	for i, l := range choice.Layers {
		facing := "none"
		if i == 0 {
			facing = choice.Facing.OnBlanket
		}
		x := Layer{Product: *l.Product, Material: *choice.Material, Facing: facing, Across: l.Across, spare: spare}
		if i == 0 { // the inner one; the others lie behind it
			x.visible = visibleAt(s.place)
		}
		x.overChords, x.lies = l.OverChords, s.place.Surface.Kind.StackOverFraming
		if err := m.layer(s, c, &x, out); err != nil {
			return err
		}
		out.Layers = append(out.Layers, x)
	}
	return nil
}

func (m *maker) spareOf(pl *plan.Place) float64 {
	if pl.Surface.Kind.CutUp || pl.Surface.Frame.Practice == "trusses" {
		return m.c.Figure("spare-cut-up").Value
	}
	return m.c.Figure("spare-plain").Value
}

func (m *maker) layer(s sizes, c count, x *Layer, out *Place) error {
	label := m.labelOf(x.Product, x.Facing)
	pick := func(widths []float64) error {
		switch {
		case x.Across:
			x.WidthIn = slices.Max(widths)
			return nil
		case x.overChords: // as wide as from chord to chord, to meet over them
			if x.pickFor(s.place.Surface.Frame.SpacingIn, widths) != nil {
				x.WidthIn = slices.Max(widths)
			}
			return nil
		case c.byArea:
			return x.pickFor(s.place.Surface.Frame.SpacingIn-takeoff.StudIn, widths)
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
		out.Notes = append(out.Notes, "the width on your label does not fill these spaces: another width is needed here")
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
	x.area = takeoff.Area{Ft2: s.place.Surface.AreaFt2, SpacingIn: s.place.Surface.Frame.SpacingIn, BayIn: c.highIn, PieceIn: c.pieceIn, How: takeoff.ByModule}
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

func (x *Layer) countBays(c count, label label, shown units.System, out *Place) error {
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
func (x *Layer) tallNote(c count, shown units.System, out *Place) {
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
	out.Notes = append(out.Notes, text+", pushed together without a gap; or ask the store for a length that fits in one piece")
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
