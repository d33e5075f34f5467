package bill

import (
	"fmt"
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// extras are what one place needs beside its blankets.
func (m *maker) extras(s sizes, c count) []Extra {
	var out []Extra
	add := func(x Extra) {
		if x.Quote || x.Qty > 0 && !math.IsInf(x.Qty, 0) && !math.IsNaN(x.Qty) {
			out = append(out, x)
		}
	}
	add(m.board(s))
	for _, x := range m.sheet(s, c) {
		add(x)
	}
	add(m.staples(s, c))
	add(m.supports(s, c))
	add(m.baffles(s, c))
	for _, x := range m.ground(s) {
		add(x)
	}
	for _, x := range m.covers(s) {
		add(x)
	}
	add(m.hatch(s, c))
	add(m.sealant(s, c))
	for _, x := range m.heat(s) {
		add(x)
	}
	for _, x := range m.checks(s.item) {
		add(x)
	}
	return out
}

// unplanned are what a place needs though no blanket is planned there: the sheet on
// its earth, a cover over its foam, and looks at what can hurt people.
func (m *maker) unplanned(s sizes) []Extra {
	return slices.Concat(m.ground(s), m.covers(s), m.checks(s.item))
}

// board is the foam or mineral board that the target needs beside the blanket.
func (m *maker) board(s sizes) Extra {
	r := s.item.Place.Target.AddR
	if r <= 0 {
		return Extra{}
	}
	side, where := "outside", "outside the studs"
	if s.item.Place.Surface.Kind.Boundary == "soil" {
		side, where = "concrete", "on the concrete"
	}
	note := "not a blanket: the target is met only with it"
	if !s.item.Place.Target.Required {
		note = "not a blanket: fiber straight on concrete gets wet"
	}
	area := s.item.Place.Surface.AreaFt2 * (1 + m.c.Figure("board-waste").Value)
	return Extra{
		ID: fmt.Sprintf("board-%g-%s", r, side), Name: fmt.Sprintf("%s board, %s", m.a.System.R(r), where), Unit: "board", Qty: area, Ft2: area, Quote: true,
		Note: note + "; " + s.item.Place.Surface.BoardWhen(),
	}
}

// sheet is the retarder sheet or paint beside the blanket.
func (m *maker) sheet(s sizes, c count) []Extra {
	id := s.item.Choice.Facing.Sheet
	f, ok := m.c.Facing(id)
	if id == "" || !ok {
		return nil
	}
	area := s.item.Place.Surface.AreaFt2
	if id == "paint" {
		return []Extra{{ID: "paint", Name: f.Name, Unit: "paint", Qty: area, Ft2: area, Price: f.Price}}
	}
	roll, lap := m.c.Figure("retarder-roll").Value*units.InchPerFoot, m.c.Figure("retarder-lap").Value
	length, height := 0.0, 0.0
	switch {
	case c.floor != nil:
		length, height = c.floor.LengthIn, c.floor.WidthIn
	case c.wall != nil:
		for _, l := range c.wall.LengthsIn {
			length += l
		}
		height = c.wall.HeightIn
	default:
		height = s.highIn(c)
		if c.studIn > 0 {
			height += takeoff.PlatesIn
		}
		length = area * units.InchPerFoot * units.InchPerFoot / max(height, 1)
	}
	laid, err := takeoff.RetarderSheet(length, height, roll, lap)
	if err != nil {
		return nil
	}
	note := fmt.Sprintf("%d rows, laps over a stud; openings are covered and cut out afterwards", laid.Rows)
	if laid.Rows == 1 {
		note = "one row; openings are covered and cut out afterwards"
	}
	if c.floor == nil && c.wall == nil {
		note = "about, from the area alone: " + note
	}
	ends := 2 * height / units.InchPerFoot
	return []Extra{
		{ID: "sheet-" + id, Name: f.Name + " for the room side", Unit: "ft2", Qty: laid.SheetFt2, Ft2: laid.SheetFt2, Price: f.Price, Note: note},
		{ID: "tape", Name: "tape made for that sheet", Unit: "ft", Qty: laid.SeamFt + ends, Note: "for laps, ends and holes"},
	}
}

// highIn is how far the bays of a place run: as high as its studs, else as far
// as the house is wide.
func (s sizes) highIn(c count) float64 {
	if c.studIn > 0 {
		return c.studIn
	}
	return s.m.a.Num(house.Shape, nil, "width_ft") * units.InchPerFoot
}

// bays of a place for what is counted by the bay; where only the area is known,
// as many of the usual width as the area has.
func (s sizes) bays(c count) []takeoff.Bay {
	if !c.byArea {
		return c.layout.Bays
	}
	frame, high := s.item.Place.Surface.Frame, s.highIn(c)
	perBay := frame.SpacingIn * high / (units.InchPerFoot * units.InchPerFoot)
	if perBay <= 0 || frame.ClearIn <= 0 {
		return nil
	}
	return []takeoff.Bay{{Kind: takeoff.KindFull, WidthIn: frame.ClearIn, HeightIn: high, Count: int(math.Ceil(s.item.Place.Surface.AreaFt2 / perBay))}}
}

func (m *maker) staples(s sizes, c count) Extra {
	if s.item.Choice.Facing.OnBlanket == "none" {
		return Extra{}
	}
	n, err := takeoff.Staples(s.bays(c), m.c.Figure("staple-spacing").Value)
	if err != nil {
		return Extra{}
	}
	return Extra{
		ID: "staples", Name: "staples for the face", Unit: "each", Qty: float64(n), Ft2: s.item.Place.Surface.AreaFt2, Price: "staples",
		Note: fmt.Sprintf("one each %s along both edges", m.a.System.Inches(m.c.Figure("staple-spacing").Value)),
	}
}

func (m *maker) supports(s sizes, c count) Extra {
	area := s.item.Place.Surface.AreaFt2
	switch id := s.item.Place.Surface.Kind.Supports; id {
	case "", "none":
		return Extra{}
	case "support-wire":
		n, err := takeoff.WireSupports(s.bays(c), m.c.Figure("wire-spacing").Value)
		if err != nil {
			return Extra{}
		}
		return Extra{
			ID: id, Name: "wire supports, as long as the space is wide and a little more", Unit: "each", Qty: float64(n), Ft2: area, Price: id,
			Note: fmt.Sprintf("one each %s", m.a.System.Inches(m.c.Figure("wire-spacing").Value)),
		}
	default:
		return Extra{ID: id, Name: "net or battens that hold the blanket", Unit: "ft2", Qty: area, Ft2: area, Price: id}
	}
}

// needs reports whether a rule asks for something at a place.
func needs(it *Item, what string) bool {
	for _, h := range it.Calls.Require {
		if h.Rule.Effect.Need == what {
			return true
		}
	}
	return false
}

// visibleAt is whether the rules ask for a fire mark at a place.
func visibleAt(it *Item) Visible {
	out := Covered
	for _, h := range it.Calls.Needs() {
		switch need := h.Rule.Effect.Need; {
		case need == "fire-mark-fiber":
			out = max(out, Burns)
		case need == "fire-mark" && len(h.Unknown) > 0:
			out = max(out, PerhapsVisible)
		case need == "fire-mark":
			out = max(out, StaysVisible)
		}
	}
	return out
}

func (m *maker) baffles(s sizes, c count) Extra {
	if !needs(s.item, "baffle") {
		return Extra{}
	}
	if s.item.Place.Surface.Kind.Airway == catalog.AirwayChannel {
		return m.channel(s, c)
	}
	n, err := takeoff.Baffles(s.bays(c), int(m.c.Figure("baffle-eaves").Value))
	if err != nil {
		return Extra{}
	}
	note := "one at both eaves for each space between rafters; fewer where an eave has no vents"
	if c.byArea {
		note = "about: count the spaces between rafters at the eaves"
	}
	return Extra{ID: "baffle", Name: "baffles that keep the airway open", Unit: "each", Qty: float64(n), Price: "baffle", Note: note}
}

// channel are the baffles of a slope, where the airway runs from eave to ridge.
func (m *maker) channel(s sizes, c count) Extra {
	area, piece := s.item.Place.Surface.AreaFt2, m.c.Figure("baffle-length").Value
	if c.floor != nil {
		area = max(area, c.floor.LengthIn*c.floor.WidthIn/(units.InchPerFoot*units.InchPerFoot))
	}
	n := math.Ceil(area * units.InchPerFoot * units.InchPerFoot / (s.item.Place.Surface.Frame.SpacingIn * piece))
	return Extra{
		ID: "baffle-slope", Name: "baffles for the channel from eave to ridge", Unit: "each", Qty: n, Price: "baffle",
		Note: fmt.Sprintf("end to end in each space between rafters, in pieces of %s", m.a.System.Feet(piece/units.InchPerFoot)),
	}
}

// ground is the sheet on the earth of a crawl space that is not covered yet.
func (m *maker) ground(s sizes) []Extra {
	cover := m.a.Value(house.PlaceScope, s.p, "ground_cover")
	if !m.a.Has(s.p, "ground_cover") || cover.Known && cover.Answer.Bool {
		return nil
	}
	fig := func(id string) float64 { return m.c.Figure(id).Value }
	note := "6 mil, up the walls all round"
	if needOf(s.item, "crawl-air") != "" {
		note += ", sealed at all seams"
	}
	if !cover.Known {
		note += "; only if the earth is not covered yet"
	}
	x := Extra{ID: "ground-sheet", Name: "plastic sheet for the earth", Unit: "ft2", Price: "ground-sheet", Note: note}
	if s.said("length_ft") && s.said("width_ft") {
		laid, err := takeoff.GroundSheet(s.num("length_ft")*units.InchPerFoot, s.num("width_ft")*units.InchPerFoot, fig("ground-roll")*units.InchPerFoot, fig("ground-lap"), fig("ground-up"))
		if err != nil {
			return nil
		}
		x.Qty, x.Ft2 = laid.SheetFt2, laid.SheetFt2
		return []Extra{x, {ID: "ground-tape", Name: "tape for the laps of the ground sheet", Unit: "ft", Qty: laid.SeamFt}}
	}
	area := s.item.Place.Surface.AreaFt2
	if s.item.Place.Surface.Kind.Size == catalog.SizeRing {
		area = m.a.Num(house.Shape, nil, "length_ft") * m.a.Num(house.Shape, nil, "width_ft")
	}
	x.Qty = area * (1 + fig("ground-extra"))
	x.Ft2, x.Note = x.Qty, note+"; about: from the area alone"
	return []Extra{x}
}

// checks are the looks that the place needs before the work begins.
func (m *maker) checks(it *Item) []Extra {
	var out []Extra
	for _, x := range it.Calls.Checks(m.a.System, it.Choice != nil) {
		out = append(out, Extra{ID: x.Need, Name: x.Name, Unit: "each", Qty: 1, Quote: true, Note: "not in the price"})
	}
	return out
}

// needOf is what a rule or a caution of a place asks for, in words; empty where
// none does.
func needOf(it *Item, need string) string {
	for _, h := range it.Calls.Needs() {
		if h.Rule.Effect.Need == need {
			return h.Rule.Effect.NeedValue
		}
	}
	return ""
}

// covers are the layers beside the blankets that the rules ask for: their area is
// known, what they are made of is for the builder and the building department.
func (m *maker) covers(s sizes) []Extra {
	var out []Extra
	area := s.item.Place.Surface.AreaFt2
	for _, b := range s.item.Calls.Beside(m.a.System) {
		x := Extra{ID: b.Need, Name: b.Name, Unit: "ft2", Qty: area, Ft2: area, Quote: true, Note: "not in the price"}
		if b.Perhaps { // apart: it is not added to what is wanted for sure
			x.ID += "-perhaps"
		}
		out = append(out, x)
	}
	return out
}

// hatch is the cover of an attic hatch; its blanket comes from the spare.
func (m *maker) hatch(s sizes, c count) Extra {
	if s.item.Place.Surface.Kind.Airway != catalog.AirwayEaves || !m.firstAttic(s.item.Place.Surface.ID) {
		return Extra{}
	}
	has := false
	for _, o := range m.a.Answer(house.Shape, nil, "others").List {
		has = has || o == "attic-hatch"
	}
	if !has {
		return Extra{}
	}
	l, w := m.c.Figure("hatch-length").Value, m.c.Figure("hatch-width").Value
	note := "with a gasket all round"
	if top := s.item.Choice.Layers; len(top) > 0 {
		x := Layer{Product: *top[len(top)-1].Product, Across: true}
		x.WidthIn, x.LengthIn = maxOf(x.Product.WidthsIn), maxOf(x.Product.LengthsIn)
		if n, err := takeoff.HatchPieces(1, l, w, len(top), x.product(1)); err == nil {
			note += fmt.Sprintf("; its own blanket, %d pieces, comes out of the spare", n)
		}
	}
	return Extra{ID: "hatch-cover", Name: "cover for the attic hatch", Unit: "each", Qty: 1, Price: "hatch-cover", Note: note}
}

func (m *maker) firstAttic(id string) bool {
	best := ""
	for i := range m.a.House.Places {
		p := &m.a.House.Places[i]
		if m.a.KindOf(p).Airway == catalog.AirwayEaves && (best == "" || p.ID < best) {
			best = p.ID
		}
	}
	return best == id
}

func maxOf(list []float64) float64 {
	best := 0.0
	for _, v := range list {
		best = max(best, v)
	}
	return best
}

// sealant closes the gaps before any blanket goes in: leaking air carries more
// than the blanket stops.
func (m *maker) sealant(s sizes, c count) Extra {
	ft := 0.0
	kind := s.item.Place.Surface.Kind
	switch {
	case kind.BesideChimney:
		return Extra{} // sheet metal and heat-proof sealant, see heat
	case kind.Size == catalog.SizeRim && !c.byArea:
		for _, b := range c.layout.Bays {
			ft += 2 * (b.WidthIn + b.HeightIn) / units.InchPerFoot * float64(b.Count)
		}
	case c.wall != nil:
		ft = c.sealFt
	case kind.HeatFlow == "horizontal":
		// Two plates along a wall whose length is its area over its height.
		high := (c.studIn + takeoff.PlatesIn) / units.InchPerFoot
		ft = 2 * s.item.Place.Surface.AreaFt2 / max(high, 0.5)
	default:
		ft = s.item.Place.Surface.AreaFt2 * m.c.Figure("sealant-ceiling").Value
	}
	return Extra{
		ID: "sealant", Name: "sealant, before the blankets", Unit: "tube", Qty: ft, Price: "sealant-tube",
		Note: fmt.Sprintf("a tube is taken for %s of gap; wide gaps want foam in a can or strips of board", m.a.System.FeetAbout(m.c.Figure("sealant-tube").Value)),
	}
}

// heat is what keeps blankets away from hot things; the trades bring it.
func (m *maker) heat(s sizes) []Extra {
	var out []Extra
	if s.item.Place.Surface.Kind.BesideChimney {
		note, name := "by the mason or installer; never foam or usual sealant near a chimney", "fire stop at each floor: sheet metal at brick, for a listed pipe what its listing names"
		if brick, known := m.a.Masonry(s.p); known {
			name = map[bool]string{true: "sheet metal and heat-proof sealant at each floor", false: "fire stop that the listing of the pipe names, at each floor"}[brick]
		}
		if wait := needOf(s.item, "fill-cleared"); wait != "" {
			note += ". WAIT: " + wait
		}
		return []Extra{{
			ID: "firestop", Name: name, Unit: "each", Qty: max(1, s.num("floors")) + 1, Quote: true, Note: note,
		}}
	}
	if v := m.a.Value(house.PlaceScope, s.p, "flue_through"); v.Source == house.FromUnknown || v.Answer.Bool {
		if v.Source != house.FromNobody {
			// Under roof boards there is no room for what stands above a blanket in an attic.
			note := fmt.Sprintf("keeps the blanket off the flue, to %s above it, in a slope up to the roof boards; ", m.a.System.Clearance(m.c.Figure("flue-shield").Value))
			note += map[bool]string{true: "a licensed mason decides", false: "its listing decides"}[m.a.BrickAlone()]
			if v.Source == house.FromUnknown {
				note += "; only if one goes through"
			}
			out = append(out, Extra{ID: "shield", Name: "sheet-metal shield around the flue", Unit: "each", Qty: 1, Quote: true, Note: note})
		}
	}
	return out
}
