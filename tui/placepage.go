package tui

import (
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/say"
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

// viewNames say on the first line what is shown.
var viewNames = map[view]string{viewWhy: "why", viewPicture: "layers from inside to outside", viewDamp: "damp check", viewHow: "how to install"}

// placePage is one place: the result, and one key further the reasons, the
// picture, the damp check, and how to install.
type placePage struct {
	id   string
	show view
}

func newPlacePage(id string) *placePage { return &placePage{id: id} }

func (x *placePage) Step() step   { return stepLook }
func (x *placePage) Typing() bool { return false }

func (x *placePage) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
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
		if s.house.Place(x.id) != nil {
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
func (x *placePage) canChange(s *session) bool {
	pl := s.place(x.id)
	return s.plan.Stage == "not-framed" && pl != nil && !pl.Stopped()
}

// step goes to the neighbouring place.
func (x *placePage) step(s *session, by int) {
	s.rewind = true
	for i, p := range s.plan.Places {
		if p.Surface.ID == x.id {
			n := len(s.plan.Places)
			x.id = s.plan.Places[(i+by+n)%n].Surface.ID
			return
		}
	}
}

func (x *placePage) View(p *page, s *session) {
	pl := s.place(x.id)
	if pl == nil {
		p.line(style.Warn, "This place is gone.")
		return
	}
	if what := viewNames[x.show]; what != "" {
		p.line(style.Title, pl.Surface.Label+": "+what)
	} else {
		p.line(style.Title, fmt.Sprintf("%s   %s, %s", pl.Surface.Label, s.system.Area(pl.Surface.AreaFt2), report.FrameText(*pl, s.system)))
	}
	if pl.Stopped() && x.show != viewResult {
		stopRows(p, s, *pl)
		return
	}
	if x.show != viewResult {
		for _, l := range report.FindFirst(*pl, s.options()) {
			p.para(style.Danger, 0, l)
		}
	}
	switch x.show {
	case viewWhy:
		x.why(p, s, *pl)
	case viewPicture:
		pictureRows(p, s, *pl)
	case viewDamp:
		dampRows(p, s, *pl)
	case viewHow:
		x.how(p, s, *pl)
	default:
		x.resultBeside(p, s, *pl)
	}
}

// stopRows are all that is said of a stopped place, whatever was asked about it.
func stopRows(p *page, s *session, pl plan.Place) {
	for _, l := range pl.StopLines() {
		p.para(style.Danger, 0, l)
	}
	for _, c := range report.Cautions(pl, s.options()) {
		p.para(style.Warn, 0, "? "+c)
	}
	p.blank()
	p.para(style.Dim, 0, report.Closing)
}

// The width of the result beside a picture: wider lines are hard to follow.
const (
	resultLeast = 66
	resultMost  = 100
)

// resultBeside has the picture beside the result where there is room.
func (x *placePage) resultBeside(p *page, s *session, pl plan.Place) {
	leftWidth := min(resultMost, max(resultLeast, p.width*11/20))
	right := newPage(p.width-leftWidth-2, p.ellipsis)
	if p.width < wideWidth || !layerRows(right, s, pl) {
		x.result(p, s, pl)
		return
	}
	left := newPage(leftWidth, p.ellipsis)
	x.result(left, s, pl)
	p.beside(left, right)
}

const labelColumn = 8

func (x *placePage) result(p *page, s *session, pl plan.Place) {
	lines := report.PlaceLines(pl, s.options())
	for i, l := range lines {
		tone := style.Plain
		switch l.Label {
		case report.LabelStop, report.LabelFirst, "Gap", "Plus":
			tone = style.Danger
		}
		p.labelled(tone, l.Label, labelColumn, l.Text)
		if i == max(0, len(pl.Stops)+len(pl.Asks())+len(pl.Settles())-1) {
			x.cautions(p, pl)
		}
	}
	if pl.Choice != nil {
		for _, w := range report.WhyLines(pl) {
			p.labelled(style.Plain, w.Label, labelColumn, w.Text)
		}
		p.labelled(style.Plain, "Sure", labelColumn, report.SureText(pl, s.options()))
	}
	if pl.Choice == nil && !pl.Stopped() {
		nothingRows(p, s, pl)
	}
	switch n := unknownHere(s.plan, pl.Surface.ID); {
	case n == 1:
		p.labelled(style.Dim, "Guess", labelColumn, "one answer about this place is not known yet: e opens it")
	case n > 1:
		p.labelled(style.Dim, "Guess", labelColumn, say.NotKnownYet(n)+": e opens them")
	}
}

// nothingRows says why no material goes in, each reason once.
func nothingRows(p *page, s *session, pl plan.Place) {
	var reasons []string
	names := map[string][]string{}
	for _, r := range report.RankRows(pl, s.options()) {
		if names[r.Minus] == nil {
			reasons = append(reasons, r.Minus)
		}
		names[r.Minus] = append(names[r.Minus], r.Name)
	}
	for i, why := range reasons {
		label := ""
		if i == 0 {
			label = "Why"
		}
		p.labelled(style.Plain, label, labelColumn, strings.Join(names[why], ", ")+": "+why)
	}
}

// cautions names the three that can hurt first; the rest is one key away.
func (x *placePage) cautions(p *page, pl plan.Place) {
	titles := report.CautionTitles(pl)
	for i, c := range titles {
		label := ""
		if i == 0 {
			label = "Care"
		}
		if i == 3 {
			p.labelled(style.Dim, "", labelColumn, fmt.Sprintf("and %d more: h tells all of them", len(titles)-3))
			return
		}
		p.labelled(style.Warn, label, labelColumn, c)
	}
}

func unknownHere(pl plan.Plan, id string) int {
	n := 0
	for _, u := range pl.Unknown {
		if u.Place == id {
			n++
		}
	}
	return n
}

func (x *placePage) Keys(s *session) []key.Binding {
	open := keyOpen
	open.SetEnabled(x.canChange(s))
	return []key.Binding{keys.Reasons, keys.Picture, keys.Damp, keys.How, open, keys.Own, keys.Edit, bind("left/right", "other place", "left", "right"), keys.Back}
}
