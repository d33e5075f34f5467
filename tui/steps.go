package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/say"
)

// screenOf makes the screen of a step, nil for the start screen below all.
func screenOf(to step, s *session) screen {
	switch to {
	case stepHouse:
		return newHouseForm(s)
	case stepPlaces:
		return newPlaces()
	case stepMatters:
		return newMatters(s)
	case stepLook:
		return newLook()
	case stepMoney:
		return newMoney(s)
	case stepOrder:
		return newOrder()
	case stepCheck:
		return newCheck()
	}
	return nil
}

func next(to step) func(*session) tea.Cmd {
	return func(*session) tea.Cmd { return send(goMsg{to: to}) }
}

// askedNow keeps the questions of the rough look, or all.
func askedNow(s *session, qs []house.Question) []house.Question {
	if !s.rough {
		return qs
	}
	var out []house.Question
	for _, q := range qs {
		if q.Rough {
			out = append(out, q)
		}
	}
	return out
}

func newHouseForm(s *session) *form {
	pick := func(s *session) []house.Question {
		return askedNow(s, s.list.OfHouse())
	}
	then := func(s *session) tea.Cmd {
		if len(s.house.Places) == 0 {
			house.Propose(s.list, s.house)
			s.edited(wholeHouse, "")
		}
		return send(goMsg{to: stepPlaces})
	}
	f := newForm("The house", "Press Enter to accept the answer shown. You can change any answer later.", stepHouse, "", s, pick, then)
	f.speeds = true
	return f
}

// newPlaceForm asks everything about one place.
func newPlaceForm(s *session, id string) *form {
	pick := func(s *session) []house.Question {
		p := s.house.Place(id)
		if p == nil {
			return nil
		}
		return s.list.In(house.PlaceScope, p.Kind)
	}
	p := s.house.Place(id)
	title := s.answered().Text(house.PlaceScope, p, "label")
	f := newForm(title, say.SizeFirst, stepPlaces, id, s, pick, func(*session) tea.Cmd { return send(backMsg{}) })
	f.named = true
	return f
}

var keyLadder = bind("l", say.LadderNote, "l", "ctrl+l")

func newMoney(s *session) *form {
	f := newForm("Work and money", "", stepMoney, "", s, func(s *session) []house.Question { return s.list.In(house.Budget, "") }, next(stepOrder))
	f.below = moneyBelow
	f.extra = []key.Binding{keyLadder}
	f.on = func(k tea.KeyMsg, s *session) tea.Cmd {
		if key.Matches(k, keyLadder) {
			return openLadder(s)
		}
		return nil
	}
	return f
}
