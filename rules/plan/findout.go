package plan

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/house"
)

// FindOut is the list of what is unknown, ranked by whether an answer can
// change the plan. For each unknown every possible answer is tried and the
// plan worked out again: "matters" is computed, not guessed.
func (a Assessment) FindOut(p Preferences, base Plan) []Said {
	out := a.withCode(base.Unknown)
	weight := make([]int, len(out))
	for i := range out {
		weight[i] = a.tryAnswers(&out[i], p, base)
	}
	index := make([]int, len(out))
	for i := range index {
		index[i] = i
	}
	sort.SliceStable(index, func(i, j int) bool { return weight[index[i]] > weight[index[j]] })
	sorted := make([]Said, 0, len(out))
	for _, at := range index {
		if s := out[at]; s.Key != codeKey || s.Matters || slices.ContainsFunc(base.Unknown, s.is) {
			sorted = append(sorted, s)
		}
	}
	return sorted
}

// withCode adds the year of the code where it was never said: assumed as it is,
// it is asked for when another year changes the plan.
func (a Assessment) withCode(unknown []Said) []Said {
	out := append([]Said{}, unknown...)
	q, ok := a.Answered.List.Find(codeKey)
	if v := a.Answered.ValueOf(q, nil); ok && v.Source == house.FromDefault {
		out = append(out, Said{Key: codeKey, Prompt: q.Prompt.In(a.Answered.System)})
	}
	return out
}

// is reports whether two lines are about the same answer.
func (s Said) is(other Said) bool { return s.Key == other.Key && s.Place == other.Place }

// Weights of what an answer can change, for ranking only.
const (
	winsOverAll    = 300
	setsTargets    = 200
	stopsPlace     = 100
	changesChoice  = 20
	changesBlanket = 5
	changesCaution = 1
	givesTargets   = 50
)

// Effects that are not read off another plan.
const (
	drawingEffect = "they win over the model code, which stands in for them until you type them"
	oldEffect     = "if \"yes\": old wiring or old loose fill can stop the work at any place; find out before anything is covered"
	zoneEffect    = "without the climate zone there is no target, no facing rule and no damp check"
	dutyEffect    = "changes no blanket, but what to look out for: find out before work begins"
	noPlaceEffect = "what it changes can be told when the house has places"
	cautionEffect = "changes no blanket, but is about safety: find out before work begins"
)

// givesZone: state and county are free text, so no answer is tried. Together
// they tell the climate zone, and without it there is hardly a plan.
func (a Assessment) givesZone(q house.Question) bool {
	return a.Site.Zone == "" && (q.FullKey() == "site.state" || q.FullKey() == "site.county")
}

// oldCanStop reports whether a place could hold old wiring or old fill. The
// questions about these are asked once the house is known to have old parts.
func (a Assessment) oldCanStop() bool {
	q, ok := a.Answered.List.Find("place.knob_and_tube")
	return ok && slices.ContainsFunc(a.Answered.House.Places, func(p house.Place) bool { return q.For(p.Kind) })
}

// tryAnswers fills in what another answer would change and returns how much.
func (a Assessment) tryAnswers(s *Said, p Preferences, base Plan) int {
	q, ok := a.Answered.List.Find(s.Key)
	if !ok {
		return 0
	}
	q = a.Answered.Offered(q, a.Answered.House.Place(s.Place))
	if a.givesZone(q) {
		s.Matters, s.Effect = true, zoneEffect
		return givesTargets
	}
	if s.Key == drawingsKey && len(base.Undrawn) > 0 {
		s.Matters, s.Effect = true, drawingEffect
		return winsOverAll
	}
	if q.FullKey() == "old" && a.oldCanStop() {
		s.Matters, s.Effect = true, oldEffect
		return stopsPlace
	}
	if len(base.Places) == 0 {
		s.Effect = noPlaceEffect
		return 0
	}
	most := 0
	for _, answer := range possible(q) {
		if w, effect := a.tryOne(q, s.Place, answer, p, base); w > most {
			most, s.Effect = w, effect
		}
		if most == stopsPlace {
			break // no answer does more
		}
	}
	if q.Safety && most < changesCaution {
		most, s.Effect = changesCaution, cautionEffect
	}
	s.Matters = most >= changesBlanket
	if s.Key == codeKey && s.Matters {
		return setsTargets
	}
	return most
}

func (a Assessment) tryOne(q house.Question, placeID string, answer house.Answer, p Preferences, base Plan) (int, string) {
	base, other := a.tried(q, placeID, answer, p, base)
	words := q.Show(answer, a.Answered.System)
	for i, place := range other.Places {
		if i >= len(base.Places) {
			break
		}
		for _, s := range place.Stops {
			if !slices.ContainsFunc(base.Places[i].Stops, func(b Stop) bool { return b.Danger == s.Danger }) {
				return stopsPlace, fmt.Sprintf("if %q: no plan for %s yet: %s", words, place.Surface.Label, s.Brief())
			}
		}
	}
	weight, effect := 0, ""
	for _, c := range Changes(base, other) {
		if !c.OfWork() {
			continue
		}
		w, text := changesBlanket, fmt.Sprintf("if %q: another blanket or sheet for %s", words, c.Label)
		if c.From != c.To {
			to := c.To
			if to == "" {
				to = "no blanket"
			}
			w, text = changesChoice, fmt.Sprintf("if %q: %s for %s", words, to, c.Label)
		}
		if w > weight {
			weight, effect = w, text
		}
	}
	if weight == 0 && cautions(other) != cautions(base) {
		return changesCaution, dutyEffect
	}
	return weight, effect
}

// tried gives the plan with another answer beside the plan as it is. Without a
// budget a place is chosen for by itself, so both hold only the places that the
// answer reaches.
func (a Assessment) tried(q house.Question, placeID string, answer house.Answer, p Preferences, base Plan) (before, after Plan) {
	now := answering(a.Answered, q, placeID, answer)
	if p.HasBudget {
		reach := WholeHouse
		if q.Scope == house.PlaceScope {
			reach = OnePlace
		}
		return base, a.Redo(now, reach, placeID).weighed(p)
	}
	a.again(now, placeID, func(i int, r candidate.PlaceResult, same bool) {
		if !same {
			before.Places = append(before.Places, base.Places[i])
			after.Places = append(after.Places, weighOne(now.List.Catalog(), r, p))
		}
	})
	return before, after
}

// answering is a house with one more answer; what is not about it is shared.
func answering(a house.Answered, q house.Question, placeID string, answer house.Answer) house.Answered {
	a.House = a.House.CloneFor(placeID)
	if q.Scope != house.PlaceScope {
		a.House.Answers = a.House.Answers.Clone()
	}
	a.Store(q, a.House.Place(placeID), answer)
	return a
}

func cautions(p Plan) string {
	var b strings.Builder
	for _, place := range p.Places {
		for _, h := range place.Safety {
			b.WriteString(place.Surface.ID + "/" + h.Rule.ID + ";")
		}
	}
	return b.String()
}

// possible lists the answers that are tried. A number is tried well below and
// well above what is assumed meanwhile.
func possible(q house.Question) []house.Answer {
	var out []house.Answer
	switch q.Kind {
	case house.Choice:
		for _, o := range q.Options {
			out = append(out, house.Text(o.Value))
		}
	case house.YesNoKind:
		out = append(out, house.YesNo(true), house.YesNo(false))
	case house.NumberKind:
		for _, share := range []float64{0, 0.1, 0.25, 0.5} {
			v := q.Min + share*(q.Max-q.Min)
			if q.Whole {
				v = float64(int(v))
			}
			out = append(out, house.Number(v))
		}
	}
	return out
}
