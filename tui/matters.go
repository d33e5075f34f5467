package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/tui/session"
	"battwright/tui/style"
)

// matters asks what is out of the question and the five priorities, for the
// house or for one place, and shows the ranking move while they change.
type matters struct {
	place  string // id, empty for the house
	out    field
	cursor int // 0 is "out of the question", then the priorities
	help   bool
}

func newMatters(s *state) *matters { return newMattersFor(s, "") }

func newMattersFor(s *state, place string) *matters {
	key := "rule_out"
	if place != "" {
		key = "place.rule_out"
	}
	q, _ := s.List.Find(key)
	m := &matters{place: place, out: newField(q, place)}
	m.out.focus(s)
	if place != "" {
		m.cursor = 1
	}
	return m
}

func (m *matters) Step() step   { return session.AtMatters }
func (m *matters) Typing() bool { return false }

// level is the priority as it counts here, and whether the place has its own.
func (m *matters) level(s *state, q house.Question, i int) (level int, own bool) {
	a := s.Answered()
	p := s.House.Place(m.place)
	if raw := a.Raw(q, p); raw.State == house.Given {
		return int(raw.Number), true
	}
	return int(a.Num(house.Priorities, nil, s.Catalog().Criteria[i].ID)), false
}

func (m *matters) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return m, nil
	}
	if m.help {
		m.help = false
		if closesHelp(k) {
			return m, nil
		}
	}
	qs := s.PrioritiesOf(m.place)
	if m.cursor == 0 && m.out.update(k, s) != ignores && !key.Matches(k, keys.Accept) {
		return m, nil
	}
	switch {
	case key.Matches(k, keys.Up):
		m.cursor = max(0, m.cursor-1)
		return m, nil
	case key.Matches(k, keys.Down):
		m.cursor = min(len(qs), m.cursor+1)
		return m, nil
	case key.Matches(k, keys.Why):
		m.help = m.cursor > 0 // over what is ruled out there is none
		return m, nil
	case key.Matches(k, keys.Next):
		return m, m.leave()
	case key.Matches(k, keys.Back):
		return m, send(backMsg{})
	case key.Matches(k, keys.Accept):
		if m.cursor < len(qs) && m.place == "" && m.cursor == 0 {
			m.cursor++
			return m, nil
		}
		return m, m.leave()
	}
	if m.cursor == 0 {
		return m, nil
	}
	m.set(k, s, qs[m.cursor-1], m.cursor-1)
	return m, nil
}

func (m *matters) leave() tea.Cmd {
	if m.place != "" {
		return send(backMsg{})
	}
	return send(goMsg{to: session.AtLook})
}

// set changes one priority: a digit sets it, left and right move it.
func (m *matters) set(k tea.KeyMsg, s *state, q house.Question, i int) {
	level, _ := m.level(s, q, i)
	p := s.House.Place(m.place)
	switch {
	case key.Matches(k, keys.Left):
		level--
	case key.Matches(k, keys.Right):
		level++
	case len(k.Runes) == 1 && k.Runes[0] >= '0' && k.Runes[0] <= '5':
		level = int(k.Runes[0] - '0')
	case key.Matches(k, keys.Clear):
		s.answer(q, p, house.Answer{})
		return
	default:
		return
	}
	a := house.Number(float64(max(0, min(5, level))))
	s.answer(q, p, a)
}

func (m *matters) View(p *canvas, s *state) {
	title := "What matters"
	if pl := s.Place(m.place); pl != nil {
		title = "What matters: " + pl.Surface.Label
	}
	p.line(style.Title, title)
	p.para(style.Dim, 0, session.Priorities)
	p.blank()
	m.out.view(p, s, m.cursor == 0)
	p.blank()
	for i, q := range s.PrioritiesOf(m.place) {
		m.row(p, s, q, i)
	}
	p.blank()
	if !s.Settled() {
		waits(p, s)
		return
	}
	if m.place != "" {
		if pl := s.Place(m.place); pl != nil {
			showBlocks(p, s, []page.Block{pages.RankBlock(*pl, s.Options())})
		}
		return
	}
	p.line(style.Title, "Then")
	for _, b := range pages.LookBlocks(s.Plan, s.Options()) {
		glance(p, s, b, false)
	}
}

func (m *matters) row(p *canvas, s *state, q house.Question, i int) {
	level, own := m.level(s, q, i)
	mark, tone := s.pointer(m.cursor == i+1)
	k := s.Catalog().Criteria[i]
	bar := ""
	for n := 1; n <= 5; n++ {
		if n <= level {
			bar += s.g.Bar + s.g.Bar
		} else {
			bar += s.g.Empty + s.g.Empty
		}
	}
	note := ""
	switch {
	case m.place != "" && own:
		note = "  just here"
	case m.place != "":
		note = "  as in the rest of the house"
	case !own:
		note = "  (assumed)"
	}
	p.add(piece{tone, mark + padTo(k.Name, 22)}, piece{tone, fmt.Sprintf("%d ", level)}, piece{style.Plain, bar}, piece{style.Dim, note})
	if m.cursor == i+1 {
		p.mark()
		if m.help {
			p.para(style.Good, 4, "Judged by "+k.Measures.In(s.System)+".")
			if h, ok := s.Catalog().Help("priorities." + k.ID); ok {
				p.para(style.Good, 4, h.Why.In(s.System))
			}
			p.para(style.Dim, 4, keySentence(append(m.Keys(s), keys.GoTo, keys.Words)))
		}
	}
}

func (m *matters) Keys(*state) []key.Binding {
	on, onward := "first look", "on to what matters"
	if m.place != "" {
		on, onward = "done", "done"
	}
	if m.cursor == 0 {
		return []key.Binding{bind("up/down", "move", "up"), keys.Toggle, bind("enter", onward, "enter"), keys.Back}
	}
	out := []key.Binding{bind("up/down", "move", "up"), bind("0-5", "set", "0"), keys.Left, keys.Right, keys.Why, bind("enter", on, "enter"), keys.Back}
	if m.place != "" {
		out = append(out, bind("c", "as in the house", "c"))
	}
	if m.help {
		return withHelpOpen(out)
	}
	return out
}
