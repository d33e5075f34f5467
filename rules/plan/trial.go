package plan

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/house"
)

// trial is what every answer that is tried is held against.
type trial struct {
	Assessment
	p     Preferences
	base  Plan
	alone []Place // each weighed by itself, before the budget has a say

	// What other places tell of each, and what it is where they tell something else:
	// an answer about any of them may be the one that does.
	told   []candidate.Told
	byTold map[toldTo]*reached
}

type toldTo struct {
	at   int
	told candidate.Told
}

func (a Assessment) trial(p Preferences, base Plan) trial {
	t := trial{Assessment: a, p: p, base: base, alone: base.Places, byTold: map[toldTo]*reached{}}
	for i := range a.Answered.House.Places {
		t.told = append(t.told, candidate.ToldOf(a.Answered, &a.Answered.House.Places[i]))
	}
	if p.HasBudget {
		t.alone = a.weighedAlone(p)
	}
	return t
}

// reached is a place that an answer reaches, and where it stands in the house.
type reached struct {
	candidate.Begun
	at    int
	place *Place // once it is weighed
}

// tryOne tells how much an answer would change and what. Where that is no more than
// most it need not be right. What stops a place weighs most, so it is looked for
// first and everywhere; blankets are worked out only while they can weigh more.
func (t trial) tryOne(q house.Question, placeID string, answer house.Answer, most int) (int, string) {
	places, words := t.reach(q, placeID, answer), q.Show(answer, t.Answered.System)
	for _, x := range places {
		for _, s := range t.stops(x) {
			if !slices.ContainsFunc(t.base.Places[x.at].Stops, func(b Stop) bool { return b.Danger == s.Danger }) {
				return stopsPlace, fmt.Sprintf("if %q: no plan for %s yet: %s", words, x.Surface.Label, s.Brief())
			}
		}
	}
	switch {
	case most >= changesChoice:
		return 0, ""
	case t.p.HasBudget:
		counter, ok := t.counting(q, placeID, answer)
		if len(places) == 0 && !ok {
			return 0, ""
		}
		return effectOf(t.base.Places, t.afforded(places, counter), words)
	}
	weight, effect := 0, ""
	for _, x := range places {
		if w, text := effectOf(t.base.Places[x.at:][:1], []Place{t.weigh(x)}, words); w > weight {
			weight, effect = w, text
		}
		if weight == changesChoice {
			break
		}
	}
	return weight, effect
}

// reach begins again what an answer can reach, and gives what it does reach. What
// other places tell of a place is compared first: it is less than all about it.
func (t trial) reach(q house.Question, placeID string, answer house.Answer) []*reached {
	now := answering(t.Answered, q, placeID, answer)
	onePlace := q.Scope == house.PlaceScope
	site, kept := t.Site.After(now, onePlace)
	all := !onePlace || q.GivesArea() || !site.TellsAlike(t.Site) || isOld(now) != isOld(t.Answered)
	var out []*reached
	look := func(i int) *reached {
		if b := t.revise(now, i, &site, kept); !b.Same {
			return &reached{Begun: b, at: i}
		}
		return nil
	}
	for i := range now.House.Places {
		p := &now.House.Places[i]
		var x *reached
		switch {
		case all || p.ID == placeID:
			x = look(i)
		case q.TellsOthers():
			told := candidate.ToldOf(now, p)
			if told == t.told[i] {
				continue
			}
			seen, ok := t.byTold[toldTo{i, told}]
			if !ok {
				seen = look(i)
				t.byTold[toldTo{i, told}] = seen
			}
			x = seen
		}
		if x != nil {
			out = append(out, x)
		}
	}
	return out
}

// weigh weighs a place, once.
func (t trial) weigh(x *reached) Place {
	if x.place == nil {
		r := x.Finish()
		r.As(&t.base.Places[x.at].PlaceResult)
		place := weighOne(t.Answered.List.Catalog(), r, t.p)
		x.place = &place
	}
	return *x.place
}

// stops are what stops a place. Most need no blanket for that.
func (t trial) stops(x *reached) []Stop {
	byBlanket := func(h rules.Hit) bool { return h.Rule.Effect.Stops && !aboutPlace(h) }
	if slices.ContainsFunc(x.Verdict.Safety, byBlanket) {
		return t.weigh(x).Stops
	}
	return stopsOf(x.Verdict)
}

// counting is what counts the places after an answer, and whether that changes what is
// counted.
func (t trial) counting(q house.Question, placeID string, answer house.Answer) (*bill.Counter, bool) {
	switch {
	case q.Scope == house.Shape:
		return bill.NewCounter(answering(t.Answered, q, placeID, answer)), true
	case q.Scope == house.PlaceScope && (q.ToOrder || q.GivesArea()):
		return t.counter.Trying(answering(t.Answered, q, placeID, answer), placeID), true
	}
	return t.counter, false
}

// afforded are the places of the house with those that an answer reaches as they
// are then, within the budget.
func (t trial) afforded(places []*reached, counter *bill.Counter) []Place {
	out := Plan{Places: slices.Clone(t.alone)}
	for _, x := range places {
		out.Places[x.at] = t.weigh(x)
	}
	out.afford(t.Answered.List.Catalog(), t.p, counter)
	return out.Places
}

// effectOf tells how much differs between places as they are and as they would be,
// and names the first of what differs most.
func effectOf(before, after []Place, words string) (weight int, effect string) {
	for _, c := range Changes(Plan{Places: before}, Plan{Places: after}) {
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
	if weight == 0 && cautions(after) != cautions(before) {
		return changesCaution, dutyEffect
	}
	return weight, effect
}

func cautions(places []Place) string {
	var b strings.Builder
	for _, place := range places {
		for _, h := range place.Safety {
			b.WriteString(place.Surface.ID + "/" + h.Rule.ID + ";")
		}
	}
	return b.String()
}
