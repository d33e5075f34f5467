// Package tui is the full-screen wizard.
//
// Rules of the screens: a screen says what to show and holds no arithmetic;
// all text goes through page, which cleans and cuts it; letters belong to a
// text field while one is active; back always works and loses nothing; no
// meaning by colour alone; work on files happens in commands.
package tui

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"github.com/charmbracelet/bubbles/key"

	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// The smallest window that is drawn in, and the least that is useful.
const (
	minWidth  = 40
	minHeight = 10
)

// screen is one full view. Size is passed to View, so that a screen opened
// later needs no replay of the window size.
type screen interface {
	Update(tea.Msg, *session) (screen, tea.Cmd)
	View(p *page, s *session)
	Keys(s *session) []key.Binding
	Step() step
	Typing() bool // a text field is active: letters belong to it
}

// step is a stop of the path shown on top of every screen.
type step int

const (
	stepNone step = iota
	stepHouse
	stepPlaces
	stepMatters
	stepLook
	stepMoney
	stepOrder
	stepCheck
)

var stepNames = []string{"", "house", "places", "what matters", "first look", "money", "order", "check"}

type (
	pushMsg    struct{ to screen }
	replaceMsg struct{ to screen }
	backMsg    struct{}
	goMsg      struct{ to step }
	quitMsg    struct{}
	savedMsg   struct {
		n   int
		err error
	}
	noticeMsg struct{ text string }
	nextMsg   struct{} // the next key of a burst
)

func send(m tea.Msg) tea.Cmd { return func() tea.Msg { return m } }

// Model is the root: it owns size, the stack of screens, and quitting.
type Model struct {
	s             *session
	theme         style.Theme
	width, height int
	stack         []screen
	scroll        map[int]int // by depth of the stack
	autosaved     int
	queue         []tea.KeyMsg // keys of a burst that wait for their turn
	paging        bool         // the person pages: what the keys act on may leave the window
	asking        bool         // "leave without saving?" is on the screen
	interrupted   bool
	done          bool
}

// Interrupted reports whether the person stopped the program with ctrl-c.
func (m Model) Interrupted() bool { return m.interrupted }

// Init starts nothing.
func (m Model) Init() tea.Cmd { return nil }

// Update follows a fixed order: size, keys that always work, navigation,
// results of commands, then the top screen alone.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
		return m, nil
	case tea.KeyMsg:
		return m.key(msg)
	case nextMsg:
		return m.next()
	case pushMsg:
		m.turn()
		return m.push(msg.to), nil
	case replaceMsg:
		m.turn()
		m.stack = append(m.stack[:len(m.stack)-1:len(m.stack)-1], msg.to)
		return m, nil
	case backMsg:
		m.turn()
		return m.back(), nil
	case goMsg:
		m.turn()
		return m.goTo(msg.to), nil
	case quitMsg:
		return m.quit()
	case savedMsg:
		m.s.unkept = ""
		if msg.err != nil {
			m.s.unkept = say.NotKept + msg.err.Error()
		}
		return m, nil
	case noticeMsg:
		m.s.notice = msg.text
		return m, nil
	}
	return m.toTop(msg)
}

// turn is done when another screen comes up: that nothing changed belongs to
// the one that is left. What did change is still to be read.
func (m Model) turn() {
	if m.s.changed == report.NoChange {
		m.s.changed = ""
	}
}

// toTop hands a message to the top screen, and keeps the answers afterwards
// when it changed any.
func (m Model) toTop(msg tea.Msg) (tea.Model, tea.Cmd) {
	next, cmd := m.top().Update(msg, m.s)
	m.stack = append(m.stack[:len(m.stack)-1:len(m.stack)-1], next)
	if m.s.edits != m.autosaved {
		m.autosaved = m.s.edits
		return m, tea.Batch(cmd, m.autosave())
	}
	return m, cmd
}

func (m Model) top() screen { return m.stack[len(m.stack)-1] }

func (m Model) push(to screen) Model {
	m.stack = append(m.stack[:len(m.stack):len(m.stack)], to)
	m.scroll[len(m.stack)] = 0
	return m
}

func (m Model) back() Model {
	if len(m.stack) > 1 {
		m.stack = m.stack[: len(m.stack)-1 : len(m.stack)-1]
	}
	return m.entered()
}

// entered looks for kept answers when the start screen comes up: once, and not
// while it is drawn.
func (m Model) entered() Model {
	if len(m.stack) == 1 {
		m.s.lookForKept()
	}
	return m
}

// goTo replaces everything above the start screen by the screen of a step.
func (m Model) goTo(to step) Model {
	m.stack = m.stack[:1:1]
	if sc := screenOf(to, m.s); sc != nil {
		return m.push(sc)
	}
	return m.entered()
}

// autosave keeps the answers in the state folder, in a command.
func (m Model) autosave() tea.Cmd {
	if m.s.store == nil || m.s.edits == m.s.opened {
		return nil
	}
	n, text, store := m.s.edits, m.s.keptText(), m.s.store
	return func() tea.Msg { return savedMsg{n, store.Autosave(n, text)} }
}

func (m Model) quit() (tea.Model, tea.Cmd) {
	if !m.s.saved && m.s.path != "" && !m.asking {
		m.asking = true
		return m, nil
	}
	m.done = true
	return m, tea.Sequence(m.autosave(), tea.Quit)
}

// leave answers "save before you leave?".
func (m Model) leave(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	switch {
	case key.Matches(msg, keys.Yes):
		m.asking, m.done = false, true
		return m, tea.Sequence(m.save(), tea.Quit)
	case key.Matches(msg, keys.No):
		m.done = true
		return m, tea.Sequence(m.autosave(), tea.Quit)
	case key.Matches(msg, keys.Back):
		m.asking = false
	}
	return m, nil
}

// View draws the path, the top screen, what happened, and the keys.
func (m Model) View() string {
	if m.done || m.width == 0 {
		return ""
	}
	if m.width < minWidth || m.height < minHeight {
		return m.tooSmall()
	}
	p := newPage(m.width, m.theme.Glyphs.Ellipsis)
	top := m.top()
	top.View(p, m.s)
	head, foot := m.head(top), m.foot(top)
	room := m.height - len(head) - len(foot)
	if m.paging {
		p.focus = -1
	}
	rows, at, above, below := p.window(room, m.scroll[len(m.stack)])
	m.scroll[len(m.stack)] = at
	m.moreMarks(head, above, below) // before head is copied
	out := append(head, rows...)
	for len(out) < len(head)+room {
		out = append(out, nil)
	}
	out = append(out, foot...)
	lines := make([]string, len(out))
	for i, r := range out {
		lines[i] = paint(m.theme, r)
	}
	return strings.Join(lines, "\n")
}

func (m Model) tooSmall() string {
	p := newPage(max(1, m.width), "")
	p.para(style.Plain, 0, fmt.Sprintf("The window is %d by %d. Battwright needs at least %d by %d. Make it larger; nothing is lost. q quits.", m.width, m.height, minWidth, minHeight))
	rows, _, _, _ := p.window(max(1, m.height), 0)
	lines := make([]string, len(rows))
	for i, r := range rows {
		lines[i] = paint(m.theme, r)
	}
	return strings.Join(lines, "\n")
}

// moreMarks says on the rule under the path that there is more to see.
func (m Model) moreMarks(head []row, above, below bool) {
	mark := ""
	switch {
	case above && below:
		mark = " more above and below: pgup pgdn "
	case above:
		mark = " more above: pgup "
	case below:
		mark = " more below: pgdn "
	}
	if mark == "" || len(head) == 0 {
		return
	}
	last := len(head) - 1
	rule := strings.Repeat(m.theme.Glyphs.Rule, max(0, m.width-len(mark)-2))
	head[last] = row{{style.Dim, rule}, {style.Warn, mark}, {style.Dim, strings.Repeat(m.theme.Glyphs.Rule, 2)}}
}

func (m Model) head(top screen) []row {
	p := newPage(m.width, m.theme.Glyphs.Ellipsis)
	if at := top.Step(); at == stepNone {
		p.line(style.Title, "battwright")
	} else {
		m.path(p, at)
	}
	p.line(style.Dim, strings.Repeat(m.theme.Glyphs.Rule, m.width))
	return p.rows
}

// path shows where you are. In a narrow window only the neighbours fit.
func (m Model) path(p *page, at step) {
	var pieces []piece
	wide := m.width >= 76
	for i := stepHouse; i <= stepCheck; i++ {
		name := stepNames[i]
		if !wide && (i < at-1 || i > at+1) {
			continue
		}
		if len(pieces) > 0 {
			pieces = append(pieces, piece{style.Dim, " " + m.theme.Glyphs.Dot + " "})
		}
		if i == at {
			pieces = append(pieces, piece{style.Chosen, "[" + name + "]"})
			continue
		}
		pieces = append(pieces, piece{style.Dim, name})
	}
	if !wide {
		pieces = append(pieces, piece{style.Dim, fmt.Sprintf("   step %d of %d", int(at), int(stepCheck))})
	}
	p.add(pieces...)
}
