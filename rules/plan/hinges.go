package plan

import (
	"math"
	"slices"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Hinge is an answer that nobody gave and that decides about damp: the check took it
// otherwise, and with this one the place gets another blanket, or its alarm goes.
type Hinge struct {
	Key   string      // full key of the question
	If    string      // the answer in words: "with a dehumidifier from May to September"
	Calms bool        // as it is taken, the place gets wet or molds
	Edge  bool        // with it, the place is borderline
	To    string      // the material then
	Same  bool        // which is the one there is
	Costs units.Cents // what it costs more, typically; below 0: less
}

// Text says what would change, and at which place where that has a name.
func (h Hinge) Text(place string, s units.System) string {
	var out []string
	if h.Calms {
		sound := "stay sound"
		if h.Edge {
			sound = "be borderline, no more"
		}
		out = append(out, "by the damp check the place would "+sound)
	}
	if !h.Same {
		to := h.To
		if place != "" {
			to += " for " + place
		}
		switch cost := s.MoneyAbout(max(h.Costs, -h.Costs)); {
		case h.Costs < 0:
			to += ", about " + cost + " less"
		case h.Costs > 0:
			to += ", about " + cost + " more"
		}
		out = append(out, to)
	}
	text := h.If + ": "
	for i, x := range out {
		if i > 0 {
			text += ", with "
		}
		text += x
	}
	return text
}

// dampTry is an answer that the damp check hears and nobody gave.
type dampTry struct {
	q      house.Question
	answer house.Answer
	words  string
}

// hinges works out, for the places in which the damp check turned a blanket down or
// finds the choice itself wet or moldy, which answer that nobody gave would change
// that. In all other places none would: what nobody said was taken at its worst.
func (a Assessment) hinges(p *Plan, prefs Preferences) {
	for i := range p.Places {
		place := &p.Places[i]
		own := place.own()
		if own == nil || place.Tried() || !own.Damp.Judged() || !place.dampDecides() {
			continue
		}
		for _, t := range a.dampTries(place) {
			if len(place.Hinges) > 0 && place.Hinges[len(place.Hinges)-1].Key == t.q.FullKey() {
				continue // the least that does it is enough
			}
			if h, ok := a.hinge(place, own, t, prefs); ok {
				place.Hinges = append(place.Hinges, h)
			}
		}
	}
}

// own is what a place gets by itself, before the budget has a say.
func (p *Place) own() *Entry {
	if p.Best != nil && !p.pinned() {
		return p.Best
	}
	return p.Choice
}

// dampDecides reports whether something that may go there gets wet or molds.
func (p *Place) dampDecides() bool {
	return slices.ContainsFunc(p.Candidates, func(x candidate.Assessed) bool { return !x.Excluded() && x.Damp.Alarm() })
}

// dampTries are the answers to try, those to one question in a row: what may cure a
// damp place, and what the check of damp alone is told. A figure is tried only where
// the choice itself is damp.
func (a Assessment) dampTries(p *Place) []dampTry {
	at, list := a.Answered.House.Place(p.Surface.ID), a.Answered.List
	l := list.Catalog().DampLayers()
	var out []dampTry
	add := func(q house.Question, answer house.Answer, words string) {
		if v := a.Answered.ValueOf(q, at); !v.Answer.Equal(answer) || v.Source == house.FromUnknown {
			out = append(out, dampTry{q, answer, words})
		}
	}
	for _, w := range l.Ways {
		q, ok := list.Find(w.Ask)
		if !ok || w.Planned || !a.nobodySaid(q, at) || w.Number && !p.own().Damp.Alarm() {
			continue
		}
		for _, typed := range w.Tries {
			answer, err := q.Parse(typed)
			if err == nil && !(w.Number && answer.Number <= p.BoardR()) {
				add(q, answer, "with "+wayText(w, answer, a.Answered.System))
			}
		}
	}
	inWays := func(q house.Question) bool {
		return slices.ContainsFunc(l.Ways, func(w catalog.DampWay) bool { return w.Ask == q.FullKey() })
	}
	for _, q := range list.In(house.PlaceScope, at.Kind) {
		if !q.ForDamp || inWays(q) || !a.nobodySaid(q, at) {
			continue
		}
		for _, answer := range a.dampAnswers(q, at, l) {
			add(q, answer, "if \""+q.Show(answer, a.Answered.System)+"\"")
		}
	}
	return out
}

// nobodySaid reports whether a question is asked and was not answered.
func (a Assessment) nobodySaid(q house.Question, at *house.Place) bool {
	return a.Answered.Asked(q, at) && a.Answered.ValueOf(q, at).Source != house.FromAnswer
}

// dampAnswers are the answers to a question that the check of damp alone hears; of a
// pitch the two that are tried while nobody says.
func (a Assessment) dampAnswers(q house.Question, at *house.Place, l *catalog.Layers) []house.Answer {
	if q.Kind != house.NumberKind {
		return possible(a.Answered.Offered(q, at))
	}
	var out []house.Answer
	for _, deg := range []float64{l.LowPitchDeg, l.HighPitchDeg} {
		out = append(out, house.Number(math.Round(units.PitchOf(deg))))
	}
	return out
}

// hinge tries one answer.
func (a Assessment) hinge(p *Place, own *Entry, t dampTry, prefs Preferences) (Hinge, bool) {
	now := answering(a.Answered, t.q, p.Surface.ID, t.answer)
	c := a.Answered.List.Catalog()
	r := candidate.Assess(now, now.House.Place(p.Surface.ID), candidate.ResolveSite(now))
	then := weighPlace(c, r, weightsOf(c, prefs.Priorities, prefs.Places[p.Surface.ID]), (*Place).unjudgedChoice)
	if then.Choice == nil || !then.Choice.Damp.Judged() || then.Choice.Damp.Alarm() {
		return Hinge{}, false
	}
	h := Hinge{Key: t.q.FullKey(), If: t.words, Calms: own.Damp.Alarm(), Edge: then.Choice.Damp.Word == damp.Edge, To: then.Choice.Name, Same: then.Choice.MaterialID == own.MaterialID}
	h.Costs = p.More(&then.Choice.Assessed) - p.More(&own.Assessed)
	return h, h.Calms || !h.Same
}

// hingeOf says what another answer to a question would change about damp; empty where
// nothing does.
func (p Plan) hingeOf(s Said, sys units.System) string {
	text := ""
	for i := range p.Places {
		place := &p.Places[i]
		if s.Place != "" && s.Place != place.Surface.ID {
			continue
		}
		for _, h := range place.Hinges {
			if h.Key == s.Key {
				if text != "" {
					text += "; "
				}
				text += h.Text(place.Surface.Label, sys)
			}
		}
	}
	return text
}
