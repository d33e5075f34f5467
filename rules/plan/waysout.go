package plan

import (
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
}

// waysOut works out what would cure the places that get wet or mold, the best verdict
// first and then what is least work; nothing where answers are only tried.
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
		slices.SortStableFunc(place.WaysOut, func(x, y WayOut) int { return damp.Rank(x.Word) - damp.Rank(y.Word) })
	}
}

// wayOut tries one way; false where it is no change, or cures nothing.
func (a Assessment) wayOut(p *Place, w catalog.DampWay) (WayOut, bool) {
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
		r := candidate.Assess(now, now.House.Place(p.Surface.ID), candidate.ResolveSite(now))
		i := slices.IndexFunc(r.Candidates, func(x candidate.Assessed) bool { return x.Like(&p.Choice.Assessed) && !x.Excluded() })
		if i < 0 || len(stopsOf(r.Verdict)) > 0 {
			continue
		}
		if r.Dampen(i); !r.Candidates[i].Damp.Judged() || r.Candidates[i].Damp.Alarm() || r.Candidates[i].Excluded() {
			continue
		}
		return WayOut{w.ID, wayText(w, answer, a.Answered.System), r.Candidates[i].Damp.Word}, true
	}
	return WayOut{}, false
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
