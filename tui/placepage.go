package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/style"
)

// view is what a place page shows.
type view int

const (
	viewResult view = iota
	viewWhy
	viewPicture
	viewDamp
	viewHow
)

// placePage is one place: the result, and one key further the reasons, the
// picture, the damp check, and how to install.
type placePage struct {
	id   string
	show view
}

func newPlacePage(id string) *placePage { return &placePage{id: id} }

func (x *placePage) Step() step   { return stepLook }
func (x *placePage) Typing() bool { return false }

func (x *placePage) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	turn := func(v view) {
		if x.show == v {
			v = viewResult
		}
		x.show, s.rewind = v, true
	}
	switch {
	case key.Matches(k, keys.Reasons):
		turn(viewWhy)
	case key.Matches(k, keys.Picture):
		turn(viewPicture)
	case key.Matches(k, keys.Damp):
		turn(viewDamp)
	case key.Matches(k, keys.How):
		turn(viewHow)
	case key.Matches(k, keyOpen) && x.canChange(s):
		return x, send(pushMsg{newStillOpen(x.id)})
	case key.Matches(k, keys.Own):
		return x, send(pushMsg{newMattersFor(s, x.id)})
	case key.Matches(k, keys.Edit), key.Matches(k, keys.Accept):
		if s.House.Place(x.id) != nil {
			return x, send(pushMsg{newPlaceForm(s, x.id)})
		}
	case key.Matches(k, keys.Right), key.Matches(k, keys.Next):
		x.step(s, 1)
	case key.Matches(k, keys.Left):
		x.step(s, -1)
	case key.Matches(k, keys.Back):
		if x.show != viewResult {
			x.show, s.rewind = viewResult, true
			return x, nil
		}
		return x, send(backMsg{})
	}
	return x, nil
}

// canChange reports whether there is anything to compare before framing.
func (x *placePage) canChange(s *state) bool {
	pl := s.Place(x.id)
	return s.Plan.Stage == "not-framed" && pl != nil && !pl.Stopped()
}

// step goes to the neighbouring place.
func (x *placePage) step(s *state, by int) {
	s.rewind = true
	for i, p := range s.Plan.Places {
		if p.Surface.ID == x.id {
			n := len(s.Plan.Places)
			x.id = s.Plan.Places[(i+by+n)%n].Surface.ID
			return
		}
	}
}

func (x *placePage) View(p *canvas, s *state) {
	pl := s.Place(x.id)
	if pl == nil {
		p.line(style.Warn, "This place is gone.")
		return
	}
	o := s.Options()
	switch x.show {
	case viewWhy:
		titled(p, s, report.WhyPage(*pl, o))
	case viewHow:
		titled(p, s, report.HowPage(*pl, o))
	case viewPicture:
		d, stopped := report.PicturePage(*pl, o)
		if titled(p, s, d); !stopped {
			pictureRows(p, s, *pl)
		}
	case viewDamp:
		d, nothing := report.DampPage(*pl, o)
		if titled(p, s, d); !nothing {
			dampRows(p, s, *pl)
		}
	default:
		x.resultBeside(p, s, *pl)
	}
}

// titled draws a page with its title.
func titled(p *canvas, s *state, d page.Page) {
	p.line(style.Title, d.Title)
	showPage(p, s, d)
}

// The width of the result beside a picture: wider lines are hard to follow.
const (
	resultLeast = 66
	resultMost  = 100
)

// resultBeside has the picture beside the result where there is room.
func (x *placePage) resultBeside(p *canvas, s *state, pl plan.Place) {
	d := report.ResultPage(s.Plan, pl, s.Options())
	leftWidth := min(resultMost, max(resultLeast, p.width*11/20))
	right := newCanvas(p.width-leftWidth-2, p.ellipsis)
	if p.width < wideWidth || !layerRows(right, s, pl) {
		titled(p, s, d)
		return
	}
	left := newCanvas(leftWidth, p.ellipsis)
	titled(left, s, d)
	p.beside(left, right)
}

func (x *placePage) Keys(s *state) []key.Binding {
	open := keyOpen
	open.SetEnabled(x.canChange(s))
	return []key.Binding{keys.Reasons, keys.Picture, keys.Damp, keys.How, open, keys.Own, keys.Edit, bind("left/right", "other place", "left", "right"), keys.Back}
}
