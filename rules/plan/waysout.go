package plan

import (
	"cmp"
	"slices"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/house"
	"battwright/rules/units"
)

// WayOut is one change after which a place neither gets wet nor molds, as far as the
// damp check can tell: worked out for the blanket that is chosen, alone.
type WayOut struct {
	ID   string // of the record
	Text string
	Word string // the verdict then
	But  string // what it leaves unmet: "SHORT by R-5 of R-19"; empty where it leaves no more than the plan
}

// waysOut works out what would cure the places that get wet or mold, first what leaves
// no R unmet, of that the best verdict first and then what is least work; nothing where
// answers are only tried.
func (a Assessment) waysOut(p *Plan) {
	for i := range p.Places {
		place := &p.Places[i]
		if place.Choice == nil || !place.Choice.Damp.Alarm() || place.Tried() {
			continue
		}
		for _, w := range a.Answered.List.Catalog().DampLayers().Ways {
			if out, ok := a.wayOut(place, w); ok {
				place.WaysOut = append(place.WaysOut, out)
			}
		}
		slices.SortStableFunc(place.WaysOut, func(x, y WayOut) int {
			return cmp.Or(asInt(x.But != "")-asInt(y.But != ""), damp.Rank(x.Word)-damp.Rank(y.Word))
		})
	}
}

// wayOut tries one way; false where it is no change, or cures nothing.
func (a Assessment) wayOut(p *Place, w catalog.DampWay) (WayOut, bool) {
	if w.NoBlanket {
		return noBlanket(p, w)
	}
	q, ok := a.Answered.List.Find(w.Ask)
	at := a.Answered.House.Place(p.Surface.ID)
	if !ok || at == nil || q.Scope == house.PlaceScope && !a.Answered.Has(at, strings.TrimPrefix(w.Ask, "place.")) {
		return WayOut{}, false
	}
	for _, typed := range w.Tries {
		answer, err := q.Parse(typed)
		if err != nil || a.isThere(q, at, answer, p, w.Number) {
			continue
		}
		now := answering(a.Answered, q, p.Surface.ID, answer)
		then, ok := alike(p, candidate.Assess(now, now.House.Place(p.Surface.ID), candidate.ResolveSite(now)), a.Answered.List.Catalog())
		if !ok || !then.Choice.Damp.Judged() || then.Choice.Damp.Alarm() || then.Choice.Excluded() {
			continue
		}
		s := a.Answered.System
		out := WayOut{ID: w.ID, Text: wayText(w, answer, s), Word: then.Choice.Damp.Word}
		if then.Surface.Kind.ID != p.Surface.Kind.ID {
			out.Text += ": " + then.Choice.Name
			if then.Target.AddR > 0 {
				out.Text += " and " + s.R(then.Target.AddR) + " board"
			}
		}
		if then.Choice.Heat.ShortByR > p.Choice.Heat.ShortByR {
			out.But = then.ShortText(s)
		}
		return out, true
	}
	return WayOut{}, false
}

// alike is the place after an answer with the blanket that is chosen now, or, where the
// answer makes another kind of it, with what would be chosen then.
func alike(p *Place, r candidate.PlaceResult, c *catalog.Catalog) (Place, bool) {
	if r.Surface.Kind.ID != p.Surface.Kind.ID {
		then := weighPlace(c, r, p.Weights, (*Place).unjudgedChoice)
		return then, then.Choice != nil
	}
	i := slices.IndexFunc(r.Candidates, func(x candidate.Assessed) bool { return x.Like(&p.Choice.Assessed) && !x.Excluded() })
	if i < 0 || len(stopsOf(r.Verdict)) > 0 {
		return Place{}, false
	}
	r.Dampen(i)
	return Place{PlaceResult: r, Choice: &Entry{Assessed: r.Candidates[i]}}, true
}

// noBlanket tries the place as it is without a blanket.
func noBlanket(p *Place, w catalog.DampWay) (WayOut, bool) {
	d, asked, ok := p.DampWithout()
	if !ok || !d.Judged() || d.Alarm() {
		return WayOut{}, false
	}
	if asked != "" {
		asked += " is asked"
	}
	return WayOut{ID: w.ID, Text: w.Text, Word: d.Word, But: asked}, true
}

// wayText is a way with the figure that was tried.
func wayText(w catalog.DampWay, answer house.Answer, s units.System) string {
	if w.Number {
		return w.Text + " " + s.R(answer.Number)
	}
	return w.Text
}

// isThere reports whether an answer is what holds already, or less than that.
func (a Assessment) isThere(q house.Question, at *house.Place, answer house.Answer, p *Place, number bool) bool {
	if number {
		return answer.Number <= p.BoardR()
	}
	return a.Answered.ValueOf(q, at).Answer.Equal(answer)
}
