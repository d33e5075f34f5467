package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/session"
)

// screenOf makes the screen of a step, nil for the start screen below all.
func screenOf(to step, s *state) screen {
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

func next(to step) func(*state) tea.Cmd {
	return func(*state) tea.Cmd { return send(goMsg{to: to}) }
}

// askedNow keeps the questions of the rough look, or all.
func askedNow(s *state, qs []house.Question) []house.Question {
	if !s.Rough {
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

func newHouseForm(s *state) *form {
	pick := func(s *state) []house.Question {
		return askedNow(s, s.List.OfHouse())
	}
	then := func(s *state) tea.Cmd {
		if len(s.House.Places) == 0 {
			house.Propose(s.List, s.House)
			s.edited(wholeHouse, "")
		}
		return send(goMsg{to: stepPlaces})
	}
	f := newForm("The house", "Press Enter to accept the answer shown. You can change any answer later.", stepHouse, "", s, pick, then)
	f.speeds = true
	return f
}

// newPlaceForm asks everything about one place.
func newPlaceForm(s *state, id string) *form {
	pick := func(s *state) []house.Question {
		p := s.House.Place(id)
		if p == nil {
			return nil
		}
		return s.List.In(house.PlaceScope, p.Kind)
	}
	p := s.House.Place(id)
	title := s.Answered().Text(house.PlaceScope, p, "label")
	f := newForm(title, session.SizeFirst, stepPlaces, id, s, pick, func(*state) tea.Cmd { return send(backMsg{}) })
	f.named = true
	return f
}

var keyLadder = bind("l", session.LadderNote, "l", "ctrl+l")

func newMoney(s *state) *form {
	f := newForm("Work and money", "", stepMoney, "", s, func(s *state) []house.Question { return s.List.In(house.Budget, "") }, next(stepOrder))
	f.below = moneyBelow
	f.extra = []key.Binding{keyLadder}
	f.on = func(k tea.KeyMsg, s *state) tea.Cmd {
		if key.Matches(k, keyLadder) {
			return openLadder(s)
		}
		return nil
	}
	return f
}
