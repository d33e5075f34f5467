package tui

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/report"
	"battwright/rules/strict"
	"battwright/tui/style"
)

// walkState is the walk through the finished work: its questions and what was
// answered so far.
type walkState struct {
	list  *house.QuestionList
	house *house.House
	bad   strict.Problems // what could not be read of a file
}

// walk gives the walk with every place that has a plan now. What was measured
// before stays, whatever the plan says by now.
func (s *session) walk() *walkState {
	w := &s.check.walk
	if w.list == nil {
		w.list = inspect.FoundList(s.catalog())
	}
	if w.house == nil {
		w.house = house.New()
	}
	for _, p := range inspect.EmptyFound(s.job()).Places {
		if at := w.house.Place(p.ID); at == nil {
			w.house.Places = append(w.house.Places, p)
		} else {
			at.Kind = p.Kind
		}
	}
	return w
}

func (s *session) walkResult() inspect.FoundResult {
	return inspect.JudgeFound(s.job(), s.walk().house, nil)
}

// begun reports whether anything was looked at yet.
func (w walkState) begun() bool {
	if w.house == nil {
		return false
	}
	for _, p := range w.house.Places {
		if len(p.Answers) > 0 {
			return true
		}
	}
	return len(w.house.Answers) > 0
}

func walkNote(s *session) string {
	if !s.check.walk.begun() {
		return "room by room with a tape measure; you can stop at any point"
	}
	return report.FoundVerdict(s.walkResult())
}

// newWalk lists the places of the walk.
func newWalk() *menu {
	m := &menu{title: "Finished work", intro: "Room by room, while all is open: labels, thickness, gaps. Stop whenever you like; what you typed is kept.", at: stepCheck}
	m.rows = func(s *session) []choiceRow {
		rows := []choiceRow{}
		for _, p := range s.walkResult().Places {
			id := p.Plan.Surface.ID
			rows = append(rows, choiceRow{p.Plan.Surface.Label, walkPlaceNote(p), func(s *session) tea.Cmd { return send(pushMsg{newWalkForm(s, id)}) }})
		}
		return append(rows,
			choiceRow{"The result", "", func(*session) tea.Cmd { return send(pushMsg{newText(foundShown, "finished.txt")}) }},
			choiceRow{"Write it to a file", "plain text that you can read, change and open again", func(*session) tea.Cmd {
				return send(pushMsg{newWriteText("Finished work", "finished.toml", func(s *session) (string, error) {
					return inspect.WriteFound(s.walk().list, s.walk().house), nil
				})})
			}},
			choiceRow{"Open a file of finished work", "", func(*session) tea.Cmd { return send(pushMsg{newOpenFound()}) }},
			choiceRow{"A form to fill in by hand", "", func(*session) tea.Cmd { return send(pushMsg{newText(formShown, "form.txt")}) }})
	}
	return m
}

func walkPlaceNote(p inspect.FoundPlace) string {
	open := p.Open()
	switch {
	case p.Worst() == inspect.Halt:
		return "STOP: do not close"
	case open == len(p.Points):
		return "not looked at yet"
	case p.Worst() > inspect.Pass:
		return fmt.Sprintf("%s; %d of %d points not looked at", p.Worst(), open, len(p.Points))
	case open > 0:
		return fmt.Sprintf("%d of %d points not looked at", open, len(p.Points))
	}
	return "every point passes"
}

func foundShown(s *session, width int) (string, error) {
	o := s.options()
	o.Width = width
	return report.FoundText(s.job(), s.walkResult(), o), nil
}

func formShown(s *session, width int) (string, error) {
	o := s.options()
	o.Width = width
	return report.FormText(s.job(), o), nil
}

// walkForm asks about one place. The form works on the walk instead of the
// house, with everything else as on the other screens.
type walkForm struct {
	form *form
	on   *session // a session whose house is the walk
	id   string
}

func newWalkForm(s *session, id string) *walkForm {
	w := s.walk()
	on := &session{list: w.list, house: w.house, system: s.system, g: s.g, ascii: s.ascii, saved: true}
	on.kept = func() {
		s.edits++ // kept with the answers about the house
		s.notice, s.changed = "", ""
	}
	label := id
	if pl := s.place(id); pl != nil {
		label = pl.Surface.Label
	}
	pick := func(on *session) []house.Question {
		pl, p := s.place(id), on.house.Place(id)
		if pl == nil || p == nil {
			return nil
		}
		return inspect.QuestionsOf(on.list, *pl, p.Answers)
	}
	f := newForm("Finished work: "+label, "Leave open what you did not look at. d: not sure.", stepCheck, id, on, pick, func(*session) tea.Cmd { return send(backMsg{}) })
	f.below = func(p *page, _ *session) { walkBelow(p, s, id) }
	return &walkForm{form: f, on: on, id: id}
}

// walkBelow says what the answers come to, the gravest first.
func walkBelow(p *page, s *session, id string) {
	pl, at := s.place(id), s.walk().house.Place(id)
	if pl == nil || at == nil || pl.Choice == nil || pl.Stopped != "" {
		return
	}
	r := inspect.JudgePlace(s.job(), *pl, at.Answers)
	for _, x := range r.Points {
		switch {
		case x.State == inspect.Halt:
			p.para(style.Danger, 0, report.PointLine(x, s.system)+". "+x.Ask)
		case x.State > inspect.Pass:
			p.para(style.Warn, 0, report.PointLine(x, s.system))
		}
	}
	for _, l := range report.FoundLines(r, s.options()) {
		p.labelled(style.Plain, l.Label, labelColumn, l.Text)
	}
}

func (x *walkForm) Step() step   { return stepCheck }
func (x *walkForm) Typing() bool { return x.form.Typing() }

func (x *walkForm) Update(msg tea.Msg, s *session) (screen, tea.Cmd) {
	x.on.house = s.walk().house
	_, cmd := x.form.Update(msg, x.on)
	return x, cmd
}

func (x *walkForm) settle(*session) bool { return x.form.settle(x.on) }

func (x *walkForm) View(p *page, s *session) {
	x.on.system, x.on.g = s.system, s.g
	x.form.View(p, x.on)
}

func (x *walkForm) Keys(*session) []key.Binding { return x.form.Keys(x.on) }

// newOpenFound reads a file of finished work as far as possible.
func newOpenFound() *prompt {
	return newPrompt(stepCheck, "Open finished work", "The path of a .toml file, for instance finished.toml. It takes the place of what was typed here.", func(path string, s *session) (tea.Cmd, string) {
		text, problem := s.readFile(path)
		if problem != "" {
			return nil, problem
		}
		w := s.walk()
		h, notes, problems := inspect.ReadFound(w.list, s.job(), path, text)
		w.house, w.bad = h, append(problems, notes...)
		s.edits++
		if len(w.bad) > 0 {
			return send(replaceMsg{newFoundProblems(path)}), ""
		}
		return send(backMsg{}), ""
	})
}

func newFoundProblems(path string) *reading {
	return &reading{at: stepCheck, draw: func(p *page, s *session) {
		p.line(style.Title, path+" was read as far as possible")
		p.blank()
		problemRows(p, s.check.walk.bad)
	}}
}

// walkMark begins each line of the walk in the kept answers. They are comments
// there, so that the house can be read without them.
const walkMark = "#| "

// walkText is the walk as the kept answers hold it, empty before it is begun.
func (s *session) walkText() string {
	if !s.check.walk.begun() {
		return ""
	}
	var b strings.Builder
	for _, l := range strings.Split(strings.TrimRight(inspect.WriteFound(s.check.walk.list, s.check.walk.house), "\n"), "\n") {
		b.WriteString(walkMark + l + "\n")
	}
	return "\n" + b.String()
}

// takeWalk takes the walk out of kept answers.
func (s *session) takeWalk(text string) {
	var b strings.Builder
	for _, l := range strings.Split(text, "\n") {
		if head, ok := strings.CutPrefix(l, walkMark); ok {
			b.WriteString(head + "\n")
		}
	}
	if b.Len() == 0 {
		return
	}
	w := s.walk()
	w.house, _, _ = inspect.ReadFound(w.list, s.job(), "kept answers", b.String())
}

// keptWalk takes the walk back when a file is opened whose answers were kept.
func (s *session) keptWalk(path string) {
	if s.store == nil || path == "" {
		return
	}
	text, kept, ok := s.store.Resume()
	if !ok || kept == "" {
		return
	}
	abs, err := filepath.Abs(path)
	if kept == path || err == nil && kept == abs {
		s.takeWalk(text)
	}
}

// forget drops the kept answers after they were saved, unless they hold a walk
// that no file of the person holds.
func (s *session) forget() tea.Cmd {
	if s.check.walk.begun() {
		return nil
	}
	return forget(s.store)
}
