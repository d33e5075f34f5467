package session

import (
	"fmt"
	"slices"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
)

// The forms.
const (
	HouseForm   page.ActionID = "house form"
	PlaceForm   page.ActionID = "edit"
	SizeForm    page.ActionID = "size form"
	MattersForm page.ActionID = "matters form"
	OwnForm     page.ActionID = "own"
	MoneyForm   page.ActionID = "money form"
	WalkForm    page.ActionID = "walk form"
)

func init() {
	forms[HouseForm], forms[PlaceForm], forms[SizeForm] = houseForm, placeForm, sizeForm
	forms[MattersForm], forms[OwnForm], forms[MoneyForm], forms[WalkForm] = mattersForm, ownForm, moneyForm, walkForm
}

// backTo is what follows a form that was opened from a page.
func backTo() Next { return Next{Close: 1} }

// houseForm asks about the house itself, in the rough look only what decides
// most. Its shape then proposes the places.
func houseForm(s *Session, _ string) (Form, bool) {
	return Form{
		On: s, Step: AtHouse, Title: "The house", Intro: "Press Enter to accept the answer shown. You can change any answer later.", Speeds: true,
		Pick: func() []house.Question {
			qs := s.List.OfHouse()
			if !s.Rough {
				return qs
			}
			return slices.DeleteFunc(slices.Clone(qs), func(q house.Question) bool { return !q.Rough })
		},
		Then: func() Next {
			if len(s.House.Places) == 0 {
				house.Propose(s.List, s.House)
				s.EditedHouse()
			}
			return Go(AtPlaces)
		},
	}, true
}

// placeForm asks everything about one place.
func placeForm(s *Session, id string) (Form, bool) {
	p := s.House.Place(id)
	if p == nil {
		return Form{}, false
	}
	kind := p.Kind
	return Form{On: s, Step: AtPlaces, Title: s.Label(p), Intro: "Size first, then what it is made of.", Place: id, Named: true, Pick: func() []house.Question {
		return s.List.In(house.PlaceScope, kind)
	}, Then: backTo}, true
}

// sizeForm asks what must be known before the blankets of a place can be
// ordered, and leads on to the next such place.
func sizeForm(s *Session, id string) (Form, bool) {
	at := slices.IndexFunc(s.House.Places, func(p house.Place) bool { return p.ID == id })
	if at < 0 {
		return Form{}, false
	}
	return Form{
		On: s, Step: AtPlaces, Place: id, Title: fmt.Sprintf("%s (place %d of %d)", s.Label(&s.House.Places[at]), at+1, len(s.House.Places)),
		Intro: "What must be known before blankets are ordered. Its other questions: under the list of places.",
		Pick: func() []house.Question {
			if p := s.House.Place(id); p != nil {
				return s.Answered().ToOrder(p)
			}
			return nil
		},
		Then: func() Next {
			s.Sized[id] = true
			s.WayChanged()
			return s.onward(1)
		},
	}, true
}

// mattersForm asks what is out of the question and what counts most. The screens
// have it as sliders.
func mattersForm(s *Session, _ string) (Form, bool) {
	return Form{On: s, Step: AtMatters, Title: "What matters", Intro: Priorities, Pick: s.List.OfMatters, Then: func() Next { return Go(AtLook) }}, true
}

// ownForm asks what matters at one place alone.
func ownForm(s *Session, id string) (Form, bool) {
	p := s.House.Place(id)
	if p == nil {
		return Form{}, false
	}
	return Form{On: s, Step: AtMatters, Title: "What matters: " + s.Label(p), Intro: "Where you leave it empty, the priorities of the house count.", Place: id, Pick: func() []house.Question {
		return s.PrioritiesOf(id)
	}, Then: backTo}, true
}

// PrioritiesOf are the questions about what counts most, in the house or in a
// place alone.
func (s *Session) PrioritiesOf(place string) []house.Question {
	in := "priorities."
	if place != "" {
		in = "place.priorities."
	}
	var out []house.Question
	for _, c := range s.Catalog().Criteria {
		if q, ok := s.List.Find(in + c.ID); ok {
			out = append(out, q)
		}
	}
	return out
}

// moneyForm asks who does the work and what it may cost.
func moneyForm(s *Session, _ string) (Form, bool) {
	v, _ := moneyView(s, "")
	return Form{On: s, Step: AtMoney, Title: "Work and money", Pick: func() []house.Question { return s.List.In(house.Budget, "") }, Then: func() Next { return Go(AtOrder) }, Below: func(width int) page.Page {
		d := v.Page(width)
		d.Title = ""
		return d
	}, Actions: v.Actions}, true
}

// walkForm asks about one place of the walk. Its answers go into the walk and
// not into the house.
func walkForm(s *Session, id string) (Form, bool) {
	label := id
	if p := s.Place(id); p != nil {
		label = p.Surface.Label
	}
	return Form{
		On: s.onWalk(), Step: AtCheck, Title: "Finished work: " + label, Intro: "Leave open what you did not look at, and say don't know where you are not sure.", Place: id,
		Pick: func() []house.Question { return s.Walk().QuestionsAt(s.Job(), id) }, Then: backTo,
		Below: func(int) page.Page {
			found, ok := s.Walk().JudgeAt(s.Job(), id)
			if !ok {
				return page.Page{}
			}
			return page.Page{Title: label + ", as found", Blocks: []page.Block{{Rows: pages.FoundRows(found, s.Options())}}}
		},
	}, true
}

// Choices are what can be picked at a question; yes and no are choices too.
func Choices(q house.Question) []house.Option {
	if q.Kind == house.YesNoKind {
		return []house.Option{{Value: "yes", Label: "yes"}, {Value: "no", Label: "no"}}
	}
	return q.Options
}
