package ask

import (
	"fmt"
	"maps"
	"slices"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/tui/session"
)

// form asks the questions of a form and goes on as it says; up when the person
// went back from the first.
func (a *app) form(f session.Form) (stop, error) {
	asks := a
	if f.On != a.s { // its answers go into the walk, as everywhere else
		said := map[string]bool{}
		a.failing(f, func(r page.Row) { said[r.Text] = true })
		asks = &app{talk: a.talk, seen: a.seen, of: a, s: f.On, noted: func() { a.newlyFailing(f, said) }}
	}
	to, err := asks.questions(f)
	switch {
	case err != nil || to == up:
		return to, err
	case len(f.Actions) > 0:
		return a.view(session.At{ID: session.MoneyIs}, f.Step-1)
	case f.Below != nil:
		d := f.Below(a.talk.width)
		a.talk.title(d.Title)
		a.blocks(d.Blocks)
	}
	return a.done(func() session.Next {
		n := f.Then()
		n.Close = max(0, n.Close-1)
		return n
	})
}

// newlyFailing says the points of a place of the walk that an answer made fail:
// what can hurt people is said as soon as it is known.
func (a *app) newlyFailing(f session.Form, said map[string]bool) {
	now := map[string]bool{}
	a.failing(f, func(r page.Row) {
		now[r.Text] = true
		if !said[r.Text] {
			a.row(r, "")
		}
	})
	clear(said)
	maps.Copy(said, now)
}

func (a *app) failing(f session.Form, do func(page.Row)) {
	for _, b := range f.Below(a.talk.width).Blocks {
		for _, r := range b.Rows {
			if r.Kind == page.Text {
				do(r)
			}
		}
	}
}

// questions asks one after the other. The list is taken anew after each answer,
// since answers decide which questions apply. It returns here after the last, up
// when the person went back from the first.
func (a *app) questions(f session.Form) (stop, error) {
	a.talk.title(f.Title)
	if f.Intro != "" {
		a.talk.say(f.Intro)
	}
	place, pick, at := f.Place, f.Pick, 0
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
