package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// newWalk lists the places of the walk.
func newWalk() *menu {
	m := &menu{title: "Finished work", intro: session.WalkIntro, at: stepCheck}
	m.rows = func(s *state) []choiceRow {
		rows := []choiceRow{}
		for _, p := range s.WalkResult().Places {
			id := p.Plan.Surface.ID
			rows = append(rows, choiceRow{p.Plan.Surface.Label, report.FoundNote(p), func(s *state) tea.Cmd { return send(pushMsg{newWalkForm(s, id)}) }})
		}
		return append(rows,
			choiceRow{"The result", "", func(*state) tea.Cmd { return send(pushMsg{newPageView(foundShown, "finished.txt")}) }},
			choiceRow{"Write it to a file", session.WalkFile, func(*state) tea.Cmd {
				x := newWriteText("Finished work", "finished.toml", func(s *state) (string, error) { return s.Walk().Text(), nil })
				x.written = func(s *state) { s.Walk().Written() }
				return send(pushMsg{x})
			}},
			choiceRow{"Open a file of finished work", "", func(*state) tea.Cmd { return send(pushMsg{newOpenFound()}) }},
			choiceRow{"A form to fill in by hand", "", func(*state) tea.Cmd { return send(pushMsg{newPageView(formShown, "form.txt")}) }})
	}
	return m
}

func foundShown(s *state) (page.Page, error) {
	return report.FoundPage(s.Job(), s.WalkResult(), s.Options()), nil
}

func formShown(s *state) (page.Page, error) { return report.FormPage(s.Job()), nil }

// walkForm asks about one place. The form works on the walk instead of the
// house, with everything else as on the other screens.
type walkForm struct {
	form *form
	on   *state // a session whose house is the walk
	id   string
}

func newWalkForm(s *state, id string) *walkForm {
	on := &state{Session: s.OnWalk(func() { s.notice, s.Changed = "", "" }), g: s.g, ascii: s.ascii}
	label := id
	if pl := s.Place(id); pl != nil {
		label = pl.Surface.Label
	}
	pick := func(*state) []house.Question { return s.Walk().QuestionsAt(s.Job(), id) }
	f := newForm("Finished work: "+label, session.WalkHint, stepCheck, id, on, pick, func(*state) tea.Cmd { return send(backMsg{}) })
	f.below = func(p *canvas, _ *state) { walkBelow(p, s, id) }
	return &walkForm{form: f, on: on, id: id}
}

// walkBelow says what the answers come to.
func walkBelow(p *canvas, s *state, id string) {
	found, ok := s.Walk().JudgeAt(s.Job(), id)
	if !ok {
		return
	}
	showBlocks(p, s, []page.Block{{Rows: report.FoundRows(found, s.Options())}})
}

func (x *walkForm) Step() step   { return stepCheck }
func (x *walkForm) Typing() bool { return x.form.Typing() }

func (x *walkForm) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	x.on.House = s.Walk().House
	_, cmd := x.form.Update(msg, x.on)
	s.picked, x.on.picked = x.on.picked, false
	return x, cmd
}

func (x *walkForm) settle(*state) bool { return x.form.settle(x.on) }

func (x *walkForm) View(p *canvas, s *state) {
	x.on.System, x.on.g = s.System, s.g
	x.form.View(p, x.on)
}

func (x *walkForm) Keys(*state) []key.Binding { return x.form.Keys(x.on) }

// newOpenFound reads a file of finished work as far as possible. Where that
// would take away what no file holds, the same name is wanted twice.
func newOpenFound() *prompt {
	var x *prompt
	x = newPrompt(stepCheck, "Open finished work", session.PathOfFile("finished.toml")+". "+session.TakesPlace, func(path string, s *state) (tea.Cmd, string) {
		return x.readThen(s, path, func(s *state, text string) tea.Cmd {
			if s.WalkUnsaved() && x.sure != path {
				x.askTwice(path)
				x.problem = session.UnsavedWalk + ". Enter again goes on."
				return nil
			}
			return openFound(s, path, text)
		})
	})
	return x
}

func openFound(s *state, path, text string) tea.Cmd {
	taken, problems := s.OpenWalk(path, text)
	title := session.AsFarAsPossible(path)
	if !taken {
		title = session.NotRead(path)
	}
	if problems != nil {
		return send(replaceMsg{newFoundProblems(title, problems)})
	}
	return send(backMsg{})
}

func newFoundProblems(title string, problems error) *reading {
	return &reading{at: stepCheck, draw: func(p *canvas, _ *state) {
		p.line(style.Title, title)
		p.blank()
		problemRows(p, problems)
	}}
}
