package tui

import (
	"cmp"
	"slices"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/page"
	"battwright/tui/session"
	"battwright/tui/style"
)

// placePage is one place: the result, and one key further the reasons, the
// picture, the damp check, and how to install.
type placePage struct {
	id   string
	side page.ActionID // what is shown in place of the result, empty for the result
}

func newPlacePage(id string) *placePage { return &placePage{id: id} }

// sides are shown on the same screen; their key leads there and back.
var sides = []page.ActionID{session.Why, session.Picture, session.Damp, session.How}

func (x *placePage) Step() step   { return session.AtLook }
func (x *placePage) Typing() bool { return false }

func (x *placePage) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	v, _ := s.view(session.At{ID: session.Place, Arg: x.id})
	a, ok := pressed(k, v.Actions, page.Action{})
	switch {
	case ok && slices.Contains(sides, a.ID):
		if x.side == a.ID {
			a.ID = ""
		}
		x.side, s.rewind = a.ID, true
	case ok && (a.ID == session.NextPlace || a.ID == session.LastPlace):
		x.id, s.rewind = cmp.Or(s.Act(a).Open.Arg, x.id), true
	case ok:
		return x, s.act(a, x)
	case key.Matches(k, keys.Back) && x.side != "":
		x.side, s.rewind = "", true
	case key.Matches(k, keys.Back):
		return x, send(backMsg{})
	}
	return x, nil
}

func (x *placePage) View(p *canvas, s *state) {
	at := session.At{ID: session.Place, Arg: x.id}
	if x.side != "" {
		at.ID = x.side
	}
	v, ok := s.view(at)
	switch {
	case !ok:
		titled(p, s, session.Gone())
	case x.side == "":
		x.resultBeside(p, s, v.Page(p.width))
	default:
		titled(p, s, v.Page(p.width))
	}
}

// The width of the result beside a picture: wider lines are hard to follow.
const (
	resultLeast = 66
	resultMost  = 100
)

// resultBeside has the picture beside the result where there is room.
func (x *placePage) resultBeside(p *canvas, s *state, d page.Page) {
	leftWidth := min(resultMost, max(resultLeast, p.width*11/20))
	lines, ok := []string(nil), false
	if p.width >= wideWidth {
		lines, ok = s.Layers(*s.Place(x.id), p.width-leftWidth-2)
	}
	if !ok {
		titled(p, s, d)
		return
	}
	left, right := newCanvas(leftWidth, p.ellipsis), newCanvas(p.width-leftWidth-2, p.ellipsis)
	titled(left, s, d)
	for _, l := range lines {
		right.line(style.Plain, l)
	}
	p.beside(left, right)
}

func (x *placePage) Keys(s *state) []key.Binding {
	v, _ := s.view(session.At{ID: session.Place, Arg: x.id})
	var out []key.Binding
	for _, a := range v.Actions {
		if a.Tag != "" {
			out = append(out, binding(a))
		}
	}
	return append(out, keys.Back)
}
