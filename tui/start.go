package tui

import (
	"fmt"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/report"
	"battwright/tui/session"
	"battwright/tui/style"
)

// choiceRow is one line of a menu.
type choiceRow struct {
	label, note string
	do          func(*state) tea.Cmd
}

// menu is a list of things to do.
type menu struct {
	title, intro string
	at           step
	rows         func(*state) []choiceRow
	cursor       int
	root         bool // nothing lies below: back does nothing
	steps        bool // the menu of all steps, which g opens and closes
}

func (m *menu) Step() step   { return m.at }
func (m *menu) Typing() bool { return false }

func (m *menu) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return m, nil
	}
	rows := m.rows(s)
	m.cursor = min(m.cursor, max(0, len(rows)-1))
	switch {
	case len(rows) == 0:
	case key.Matches(k, keys.Up):
		m.cursor = (m.cursor + len(rows) - 1) % len(rows)
	case key.Matches(k, keys.Down):
		m.cursor = (m.cursor + 1) % len(rows)
	case key.Matches(k, keys.Accept):
		return m, rows[m.cursor].do(s)
	}
	if len(k.Runes) == 1 && k.Runes[0] >= '1' && int(k.Runes[0]-'0') <= len(rows) {
		m.cursor, s.picked = int(k.Runes[0]-'1'), true
		return m, rows[m.cursor].do(s)
	}
	if key.Matches(k, keys.Back) && !m.root {
		return m, send(backMsg{})
	}
	return m, nil
}

func (m *menu) View(p *canvas, s *state) {
	p.line(style.Title, m.title)
	if m.intro != "" {
		p.para(style.Dim, 0, m.intro)
	}
	p.blank()
	for i, r := range m.rows(s) {
		mark, tone := "  ", style.Plain
		if i == m.cursor {
			mark, tone = s.g.Pointer+" ", style.Chosen
		}
		p.line(tone, mark+numbered(i)+r.label)
		if i == m.cursor {
			p.mark()
		}
		if r.note != "" {
			p.para(style.Dim, 5, r.note)
		}
	}
}

func (m *menu) Keys(*state) []key.Binding {
	out := []key.Binding{bind("up/down", "move", "up", "down"), bind("enter", "choose", "enter")}
	if !m.root {
		out = append(out, keys.Back)
	}
	return out
}

// newStart is the first screen: go on, begin, or look around.
func newStart() *menu {
	return &menu{
		title: session.Purpose, root: true,
		intro: "Attic, walls, crawl space, basement, near a chimney. You answer what you know; what you don't is assumed and said. Nothing is sent anywhere.",
		rows:  startRows,
	}
}

func startRows(s *state) []choiceRow {
	var rows []choiceRow
	rough, whole := session.Rough(s.List), session.Whole(s.List)
	if s.Edits > 0 || s.Path != "" && s.Fresh == "" || len(s.House.Places) > 0 {
		rows = append(rows, choiceRow{"Go on with " + s.Name(), stageLine(s), goOn})
	} else if s.resume.there {
		kept := session.KeptAtStart(s.resume.path)
		rows = append(rows, choiceRow{kept.Label, kept.Note, resume})
	}
	return append(rows,
		choiceRow{rough.Label, rough.Note, func(s *state) tea.Cmd { return startNew(s, true) }},
		choiceRow{whole.Label, whole.Note, func(s *state) tea.Cmd { return startNew(s, false) }},
		choiceRow{session.Demo.Label, session.Demo.Note, openDemo},
		choiceRow{session.Open.Label, "", func(s *state) tea.Cmd { return send(pushMsg{newOpenFile()}) }},
		choiceRow{session.Words.Label, "", func(s *state) tea.Cmd { return send(pushMsg{newGlossary()}) }},
		choiceRow{"Quit", "", func(*state) tea.Cmd { return send(quitMsg{}) }},
	)
}

func stageLine(s *state) string {
	stage := report.StageText(s.Plan.Stage)
	return fmt.Sprintf("It is %s. %d places; %s.", stage, len(s.Plan.Places), session.OpenAnswers(len(s.Plan.Unknown), len(s.Plan.Assumed)))
}

// firstOpenStep is where to go on: the house until it has places, then the
// table.
func firstOpenStep(s *state) step {
	if len(s.House.Places) == 0 {
		return stepHouse
	}
	return stepLook
}

func startNew(s *state, rough bool) tea.Cmd {
	if !s.mayReplace(fmt.Sprintf("new %t", rough), s.Fresh) {
		return nil
	}
	return s.replaced(s.Fresh, func(s *state) tea.Cmd {
		s.notice, s.drop = "", ""
		s.Begin(rough)
		return send(goMsg{to: stepHouse})
	})
}

func openDemo(s *state) tea.Cmd {
	if !s.mayReplace("demo", "") {
		return nil
	}
	h, err := s.Demo()
	if err != nil {
		return send(noticeMsg{session.NoDemo + "."})
	}
	return s.replaced("", func(s *state) tea.Cmd {
		s.open(h, "", "")
		return send(goMsg{to: stepLook})
	})
}

// resume takes the kept answers back, with the file they belong to.
func resume(s *state) tea.Cmd {
	store := s.Store
	return s.work("Reading the kept answers", func() func(*state) tea.Cmd {
		text, path, ok := store.Resume()
		onDisk := ""
		if path != "" {
			onDisk, _ = store.Read(path)
		}
		return func(s *state) tea.Cmd {
			if !ok {
				return send(noticeMsg{"Nothing was kept."})
			}
			return takeUp(s, text, path, onDisk)
		}
	})
}

func takeUp(s *state, text, path, onDisk string) tea.Cmd {
	if err := s.TakeUp(text, path, onDisk); err != nil {
		return send(pushMsg{newProblems(session.KeptWrong, err)})
	}
	s.notice, s.drop = "", ""
	return goOnSizing(s)
}

// goOn leads to where a house goes on.
func goOn(s *state) tea.Cmd { return send(goMsg{to: firstOpenStep(s), open: true}) }

// goOnSizing leads a house on its way to an order back to the first place whose
// size and frame were not asked to the end.
func goOnSizing(s *state) tea.Cmd {
	at := s.Unsized()
	if at < 0 {
		return goOn(s)
	}
	f := newSizeForm(s, at)
	f.whereLeft(s)
	return tea.Sequence(send(goMsg{to: stepPlaces, open: true}), send(pushMsg{f}))
}

// newGoTo is the menu of all steps.
func newGoTo(at step) *menu {
	m := &menu{title: "Go to", at: at, steps: true}
	findOut, export := newFindOut(), newExport()
	if at == stepNone { // on the start screen no step lies below: back leads there
		findOut.at, export.at = at, at
	}
	m.rows = func(*state) []choiceRow {
		var rows []choiceRow
		for i := stepHouse; i <= stepCheck; i++ {
			rows = append(rows, choiceRow{stepNames[i], "", next(i)})
		}
		return append(rows, choiceRow{"find-out list", "", func(*state) tea.Cmd { return send(replaceMsg{findOut}) }},
			choiceRow{"export", "", func(*state) tea.Cmd { return send(replaceMsg{export}) }},
			choiceRow{"start screen", "", next(stepNone)})
	}
	m.cursor = max(0, int(at)-1)
	return m
}
