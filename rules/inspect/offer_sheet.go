package inspect

import (
	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/plan"
)

// twoFaces finds a sheet over a face: two retarders on one side.
func (p *OfferedPlace) twoFaces(j Job) {
	face, _ := j.Catalog().Facing(p.Parts[0].text("facing"))
	sheet, ok := j.Catalog().Facing(p.Parts[0].text("sheet"))
	if face.ID == "" || face.ID == "none" || !ok || sheet.ID == "none" || sheet.ID == "paint" {
		return
	}
	if p.Offered != nil && sheet.Class == "I" && (p.Offered.Facing.TwoSheets || p.Plan.Surface.Kind.Boundary == "soil" || j.Plan.Site.TightBarred(j.Catalog())) {
		p.find(Finding{
			ID: "two-retarders-inside", Level: Wrong, Line: p.Parts[0].Line, Ref: practice,
			Text: "two retarders, " + face.Name + " and " + sheet.Name + ": the sheet comes out, it traps damp here",
			Ask:  p.Plan.Surface.Label + ": Will you leave the " + sheet.Name + " out?",
		})
		return
	}
	p.find(Finding{
		ID: "two-retarders-inside", Level: Wrong, Line: p.Parts[0].Line, Ref: practice,
		Text: "two retarders, " + face.Name + " and " + sheet.Name + ": one of them comes out",
		Ask:  p.Plan.Surface.Label + ": Which of the two stays, the face or the sheet?",
	})
}

// looseSheet finds a sheet in a place where the plan never has one: near heat it
// burns, in the hottest zones it traps damp from outdoors, elsewhere somebody must
// say what it is for.
func (p *OfferedPlace) looseSheet(j Job) {
	kind := p.Plan.Surface.Kind.Retarder
	if kind == catalog.RetarderByTable || kind == catalog.RetarderByZone {
		return // the rules of a room side have it
	}
	for _, part := range p.Parts {
		sheet, ok := j.Catalog().Facing(part.text("sheet"))
		if !ok || sheet.ID == "none" {
			continue
		}
		f := Finding{ID: "loose-sheet", Level: Ask, Line: part.Line, Ref: practice, Text: sheet.Name + ", and the plan has none here"}
		f.Ask = p.askBidder("What is the " + sheet.Name + " for? The plan has none here.")
		switch {
		case byChimney(p.Plan) && sheet.ID == "paint" && p.has(flueRetarder):
			f.Level, f.Ask = Note, ""
			f.Text = sheet.Name + " near heat: only on the room face of the drywall, as the building department allows"
		case byChimney(p.Plan) && sheet.ID == "paint":
			f.Text = sheet.Name + " near heat: only on the room face of the drywall, and only if the building department allows it this near a flue"
			f.Ask = p.askBidder("Has the building department said in writing that the " + sheet.Name + " may go on the drywall this near the flue?")
		case byChimney(p.Plan):
			f.Level, f.Text = Stop, sheet.Name+" does not belong near heat: nothing lies beside a chimney but what the plan has"
			f.Ask = p.askBidder("Will you leave the " + sheet.Name + " out?")
		case p.Plan.Surface.OldIn > 0:
			f.Level, f.Text = Wrong, sheet.Name+" over the old blanket: damp air stops there"
			f.Ask = p.askBidder("Will you leave the " + sheet.Name + " out?")
		case j.Plan.Site.TightBarred(j.Catalog()) && sheet.Class == "I":
			f.Level, f.Text = Wrong, sheet.Name+": in this climate it traps damp from outdoors"
			f.Ask = p.askBidder("Will you leave the " + sheet.Name + " out?")
		case sheet.Class == "I": // finished work with it fails, so it is no open question
			f.Level, f.Text = Wrong, f.Text+": the damp behind it could not get out"
			f.Ask = p.askBidder("Will you leave the " + sheet.Name + " out?")
		}
		p.find(f)
	}
}

// sheetUnjudged reports whether the damp check cannot judge a sheet: nobody can hang
// one over a floor from below, so it lies on the side that the check does not take
// it on.
func sheetUnjudged(p plan.Place, sheet string) bool {
	return p.Surface.Kind.OpenBelow() && sheet != "" && sheet != p.Choice.Facing.Sheet
}

// otherLines names what the rule book keeps out of a place in the lines after the
// first, which alone is worked out: another fiber, or another face.
func (p *OfferedPlace) otherLines(j Job) {
	first := p.Parts[0]
	for _, part := range p.Parts[1:] {
		m, ok := j.Catalog().Material(part.text("material"))
		r, _ := part.num("r")
		in, _ := part.num("thickness_in")
		if !ok || in <= 0 || part.text("material") == first.text("material") && part.text("facing") == first.text("facing") && p.turned(part) == p.turned(first) {
			continue
		}
		got, err := candidate.Given(j.Assessment.Answered, p.result(), j.Plan.Site, candidate.GivenStack{Material: m, Layers: layersIn(j.Catalog(), p.Plan, []catalog.Product{p.product(part, r, in)}), Facing: part.text("facing"), Turned: p.turned(part)})
		if err != nil {
			continue
		}
		for _, h := range got.Verdict.Excluded {
			p.excluded(h, part.Line)
		}
		for _, h := range got.Verdict.Safety {
			if need := h.Rule.Effect.Need; need == "fire-mark-fiber" && !warned(p.Plan, h) {
				p.find(Finding{ID: h.Rule.ID, Level: Ask, Line: part.Line, Text: h.Text, Ask: p.askBidder(h.Text), Ref: refOf(h)})
			}
		}
	}
}

// excluded is a fiber or a face that the rule book keeps out of the place: beside a
// chimney it stops the work.
func (p *OfferedPlace) excluded(h rules.Hit, line int) {
	level := Wrong
	if p.Plan.Surface.Kind.BesideChimney {
		level = Stop
	}
	p.find(Finding{ID: h.Rule.ID, Level: level, Line: line, Text: h.Text, Ask: p.Plan.Surface.Label + ": " + h.Rule.Title + ". What do you put in instead?", Ref: refOf(h)})
}
