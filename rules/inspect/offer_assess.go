package inspect

import (
	"fmt"
	"slices"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// assess works out what is offered in its place, as the plan is worked out,
// and says where it falls behind.
func (p *OfferedPlace) assess(j Job) {
	c := j.Catalog()
	m, products, ok := p.products(c)
	if !ok {
		return
	}
	products = p.apart(j, products)
	facing, sheet := p.Parts[0].text("facing"), p.Parts[0].text("sheet")
	if sheet == "none" {
		sheet = ""
	}
	if sheet == "" && planned(p.Plan) && !p.Plan.Choice.Facing.Added {
		sheet = p.Plan.Choice.Facing.Sheet // the builder puts it up whoever does the rest
	}
	given := candidate.GivenStack{
		Material: m, Layers: layersIn(c, p.Plan, products), Facing: facing, Sheet: sheet,
		Turned: p.turned(p.Parts[0]),
	}
	got, err := candidate.Given(j.Assessment.Answered, p.result(), j.Plan.Site, given)
	if err != nil {
		p.find(Finding{ID: "no-heat", Level: Ask, Text: "what it does for heat could not be worked out from these figures", Line: p.Parts[0].Line})
		return
	}
	if !p.FaceKnown() || planned(p.Plan) && sheetUnjudged(p.Plan, sheet) { // no verdict on a face that nobody named
		got.Damp = candidate.NotSeen()
	}
	p.Offered = &got
	p.proud(j, given)
	p.squeezed(j, got)
	p.short(j, got)
	named := p.face(j, got)
	p.twoFaces(j)
	p.otherLines(j)
	p.rules(j, got, named)
}

// proud says what is true of a blanket that stands above the joists it lies
// between: nothing squeezes it, and nothing lies across the joist tops.
func (p *OfferedPlace) proud(j Job, g candidate.GivenStack) {
	l := g.Layers[0]
	if l.ProudIn <= 0 {
		return
	}
	g.Layers = slices.Clone(g.Layers)
	g.Layers[0].Closes = true
	closed, err := candidate.Given(j.Assessment.Answered, p.result(), j.Plan.Site, g)
	if err != nil {
		return
	}
	p.Closed = &closed
	s, label := j.System, p.Plan.Surface.Label
	p.find(Finding{
		ID: "joist-tops", Level: Note, Line: p.Parts[0].Line, Ref: practice,
		Text: fmt.Sprintf("%s between joists of %s, with open air above: nothing squeezes it, so it counts the %s of its label. With the wood%s it comes to about %s where the blankets meet over the joist tops, about %s where the tops stay bare",
			s.Inches(l.RoomIn), s.Inches(p.Plan.Surface.Frame.RoomIn), s.R(l.R), gapsTaken(*p.Offered), s.R(closed.Heat.AssemblyR), s.R(p.Offered.Heat.AssemblyR)),
		Ask: label + ": How wide are the blankets, and do they meet over the joist tops?",
	})
}

// gapsTaken names the gaps that the figures of a bid take for granted, whatever
// grade it promises; empty for none.
func gapsTaken(a candidate.Assessed) string {
	if a.Heat.VoidShare <= 0 {
		return ""
	}
	return " and gaps in " + percent(a.Heat.VoidShare) + " of the area, which are reckoned with whatever grade is promised,"
}

// products turns the lines into blankets. All of one place are of one fiber.
func (p *OfferedPlace) products(c *catalog.Catalog) (catalog.Material, []catalog.Product, bool) {
	var products []catalog.Product
	m, ok := c.Material(p.Parts[0].text("material"))
	if !ok {
		return m, nil, false
	}
	for _, part := range p.Parts {
		r, hasR := part.num("r")
		in, hasIn := part.num("thickness_in")
		if !hasR || !hasIn {
			return m, nil, false
		}
		if id := part.text("material"); id != m.ID {
			p.find(Finding{ID: "mixed", Level: Ask, Line: part.Line, Text: "layers of different fibers: compared by the first line only for fire and damp"})
		}
		products = append(products, p.product(part, r, in))
	}
	return m, products, true
}

// product is the blanket of one line, as wide as its bay.
func (p *OfferedPlace) product(part Part, r, in float64) catalog.Product {
	return catalog.Product{
		ID: "offered", Material: part.text("material"), Form: "batt", NominalR: r, ThicknessIn: in,
		WidthsIn: []float64{p.Plan.Surface.Frame.ClearIn}, LengthsIn: []float64{93}, Facings: []string{part.text("facing")},
	}
}

// squeezed says that a blanket thicker than its room has less than its label.
func (p *OfferedPlace) squeezed(j Job, a candidate.Assessed) {
	for i, l := range a.Layers {
		if !tooThick(l) {
			continue
		}
		level, line := Wrong, p.Parts[min(i, len(p.Parts)-1)].Line
		if squeezedAsPlanned(p.Plan, i, l) {
			level = Note
		}
		p.find(Finding{
			ID: "squeezed", Level: level, Line: line, Ref: catalog.Ref{Source: "squeezed-label", Known: catalog.Standard},
			Text: tooThickText(p.Plan, l, j.System),
			Ask:  askIf(level, roomAsk(p.Plan, l, j.System)),
		})
	}
	f := p.Plan.Surface.Frame
	if h := a.HeightIn; f.MustFill && h < f.RoomIn-j.Catalog().Settings.GapOKIn {
		p.find(Finding{
			ID: "too-thin", Level: Wrong, Line: p.Parts[0].Line,
			Text: fmt.Sprintf("%s in a bay of %s leaves an air gap", j.System.Inches(h), j.System.Inches(f.RoomIn)),
			Ask:  p.Plan.Surface.Label + ": Which blanket fills the bay to the drywall?",
		})
	}
}

// roomAsk asks for a blanket that has its R in the room there is; where none may
// lie, that the line goes.
func roomAsk(p plan.Place, l candidate.Layer, s units.System) string {
	if byChimney(p) && !planned(p) {
		return p.Surface.Label + ": Nothing goes in there as the plan stands. Will you take this line out?"
	}
	if l.RoomIn <= 0 {
		return fmt.Sprintf("%s: The room is %s deep and full without the second line. Do the lines lie side by side, and how much does each cover?", p.Surface.Label, s.Inches(p.Surface.Frame.RoomIn))
	}
	return fmt.Sprintf("%s: The room is %s deep. Which blanket has its full R in it?", p.Surface.Label, s.Inches(l.RoomIn))
}

// short compares with the target and with the plan.
func (p *OfferedPlace) short(j Job, a candidate.Assessed) {
	if byChimney(p.Plan) && !planned(p.Plan) {
		return // no R is wanted where nothing may lie
	}
	if p.Plan.Target.Required && a.Heat.ShortByR > 0 {
		level := Wrong
		if planned(p.Plan) && p.Plan.Choice.Heat.ShortByR >= a.Heat.ShortByR {
			level = Note // the plan knows: nothing that fits reaches it
		}
		p.find(Finding{ID: "short", Level: level, Line: p.Parts[0].Line, Text: "short by " + a.Heat.ShortOf(p.Plan.Target, j.System), Ask: askIf(level, p.Plan.Surface.Label+": What would reach the R the plan needs, in this frame?")})
	}
	if p.Closed != nil {
		a = *p.Closed // what bare joist tops cost is said with them
	}
	if !planned(p.Plan) || a.Heat.ShortByR > 0 || a.Heat.AssemblyR >= p.Plan.Choice.Heat.AssemblyR {
		return
	}
	// What is found must not hang on the units it is shown in.
	if got, want := a.Heat.AssemblyR, p.Plan.Choice.Heat.AssemblyR; units.US.R(got) != units.US.R(want) {
		p.find(Finding{ID: "less", Level: Note, Text: fmt.Sprintf("finished surface about %s, the plan %s", j.System.R(got), j.System.R(want))})
	}
}

func askIf(l Level, text string) string {
	if l < Ask {
		return ""
	}
	return text
}

// FaceKnown reports whether the bid says enough of its face for the damp
// check: which it has, and where it has one, toward which side.
func (p OfferedPlace) FaceKnown() bool {
	if len(p.Parts) == 0 {
		return false
	}
	face, said := p.Parts[0].Answers["facing"]
	_, side := p.Parts[0].Answers["facing_side"]
	return said && (face.Text == "none" || side || !sided(p.Plan))
}

// turned reports whether the face of a line lies away from the heated room.
func (p OfferedPlace) turned(part Part) bool {
	return part.text("facing_side") == "out" && sided(p.Plan)
}

// sided reports whether a face can lie the wrong way round in a place: on the
// walls of a crawl space neither side is the heated room's.
func sided(p plan.Place) bool { return !p.Surface.Kind.NoRoomSide }

// face compares face, side and damp with the plan. One missing paper is one
// line: what it does to the damp check is said in the same breath, and named
// reports that it was.
func (p *OfferedPlace) face(j Job, a candidate.Assessed) (named bool) {
	f := Finding{Level: Wrong, Line: p.Parts[0].Line, Ref: catalog.Ref{Source: "irc-r702-7", Known: catalog.Standard}}
	bare := a.Facing.Asked == candidate.RetarderWanted && a.Facing.Retarder() == "none" && planned(p.Plan) && p.Plan.Choice.Facing.Retarder() != "none"
	label := p.Plan.Surface.Label
	switch {
	case a.Facing.Turned && bare && p.Plan.Choice.Facing.OnBlanket == "none": // a sheet or paint does it there
		sheet := sheetText(j, p.Plan)
		f.ID, f.Text = "facing-side", "the face goes away from the heated room; the plan has no face here, and to slow damp air: "+sheet
		f.Ask = label + ": Why is there a face on the outer side, and who sees to this on the room side: " + sheet + "?"
	case a.Facing.Turned && bare:
		f.ID, f.Text = "facing-side", "the face goes away from the heated room; the plan wants it toward the room, where it slows damp air"
		f.Ask = label + ": Why is the face on the outer side?"
	case a.Facing.Turned:
		f.ID, f.Ref.Known = "facing-side", catalog.Memory
		f.Text = "the face goes away from the heated room"
		if !j.Plan.Site.TightBarred(j.Catalog()) { // there the damp comes from outdoors
			f.Text += ", where it can hold damp in"
		}
		if planned(p.Plan) && p.Plan.Choice.Facing.Retarder() == "none" {
			f.Text += "; the plan has none here"
		}
		f.Ask = label + ": Why is the face on the outer side?"
	case bare && p.FaceKnown() && a.Facing.PaintDoes && !a.Damp.Alarm():
		f.ID, f.Level, f.Ref.Known = "no-retarder", Ask, catalog.Memory
		f.Text = "nothing slows damp air from the room; from memory the code may accept painted drywall alone on this wall, the plan has more"
		f.Ask = label + ": What goes on the room side to slow damp air, or does the building department accept painted drywall alone?"
	case bare && p.FaceKnown():
		f.ID, f.Text = "no-retarder", "nothing slows damp air from the room, which this climate wants"
		f.Ask = label + ": What goes on the room side to slow damp air: paper face, sheet or paint?"
	case !planned(p.Plan) && a.Facing.OnBlanket != "none" && p.Plan.Surface.Kind.Unfaced != "" && !byChimney(p.Plan): // near heat a rule says it
		f.ID, f.Level, f.Ref = "face-unplanned", Ask, catalog.Ref{}
		f.Text = "a face where none belongs (" + p.Plan.Surface.Kind.Unfaced.In(j.System) + ")"
		f.Ask = label + ": Why has the blanket a face here? None belongs here."
	case planned(p.Plan) && a.Facing.OnBlanket != "none" && p.Plan.Choice.Facing.Retarder() == "none":
		f.ID, f.Level, f.Ref = "face-unplanned", Ask, catalog.Ref{}
		f.Text = "a face where the plan has none (" + p.Plan.Choice.Facing.Why + ")"
		f.Ask = label + ": Why has the blanket a face here? We planned it unfaced."
	}
	if planned(p.Plan) && p.Plan.Choice.Damp.Judged() && damp.Rank(a.Damp.Word) > damp.Rank(p.Plan.Choice.Damp.Word) {
		said := DampSaid(a.Damp, j.System) + "; with the plan it does not come to that"
		if f.ID != "" {
			f.Text += ". Damp check: " + said
			if a.Damp.Alarm() {
				f.Level, f.Ask = Wrong, f.Ask+" By the damp check it gets damp so."
			}
		} else {
			f.ID, f.Text, f.Ref = "damper", said, catalog.Ref{}
			f.Ask = label + ": By the damp check what you offer gets damp, and what we planned does not. What would you change so that it stays dry?"
			if !a.Damp.Alarm() {
				f.Level, f.Ask = Note, ""
			}
		}
	}
	if f.ID != "" {
		p.find(f)
	}
	return f.ID != ""
}

// between finds faces that lie between layers, old ones below included.
func (p *OfferedPlace) between() {
	if f := p.Parts[0].text("facing"); p.Plan.Surface.OldIn > 0 && f != "" && f != "none" {
		p.find(Finding{
			ID: "face-between", Level: Wrong, Line: p.Parts[0].Line, Ref: practice,
			Text: "a face over the old blanket: damp air stops there", Ask: p.Plan.Surface.Label + ": Does the new blanket come without a face?",
		})
	}
	for _, part := range p.Parts[1:] {
		if f := part.text("facing"); f != "" && f != "none" {
			p.find(Finding{
				ID: "face-between", Level: Wrong, Line: part.Line, Ref: practice,
				Text: "a face between the layers: damp air stops there", Ask: p.Plan.Surface.Label + ": Does the upper layer come without a face?",
			})
		}
	}
}

// gap asks about the air space of a chimney. While its width is not known
// nothing may go in beside it.
func (p *OfferedPlace) gap(j Job) {
	s := p.Plan.Surface
	if !byChimney(p.Plan) {
		return
	}
	width := s.Clearance.Text(j.System)
	f := Finding{
		ID: "gap", Level: Note, Ref: s.Clearance.Ref(), Text: "the air gap stays empty: " + width + "; " + s.Clearance.Reason,
		Ask: p.askBidder(fmt.Sprintf("How do you keep the %s of air empty, at every floor?", width)),
	}
	if s.Held() != "" {
		f.Level, f.Text = Stop, "KEEP THE GAP EMPTY, "+width+"; nothing goes in beside this chimney before that"
		f.Ask = p.askBidder("Which clearance does its listing name? Please show me the plate or the papers.")
		if s.Clearance.Brick {
			f.Ask = p.askBidder("Where does the brick stand (inside, in the wall, outside), and which clearance do you keep there?")
		}
	}
	p.find(f)
}

// board asks who does the board that the target needs: a blanket that meets it
// only with the board does not meet it without.
func (p *OfferedPlace) board(j Job) {
	need, name := p.Plan.Target.AddR, PartToBuy(p.Plan, j.System)
	by, line, got, said := p.partOf(boardBy, "board_r")
	if there := p.boardThere(); there > 0 && said && got > 0 {
		p.find(Finding{
			ID: "board", Level: Ask, Line: line, Ref: practice,
			Text: "names a board of " + j.System.R(got) + ", and you said that one of " + j.System.R(there) + " is there: the figures count on that one alone",
			Ask:  p.askBidder("Is your board of " + j.System.R(got) + " the one that is there, of " + j.System.R(there) + ", or a second one?"),
		})
	}
	if need <= 0 {
		return
	}
	f := Finding{ID: "board", Level: Ask, Line: line, Ref: practice, Text: "the " + name + " is not in this bid, and the figures count on it", Ask: p.askBidder("Who buys and fits the " + name + "? It is not in this bid.")}
	switch {
	case said && got > 0 && got < p.Plan.BoardR()-0.05:
		f.Level, f.Text = Wrong, "board of "+j.System.R(got)+", the plan counts on the "+name
		if old := p.Plan.Surface.CIR; old > 0 {
			f.Text = "board of " + j.System.R(got) + " in all, the plan counts on " + j.System.R(old) + " that is there and the " + name
		}
		f.Ask = p.askBidder("Does the board come with " + j.System.R(need) + "?")
	case said && got > 0:
		return
	case by == byBidder:
		f.Text, f.Ask = "does not say the R of the board in it", p.askBidder("Which R has the board? The plan counts on the "+name+".")
	case by != "":
		f.Level, f.Text, f.Ask = Note, "you buy and fit the "+name+" yourself; the figures count on it", ""
		p.BoardR = need
	default:
		p.BoardR = need
	}
	p.find(f)
}

// boardCautions asks about the board where the plan warns of it and the bid does
// not do better. A bid said to heed them hears them all the same: its word for
// that is soon taken for the board alone.
func (p *OfferedPlace) boardCautions() {
	if p.Offered != nil && !slices.ContainsFunc(p.Offered.Verdict.Safety, func(h rules.Hit) bool { return h.Rule.Effect.Need == boardNeed }) {
		return
	}
	f := Finding{ID: "board-caution", Level: Ask, Line: p.Parts[0].Line}
	ask := "With which board do you reckon, and is this in the price? "
	switch {
	case p.has(boardNeed):
		f.Level, ask = Note, "Where does the bid say who does this? "
	case p.boardThere() > 0:
		ask = "The board is there already, as I know it. Who sees to this, and is it in the price? "
	}
	texts := p.Plan.BoardCautions()
	if !planned(p.Plan) && p.Offered != nil { // what the bid brings to where the plan has nothing
		texts = plan.BoardTexts(p.Offered.Verdict.Safety)
	}
	for _, text := range texts {
		f.Text, f.Ask = text, p.askBidder(ask+text)
		p.find(f)
	}
}

// partOf is what the lines of the place say of a part beside the blanket: who
// does it, in which line, and which R it has.
func (p *OfferedPlace) partOf(by, r string) (who string, line int, got float64, said bool) {
	line = p.Parts[0].Line
	for _, part := range p.Parts {
		if w := part.text(by); w != "" {
			who, line = w, part.Line
		}
		if n, ok := part.num(r); ok {
			got, said, line = max(got, n), true, part.Line
		}
	}
	return who, line, got, said
}

// boardThere is the R of the board that is said to be there where the plan wants
// none beside it; 0 for none. A board that a bid names may be that one.
func (p *OfferedPlace) boardThere() float64 {
	if p.Plan.Target.AddR > 0 {
		return 0
	}
	return p.Plan.BoardR()
}

// result is the place with the board as the bid has it; one that is not in it is
// counted, and said to be.
func (p *OfferedPlace) result() candidate.PlaceResult {
	if _, _, got, said := p.partOf(boardBy, "board_r"); said && got > 0 && p.boardThere() == 0 {
		return withBoard(p.Plan, max(got-p.Plan.Surface.CIR, 0))
	}
	return p.Plan.PlaceResult
}

// planDamp says that the plan itself finds damp, unless the bid is drier.
func (p *OfferedPlace) planDamp(j Job) {
	if !getsDamp(p.Plan) {
		return
	}
	if settles(p.Plan, p.Offered) {
		return
	}
	p.find(Finding{
		ID: "plan-damp", Level: Ask, Text: "the plan says that this place gets damp (" + DampSaid(p.Plan.Choice.Damp, j.System) + "): settle that first",
		Ask: p.askBidder("By the damp check the build-up we planned gets damp. What would you change so that it stays dry?"),
	})
}

// rules names what the rule book says of the offered blanket and not of the
// planned one: paper left visible, fiber that burns beside a chimney, two
// sheets, a face that is wrong for the zone. What rests on a retarder that is
// missing, or on the damp check, is left out where it is named already, and
// where the face is not known.
func (p *OfferedPlace) rules(j Job, a candidate.Assessed, named bool) {
	for _, h := range a.Verdict.Excluded {
		p.excluded(h, p.Parts[0].Line)
	}
	for _, h := range a.Verdict.Safety {
		if len(h.Unknown) > 0 && asksOf(h.Rule, "exposed") && asksOf(h.Rule, "retarder") && !warned(p.Plan, h) { // what covers it nobody has said
			text := j.Catalog().Caution(h, j.System)
			p.find(Finding{ID: h.Rule.ID, Level: Ask, Line: p.Parts[0].Line, Text: text, Ask: p.askBidder(text), Ref: refOf(h)})
		}
		if len(h.Unknown) > 0 || warned(p.Plan, h) || asksOf(h.Rule, "add_outside_r") || onDamp(h.Rule) && (named || !p.FaceKnown()) {
			continue
		}
		f := Finding{ID: h.Rule.ID, Level: Note, Line: p.Parts[0].Line, Text: j.Catalog().Caution(h, j.System), Ref: refOf(h)}
		switch {
		case asksOf(h.Rule, bidFacts...):
			f.Level, f.Ask = Wrong, p.Plan.Surface.Label+": "+h.Rule.Title+". How do you deal with that?"
		case p.Plan.Stopped():
			continue // nobody works there: only what stops it is said
		}
		p.find(f)
	}
}

// bidFacts are what a bid itself can have wrong. A caution that asks of none of
// them is true whoever does the work, and only a note.
var bidFacts = []string{"overloaded", "two_retarders", "thin_board", "retarder", "damp_verdict", "wood_moisture", "mold_index"}

// asksOf reports whether the condition of a rule asks of one of some facts.
func asksOf(r *rules.Rule, facts ...string) bool {
	return slices.ContainsFunc(facts, func(name string) bool { return r.Where[name] != nil })
}

// onDamp reports whether a rule fires for a missing retarder, or for what the
// damp check finds.
func onDamp(r *rules.Rule) bool {
	return r.Where["retarder"] == "none" || asksOf(r, "damp_verdict", "wood_moisture", "mold_index")
}

func refOf(h rules.Hit) catalog.Ref {
	return catalog.Ref{Source: h.Rule.Source, Known: catalog.Known(h.Rule.Known)}
}

// warned reports whether the plan of the place says the same anyway.
func warned(p plan.Place, h rules.Hit) bool {
	for _, s := range p.Safety {
		if s.Rule.ID == h.Rule.ID {
			return true
		}
	}
	return false
}
