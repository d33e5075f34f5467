package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/session"
)

// onward leads from the places to what matters. Whoever wants to order is first
// led through size and frame of each place that was not asked about yet.
func onward(s *state) tea.Msg {
	if at := s.Unsized(); at >= 0 {
		return pushMsg{newSizeForm(s, at)}
	}
	return goMsg{to: stepMatters}
}

// newSizeForm asks what must be known before the blankets of a place can be
// ordered.
func newSizeForm(s *state, at int) *form {
	id := s.House.Places[at].ID
	pick := func(s *state) []house.Question {
		if p := s.House.Place(id); p != nil {
			return s.Answered().ToOrder(p)
		}
		return nil
	}
	then := func(s *state) tea.Cmd {
		s.Sized[id] = true
		s.WayChanged()
		if next := s.Unsized(); next >= 0 {
			return send(replaceMsg{newSizeForm(s, next)})
		}
		return send(goMsg{to: stepMatters})
	}
	label := s.Answered().Text(house.PlaceScope, &s.House.Places[at], "label")
	return newForm(fmt.Sprintf("%s (place %d of %d)", label, at+1, len(s.House.Places)), session.SizeToOrder, stepPlaces, id, s, pick, then)
}
