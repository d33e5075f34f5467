package plan

import (
	"slices"
	"sort"

	"battwright/rules/damp"
	"battwright/rules/house"
)

// FindOut is the list of what is unknown, ranked by whether an answer can
// change the plan. For each unknown every possible answer is tried and what it
// reaches worked out again: "matters" is computed, not guessed. tell hears how many
// questions of all were looked at, and with false stops the work; ok is false then.
func (a Assessment) FindOut(p Preferences, base Plan, tell func(done, all int) bool) (list []Said, ok bool) {
	out := a.withCode(base.Unknown)
	weight := make([]int, len(out))
	t := a.trial(p, base)
	for i := range out {
		if !tell(i, len(out)) {
			return nil, false
		}
		weight[i] = t.tryAnswers(&out[i])
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
	return sorted, true
}

// Whole is for who waits for all of a work.
func Whole(_, _ int) bool { return true }

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
	dampEffect    = "the damp check took the worst that it may be: your answer may show that the place stays sound"
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
func (t trial) tryAnswers(s *Said) int {
	q, ok := t.Answered.List.Find(s.Key)
	if !ok {
		return 0
	}
	q = t.Answered.Offered(q, t.Answered.House.Place(s.Place))
	if t.givesZone(q) {
		s.Matters, s.Effect = true, zoneEffect
		return givesTargets
	}
	if s.Key == drawingsKey && len(t.base.Undrawn) > 0 {
		s.Matters, s.Effect = true, drawingEffect
		return winsOverAll
	}
	if q.FullKey() == "old" && t.oldCanStop() {
		s.Matters, s.Effect = true, oldEffect
		return stopsPlace
	}
	if len(t.base.Places) == 0 {
		s.Effect = noPlaceEffect
		return 0
	}
	hinge := t.base.hingeOf(*s, t.Answered.System)
	if q.ForDamp && hinge == "" {
		return t.calms(s)
	}
	most := 0
	for _, answer := range possible(q) {
		if w, effect := t.tryOne(q, s.Place, answer, most); w > most {
			most, s.Effect = w, effect
		}
		if most == stopsPlace {
			break // no answer does more
		}
	}
	if q.Safety && most < changesCaution {
		most, s.Effect = changesCaution, cautionEffect
	}
	if hinge != "" && most < stopsPlace {
		most, s.Effect = changesChoice, hinge
	}
	s.Matters = most >= changesBlanket
	if s.Key == codeKey && s.Matters {
		return setsTargets
	}
	return most
}

// calms: what the check of damp was not told was tried in every usual way, and the
// worst counts. Where a place alarms each answer was tried (Place.Hinges); elsewhere one
// can only calm, and changes nothing where it holds.
func (t trial) calms(s *Said) int {
	i := slices.IndexFunc(t.base.Places, func(p Place) bool { return p.Surface.ID == s.Place })
	if i < 0 || t.base.Places[i].Choice == nil {
		return 0
	}
	if effect := t.base.Places[i].coverEffect(); effect != "" && s.Key == coverKey {
		s.Matters, s.Effect = true, effect
		return changesBlanket
	}
	if d := t.base.Places[i].Choice.Damp; d.Judged() && !d.Alarm() && d.Word != damp.Holds {
		s.Effect = dampEffect
		return changesCaution
	}
	return 0
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
