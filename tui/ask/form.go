package ask

import (
	"fmt"
	"slices"

	"battwright/rules/house"
	"battwright/tui/session"
)

// form asks a list of questions one after the other. The list is taken anew
// after each answer, since answers decide which questions apply. It returns
// here after the last question, up when the person went back from the first.
func (a *app) form(title, intro, place string, pick func() []house.Question) (stop, error) {
	a.talk.title(title)
	if intro != "" {
		a.talk.say(intro)
	}
	at := 0
	for {
		qs := a.asked(pick(), place)
		if at >= len(qs) {
			return here, nil
		}
		q := qs[at]
		to, err := a.question(q, place, fmt.Sprintf("%d of %d.", at+1, len(qs)))
		if err != nil {
			return here, err
		}
		switch to {
		case isDone:
			return here, nil
		case goesBack:
			if at == 0 {
				return up, nil
			}
			at--
		case askAgain:
			at = max(0, indexOf(a.asked(pick(), place), q))
		default:
			at = nextAfter(a.asked(pick(), place), qs, at)
		}
	}
}

// asked keeps the questions that apply now.
func (a *app) asked(qs []house.Question, place string) []house.Question {
	p := a.s.House.Place(place)
	var out []house.Question
	for _, q := range qs {
		if a.s.Answered().Asked(q, p) {
			out = append(out, a.s.Answered().Offered(q, p))
		}
	}
	return out
}

func indexOf(qs []house.Question, q house.Question) int {
	return slices.IndexFunc(qs, func(x house.Question) bool { return x.FullKey() == q.FullKey() })
}

// nextAfter is the place in the new list of what comes after old[at]: the
// first question behind it that was not asked before it.
func nextAfter(now, old []house.Question, at int) int {
	for i := at; i >= 0; i-- {
		if found := indexOf(now, old[i]); found >= 0 {
			return found + 1
		}
	}
	return 0
}

// house asks about the house itself, in the rough look only what decides most.
// Its shape then proposes the places.
func (a *app) house() (stop, error) {
	pick := func() []house.Question {
		qs := a.s.List.OfHouse()
		if !a.s.Rough {
			return qs
		}
		return slices.DeleteFunc(slices.Clone(qs), func(q house.Question) bool { return !q.Rough })
	}
	to, err := a.form("The house", "An empty line takes what is assumed. Nothing is wrong that you cannot change later.", "", pick)
	if err != nil {
		return here, err
	}
	if to == up {
		return atStart, nil
	}
	if len(a.s.House.Places) == 0 {
		house.Propose(a.s.List, a.s.House)
		a.sayChange()
	}
	return atPlaces, nil
}

// matters asks what is out of the question and what counts most.
func (a *app) matters() (stop, error) {
	to, err := a.form("What matters", session.Priorities, "", a.s.List.OfMatters)
	if to == up {
		return atPlaces, err
	}
	return atLook, err
}

// placeForm asks everything about one place.
func (a *app) placeForm(id string) error {
	p := a.s.House.Place(id)
	if p == nil {
		return nil
	}
	kind := p.Kind
	_, err := a.form(a.s.Label(p), session.SizeFirst, id, func() []house.Question {
		return a.s.List.In(house.PlaceScope, kind)
	})
	return err
}

// onward leads from the places to what matters. Whoever wants to order is first
// asked for size and frame of each place that was not asked about yet.
func (a *app) onward() (stop, error) {
	for i := a.s.Unsized(); i >= 0; i = a.s.Unsized() {
		id := a.s.House.Places[i].ID
		title := fmt.Sprintf("%s, place %d of %d", a.s.Label(&a.s.House.Places[i]), i+1, len(a.s.House.Places))
		to, err := a.form(title, session.SizeToOrder, id, func() []house.Question { return a.s.Answered().ToOrder(a.s.House.Place(id)) })
		if err != nil || to == up {
			return here, err
		}
		a.s.Sized[id] = true
		a.s.WayChanged()
		a.sayKept()
	}
	return atMatters, nil
}

// onwardTo names where next leads to from the places.
func (a *app) onwardTo() string {
	if a.s.Unsized() >= 0 {
		return "size and frame of each place, then what matters"
	}
	return "on to what matters"
}

// ownMatters asks what matters at one place alone.
func (a *app) ownMatters(id string) error {
	p := a.s.House.Place(id)
	if p == nil {
		return nil
	}
	_, err := a.form("What matters: "+a.s.Label(p), "Where you leave it empty, the priorities of the house count.", id, func() []house.Question {
		var out []house.Question
		for _, c := range a.s.Catalog().Criteria {
			if q, ok := a.s.List.Find("place.priorities." + c.ID); ok {
				out = append(out, q)
			}
		}
		return out
	})
	return err
}
