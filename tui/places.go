package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// places lists the places of the house: add, copy, delete, edit.
type places struct {
	cursor   int
	deleting bool
}

func newPlaces() *places { return &places{} }

func (x *places) Step() step   { return stepPlaces }
func (x *places) Typing() bool { return false }

func (x *places) current(s *state) *house.Place {
	if len(s.House.Places) == 0 {
		return nil
	}
	x.cursor = max(0, min(x.cursor, len(s.House.Places)-1))
	return &s.House.Places[x.cursor]
}

func (x *places) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	p := x.current(s)
	if x.deleting {
		x.deleting = false
		if key.Matches(k, keys.Yes) && p != nil {
			s.House.Delete(p.ID)
			s.edited(wholeHouse, "")
		}
		return x, nil
	}
	switch {
	case key.Matches(k, keys.Up):
		x.cursor = max(0, x.cursor-1)
	case key.Matches(k, keys.Down):
		x.cursor = min(max(0, len(s.House.Places)-1), x.cursor+1)
	case key.Matches(k, keys.Add):
		return x, send(pushMsg{newAddPlace()})
	case key.Matches(k, keys.Propose):
		if added := house.Propose(s.List, s.House); len(added) > 0 {
			s.edited(wholeHouse, "")
		} else {
			s.notice = session.AllProposed
		}
	case p != nil && key.Matches(k, keys.Copy):
		if s.House.Duplicate(p.ID) {
			s.edited(wholeHouse, "")
			x.cursor = len(s.House.Places) - 1
		}
	case p != nil && key.Matches(k, keys.Delete):
		x.deleting = true
	case p != nil && key.Matches(k, keys.Edit):
		return x, send(pushMsg{newPlaceForm(s, p.ID)})
	case key.Matches(k, keys.Accept), key.Matches(k, keys.Next):
		return x, send(onward(s))
	case key.Matches(k, keys.Back):
		return x, send(backMsg{})
	}
	return x, nil
}

func (x *places) View(p *canvas, s *state) {
	p.line(style.Title, "The places to insulate")
	p.para(style.Dim, 0, "Proposed from the shape of the house. Sizes are guesses until you measure: e opens a place.")
	p.blank()
	a := s.Answered()
	for i := range s.House.Places {
		x.row(p, s, a, i)
	}
	if len(s.House.Places) == 0 {
		p.line(style.Warn, "No place yet: a adds one, r proposes from the shape.")
	}
	if x.deleting {
		p.line(style.Warn, "Delete "+a.Text(house.PlaceScope, x.current(s), "label")+"?  y yes, any other key no")
	}
	p.blank()
	p.line(style.Title, "Not covered: ask somebody else, so that nobody thinks they are done")
	for _, n := range s.Plan.NotCovered {
		p.para(style.Dim, 2, s.g.Dot+" "+n)
	}
}

func (x *places) row(p *canvas, s *state, a house.Answered, i int) {
	place := &s.House.Places[i]
	mark, tone := "  ", style.Plain
	if i == x.cursor {
		mark, tone = s.g.Pointer+" ", style.Chosen
	}
	area := s.System.Area(a.NetAreaFt2(place))
	known := "assumed"
	if a.AreaGiven(place) {
		known = "your figure"
	}
	size := ""
	if q := s.Place(place.ID); q != nil {
		size = report.FrameText(*q, s.System)
	}
	label := a.Text(house.PlaceScope, place, "label")
	if p.width < 64 {
		p.line(tone, mark+label)
		p.line(style.Dim, fmt.Sprintf("    %s (%s), %s", area, known, size))
	} else {
		p.add(piece{tone, mark + p.column(label, p.width-47)}, piece{style.Plain, padTo(area+" "+known, 22)}, piece{style.Dim, size})
	}
	if i == x.cursor {
		p.mark()
	}
}

func (x *places) Keys(s *state) []key.Binding {
	on := "what matters"
	if s.Unsized() >= 0 {
		on = "size and frame of each"
	}
	out := []key.Binding{bind("enter", on, "enter"), keys.Add}
	if len(s.House.Places) > 0 {
		out = append(out, keys.Edit, keys.Copy, keys.Delete)
	}
	return append(out, keys.Propose, keys.Back)
}

// newAddPlace is the menu of kinds.
func newAddPlace() *menu {
	m := &menu{title: "Add a place", at: stepPlaces}
	m.rows = func(s *state) []choiceRow {
		var rows []choiceRow
		for _, id := range s.List.PlaceKinds() {
			k, _ := s.Catalog().Kind(id)
			rows = append(rows, choiceRow{k.Name, "", func(s *state) tea.Cmd {
				if len(s.House.Places) >= house.MaxPlaces {
					return send(noticeMsg{session.Sentence(session.TooManyPlaces())})
				}
				added := s.House.Add(id)
				s.edited(wholeHouse, "")
				return send(replaceMsg{newPlaceForm(s, added.ID)})
			}})
		}
		return rows
	}
	return m
}
