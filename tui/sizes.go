package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/say"
)

// onward leads from the places to what matters. Whoever wants to order is first
// led through size and frame of each place that was not asked about yet.
func onward(s *session) tea.Msg {
	if at := s.unsized(); at >= 0 {
		return pushMsg{newSizeForm(s, at)}
	}
	return goMsg{to: stepMatters}
}

// unsized is the first place whose size and frame are still to be asked, -1 when
// none is.
func (s *session) unsized() int {
	for i, p := range s.house.Places {
		if !s.rough && !s.sized[p.ID] {
			return i
		}
	}
	return -1
}

// newSizeForm asks what must be known before the blankets of a place can be
// ordered.
func newSizeForm(s *session, at int) *form {
	id := s.house.Places[at].ID
	pick := func(s *session) []house.Question {
		if p := s.house.Place(id); p != nil {
			return s.answered().ToOrder(p)
		}
		return nil
	}
	then := func(s *session) tea.Cmd {
		s.sized[id] = true
		s.wayChanged()
		if next := s.unsized(); next >= 0 {
			return send(replaceMsg{newSizeForm(s, next)})
		}
		return send(goMsg{to: stepMatters})
	}
	label := s.answered().Text(house.PlaceScope, &s.house.Places[at], "label")
	return newForm(fmt.Sprintf("%s (place %d of %d)", label, at+1, len(s.house.Places)), say.SizeToOrder, stepPlaces, id, s, pick, then)
}
