package tui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// walk gives the walk through the finished work with every place that has a
// plan now.
func (s *session) walk() *inspect.Walk {
	if s.check.walk == nil {
		s.check.walk = inspect.NewWalk(s.catalog())
	}
	s.check.walk.Follow(s.job())
	return s.check.walk
}

// walkBegun is cheaper than the walk itself where nobody began one.
func (s *session) walkBegun() bool { return s.check.walk != nil && s.check.walk.Begun() }

func (s *session) walkUnsaved() bool { return s.check.walk != nil && s.check.walk.Unsaved() }

func (s *session) walkResult() inspect.FoundResult { return s.walk().Judge(s.job()) }

// newWalk lists the places of the walk.
func newWalk() *menu {
	m := &menu{title: "Finished work", intro: say.WalkIntro, at: stepCheck}
	m.rows = func(s *session) []choiceRow {
		rows := []choiceRow{}
		for _, p := range s.walkResult().Places {
			id := p.Plan.Surface.ID
			rows = append(rows, choiceRow{p.Plan.Surface.Label, report.FoundNote(p), func(s *session) tea.Cmd { return send(pushMsg{newWalkForm(s, id)}) }})
		}
		return append(rows,
			choiceRow{"The result", "", func(*session) tea.Cmd { return send(pushMsg{newPageView(foundShown, "finished.txt")}) }},
			choiceRow{"Write it to a file", say.WalkFile, func(*session) tea.Cmd {
				x := newWriteText("Finished work", "finished.toml", func(s *session) (string, error) { return s.walk().Text(), nil })
				x.written = func(s *session) { s.walk().Written() }
				return send(pushMsg{x})
			}},
			choiceRow{"Open a file of finished work", "", func(*session) tea.Cmd { return send(pushMsg{newOpenFound()}) }},
			choiceRow{"A form to fill in by hand", "", func(*session) tea.Cmd { return send(pushMsg{newPageView(formShown, "form.txt")}) }})
	}
	return m
}

func foundShown(s *session) (page.Page, error) {
	return report.FoundPage(s.job(), s.walkResult(), s.options()), nil
}

func formShown(s *session) (page.Page, error) { return report.FormPage(s.job()), nil }

// walkForm asks about one place. The form works on the walk instead of the
// house, with everything else as on the other screens.
type walkForm struct {
	form *form
	on   *session // a session whose house is the walk
	id   string
}

func newWalkForm(s *session, id string) *walkForm {
	w := s.walk()
	on := &session{list: w.List, house: w.House, system: s.system, g: s.g, ascii: s.ascii, saved: true}
	on.kept = func() {
		s.walk().Changed()
		s.edits++ // kept with the answers about the house
		s.notice, s.changed = "", ""
	}
	label := id
	if pl := s.place(id); pl != nil {
		label = pl.Surface.Label
	}
	pick := func(*session) []house.Question { return s.walk().QuestionsAt(s.job(), id) }
	f := newForm("Finished work: "+label, say.WalkHint, stepCheck, id, on, pick, func(*session) tea.Cmd { return send(backMsg{}) })
	f.below = func(p *canvas, _ *session) { walkBelow(p, s, id) }
	return &walkForm{form: f, on: on, id: id}
}

// walkBelow says what the answers come to.
func walkBelow(p *canvas, s *session, id string) {
	found, ok := s.walk().JudgeAt(s.job(), id)
	if !ok {
		return
	}
	showBlocks(p, s, []page.Block{{Rows: report.FoundRows(found, s.options())}})
}

func (x *walkForm) Step() step   { return stepCheck }
func (x *walkForm) Typing() bool { return x.form.Typing() }

func (x *walkForm) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
	x.on.house = s.walk().House
	_, cmd := x.form.Update(msg, x.on)
	s.picked, x.on.picked = x.on.picked, false
	return x, cmd
}

func (x *walkForm) settle(*session) bool { return x.form.settle(x.on) }

func (x *walkForm) View(p *canvas, s *session) {
	x.on.system, x.on.g = s.system, s.g
	x.form.View(p, x.on)
}

func (x *walkForm) Keys(*session) []key.Binding { return x.form.Keys(x.on) }

// newOpenFound reads a file of finished work as far as possible. Where that
// would take away what no file holds, the same name is wanted twice.
func newOpenFound() *prompt {
	var x *prompt
	x = newPrompt(stepCheck, "Open finished work", say.PathOfFile("finished.toml")+". "+say.TakesPlace, func(path string, s *session) (tea.Cmd, string) {
		return x.readThen(s, path, func(s *session, text string) tea.Cmd {
			if s.walkUnsaved() && x.sure != path {
				x.askTwice(path)
				x.problem = say.UnsavedWalk + ". Enter again goes on."
				return nil
			}
			return openFound(s, path, text)
		})
	})
	return x
}

func openFound(s *session, path, text string) tea.Cmd {
	taken, problems := s.walk().Open(s.job(), path, text)
	s.check.bad = problems
	title := say.AsFarAsPossible(path)
	if taken {
		s.edits++
	} else {
		title = say.NotRead(path)
	}
	if len(problems) > 0 {
		return send(replaceMsg{newFoundProblems(title)})
	}
	return send(backMsg{})
}

func newFoundProblems(title string) *reading {
	return &reading{at: stepCheck, draw: func(p *canvas, s *session) {
		p.line(style.Title, title)
		p.blank()
		problemRows(p, s.check.bad)
	}}
}

// walkText is the walk as the kept answers hold it, empty before it is begun.
func (s *session) walkText() string {
	if s.check.walk == nil {
		return ""
	}
	return s.check.walk.Kept()
}

// takeWalk takes the walk out of kept answers, where they hold one.
func (s *session) takeWalk(text string) {
	if house.FinishedWork(text) != "" {
		s.walk().TakeUp(s.job(), text)
	}
}

// keptWalk takes the walk back when a file is opened whose answers were kept.
func (s *session) keptWalk(path string) {
	if s.store == nil || path == "" {
		return
	}
	if text, kept, ok := s.store.Resume(); ok && say.SameFile(kept, path) {
		s.takeWalk(text)
	}
}

// forget drops the kept answers after they were saved, unless they hold a walk
// that no file of the person holds.
func (s *session) forget() tea.Cmd {
	if s.walkBegun() {
		return nil
	}
	return forget(s.store)
}
