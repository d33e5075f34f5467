package house

import (
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// The R-values that approved drawings name, by the part of the house. They win
// over the model code in every place of that part; a place's own R wins over
// them.

func drawingQuestions(c *catalog.Catalog) []Question {
	var out []Question
	for _, d := range c.Drawings {
		asked := func(a Answered, _ *Place) bool {
			if !a.drawingsNameR() {
				return a.drawnFor(d) // typed all the same: asked, so that it can be taken out
			}
			return slices.Contains(a.drawnOfHouse(), d.ID)
		}
		out = append(out, Question{
			Scope: Drawings, Key: d.ID, Kind: NumberKind, Unit: "R", Max: 100, DontKnow: true, Rough: true, Asked: asked,
			Prompt: units.Prose("Which R-value do your drawings name for the " + d.Name + "?"), How: d.How,
		})
		if d.Board != "" {
			out = append(out, Question{
				Scope: Drawings, Key: d.ID + "_board", Kind: NumberKind, Unit: "R", Max: 100, Optional: true, Rough: true, Asked: asked,
				Prompt: units.Prose("Which R-value for a foam board " + d.Board + "?"), How: "Leave it empty if they name no board there.",
			})
		}
	}
	return out
}

// drawingsNameR: the drawings are said to name R-values. Where nobody said
// whether they do, a figure of theirs says it.
func (a Answered) drawingsNameR() bool {
	if said := a.House.Answers["drawings"]; said.State == Given {
		return said.Bool
	}
	return a.drawnFigure()
}

// drawnFigure reports whether an R-value of the drawings was typed.
func (a Answered) drawnFigure() bool {
	return slices.ContainsFunc(a.List.catalog.Drawings, a.drawnFor)
}

// drawnFor reports whether one was typed for a part of the house.
func (a Answered) drawnFor(d catalog.Drawing) bool {
	return a.House.Answers["drawing_r."+d.ID].State == Given || a.House.Answers["drawing_r."+d.ID+"_board"].State == Given
}

func drawingsByFigure(a Answered, _ *Place) Answer {
	if a.drawnFigure() {
		return YesNo(true)
	}
	return Answer{}
}

// drawnPart is the part of the house that a place belongs to, empty for none.
func (a Answered) drawnPart(p *Place) string {
	k := a.KindOf(p)
	if k.BesideChimney && !inOutsideWall(p) {
		return ""
	}
	return k.Drawing
}

// drawnOfHouse are the parts that the house has: by its places, and before
// there are any by those that its shape will propose.
func (a Answered) drawnOfHouse() []string {
	h := a.House
	if len(h.Places) == 0 {
		h = h.Clone()
		Propose(a.List, h)
	}
	var out []string
	for i := range h.Places {
		out = append(out, a.drawnPart(&h.Places[i]))
	}
	return out
}

// DrawnR is what the drawings or a local rule name for a place: the R of the
// blanket and of a board beside it. ok is false while they name nothing for it:
// nobody typed the blanket's R yet, or 0 stands there for none and no board
// beside it. A board alone does not tell what the blanket must have.
func (a Answered) DrawnR(p *Place) (r, boardR float64, ok bool) {
	if own := a.Value(PlaceScope, p, "target_r"); own.Source == FromAnswer {
		return own.Answer.Number, 0, true
	}
	part := a.drawnPart(p)
	if part == "" || !a.drawingsNameR() {
		return 0, 0, false
	}
	blanket, board := a.House.Answers["drawing_r."+part], a.House.Answers["drawing_r."+part+"_board"]
	if a.kindOf(p).BesideChimney { // foam stays away from it
		board = Answer{}
	}
	if blanket.State != Given || blanket.Number == 0 && board.Number == 0 {
		return 0, 0, false
	}
	return blanket.Number, board.Number, true
}

// DrawingsOpen are the places whose R the drawings are said to name, but nobody
// typed.
func (a Answered) DrawingsOpen() []*Place {
	if !a.drawingsNameR() {
		return nil
	}
	var out []*Place
	for i := range a.House.Places {
		p := &a.House.Places[i]
		own, part := a.Value(PlaceScope, p, "target_r"), a.drawnPart(p)
		if own.Source != FromAnswer && part != "" && a.House.Answers["drawing_r."+part].State != Given {
			out = append(out, p)
		}
	}
	return out
}

// OfHouse are the questions about the house itself in the order in which they
// are asked. The drawings come last: which of their figures are asked for
// hangs on the shape. What is out of the question is asked with what matters.
func (l *QuestionList) OfHouse() []Question {
	var first, last []Question
	for _, q := range l.In(Top, "") {
		switch {
		case q.LaterAsked():
		case q.Key == "drawings":
			last = append(last, q)
		default:
			first = append(first, q)
		}
	}
	return slices.Concat(first, l.In(Site, ""), l.In(Shape, ""), last, l.In(Drawings, ""))
}
