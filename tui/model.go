// Package tui is the full-screen wizard.
//
// Rules of the screens: a screen says what to show and holds no arithmetic;
// all text goes through page, which cleans and cuts it; letters belong to a
// text field while one is active; back always works and loses nothing; no
// meaning by colour alone; work on files, and what takes long, happens in
// commands (work.go).
package tui

import (
	"fmt"
	"io"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"github.com/charmbracelet/bubbles/key"

	"battwright/rules/pages"
	"battwright/tui/session"
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
	Update(tea.Msg, *state) (screen, tea.Cmd)
	View(p *canvas, s *state)
	Keys(s *state) []key.Binding
	Step() step
	Typing() bool // a text field is active: letters belong to it
}

type (
	pushMsg    struct{ to screen }
	replaceMsg struct{ to screen }
	backMsg    struct{}
	goMsg      struct {
		to   step
		open bool // go on where the house was left
	}
	quitMsg  struct{}
	savedMsg struct {
		n   int
		err error
	}
	pauseMsg     struct{}           // somebody wants the program to stop for a while
	continuedMsg struct{}           // it goes on
	nextMsg      struct{ turn int } // the next waiting key
)

func send(m tea.Msg) tea.Cmd { return func() tea.Msg { return m } }

// Model is the root: it owns size, the stack of screens, and quitting.
type Model struct {
	s             *state
	theme         style.Theme
	width, height int
	stack         []screen
	trail         []screen    // the steps that led here, the newest last
	scroll        map[int]int // by depth of the stack
	autosaved     int
	queue         []tea.KeyMsg // keys that wait for their turn
	turns         int          // the newest invitation to the next of them
	leaving       bool         // the program ends once the answers are kept
	frame         *string      // what is on the screen
	paging        bool         // the person pages: what the keys act on may leave the window
	asking        bool         // "leave without saving?" is on the screen
	interrupted   bool
	hurried       bool // ctrl-c came twice: nothing is waited for
	paused        bool // the terminal is, or is about to be, the shell's
	pauser        *pauser
	in            io.Reader
	done          bool
}

// Interrupted reports whether the person stopped the program with ctrl-c.
func (m Model) Interrupted() bool { return m.interrupted }

// Init works out what the first screen shows.
func (m Model) Init() tea.Cmd {
	_, cmd := m.shown()
	return cmd
}

// Update follows a fixed order: size, keys that always work, navigation,
// results of commands, then the top screen alone.
func (m Model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.width, m.height = msg.Width, msg.Height
		if m.width <= 0 || m.height <= 0 { // a terminal that does not know its size
			m.width, m.height = 80, 24
		}
		return m, nil
	case tea.KeyMsg:
		return m.key(msg)
	case nextMsg:
		if msg.turn != m.turns {
			return m, nil
		}
		return m.next()
	case pauseMsg:
		return m.pause()
	case tea.ResumeMsg:
		m.paused = false
		return m, nil
	case continuedMsg:
		return m.continued()
	case doneMsg:
		return m.worked(msg)
	case slowMsg:
		return m.slow(msg)
	case brokenMsg:
		panic(msg.fault) // here the terminal is restored
	case pushMsg:
		m.turn()
		return m.push(msg.to).shown()
	case replaceMsg:
		m.turn()
		m.stack = m.stack[: len(m.stack)-1 : len(m.stack)-1]
		return m.push(msg.to).shown()
	case backMsg:
		m.turn()
		return m.back().shown()
	case goMsg:
		m.turn()
		return m.goTo(msg).shown()
	case quitMsg:
		return m.quit()
	case aheadMsg:
		return m.gone(msg)
	case savedMsg:
		return m.kept(msg)
	}
	return m.toTop(msg)
}

// turn is done when another screen comes up: that nothing changed belongs to
// the one that is left. What did change is still to be read.
func (m Model) turn() {
	if m.s.Changed == pages.NoChange {
		m.s.Changed = ""
	}
}

// toTop hands a message to the top screen, and keeps the answers afterwards
// when it changed any.
func (m Model) toTop(msg tea.Msg) (tea.Model, tea.Cmd) {
	next, cmd := m.top().Update(msg, m.s)
	if _, only := next.(*viewScreen); !only { // that one changes nothing but through done
		m.s.views = nil
	}
	if m.s.rewind {
		m.scroll[len(m.stack)], m.s.rewind = 0, false
	}
	m.stack = append(m.stack[:len(m.stack)-1:len(m.stack)-1], next)
	m, cmd = m.keep(cmd)
	return m, cmd
}

// keep keeps the answers beside what a command does, where any changed.
func (m Model) keep(cmd tea.Cmd) (Model, tea.Cmd) {
	if m.s.Edits == m.autosaved {
		return m, cmd
	}
	m.autosaved = m.s.Edits
	return m, tea.Batch(m.autosave(), m.s.ahead(), cmd)
}

// kept takes in whether answers are kept. Until then the frame that shows them
// waits.
func (m Model) kept(msg savedMsg) (tea.Model, tea.Cmd) {
	m.s.keptTo = max(m.s.keptTo, msg.n)
	m.calm()
	m.s.unkept = ""
	if msg.err != nil {
		m.s.unkept = session.NotKept + msg.err.Error()
	}
	switch {
	case !m.leaving:
		return m, nil
	case msg.err != nil:
		m.leaving, m.asking = false, true
		return m, nil
	}
	m.done = true
	return m, tea.Quit
}

func (m Model) top() screen { return m.stack[len(m.stack)-1] }

func (m Model) push(to screen) Model {
	m.stack = append(m.stack[:len(m.stack):len(m.stack)], to)
	m.scroll[len(m.stack)] = 0
	return m
}

// back shows the screen before: the one below, else the step that led here, else
// the step that comes before in the path. It never leads to the start screen
// while there are answers, where the next keys would begin another house.
func (m Model) back() Model {
	switch {
	case len(m.stack) > 2:
		m.stack = m.stack[: len(m.stack)-1 : len(m.stack)-1]
		return m
	case len(m.stack) < 2:
		return m
	case len(m.trail) > 0:
		to := m.trail[len(m.trail)-1]
		m.trail = m.trail[: len(m.trail)-1 : len(m.trail)-1]
		m.stack = m.stack[:1:1]
		if f, ok := to.(*form); ok {
			f.again()
		}
		return m.push(to)
	case m.stack[1].Step() > session.AtHouse:
		to := stepScreen(m.stack[1].Step()-1, m.s)
		m.stack = m.stack[:1:1]
		return m.push(to)
	case m.stack[1].Step() == session.AtHouse && m.s.Begun():
		m.s.notice = "This is the first question. g leads to every step and to the start screen."
		return m
	}
	m.stack = m.stack[:1:1]
	return m
}

// noShell says why the program does not stop for a while.
const noShell = "Battwright cannot pause here: there is no shell to go back to. q quits and keeps your answers."

// pause gives the terminal back and stops.
func (m Model) pause() (tea.Model, tea.Cmd) {
	if m.paused || m.pauser == nil {
		return m, nil
	}
	if !m.pauser.shell() {
		m.s.notice = noShell
		return m, nil
	}
	m.paused = true
	return m, m.pauser.letGo
}

// continued takes the terminal again that was not given back in order: a shell
// had it meanwhile, and wrote on it.
func (m Model) continued() (tea.Model, tea.Cmd) {
	if m.paused {
		return m, nil // the library is about to
	}
	in := m.in
	return m, tea.Sequence(func() tea.Msg { raw(in); return nil }, tea.ClearScreen)
}

// shown is what a screen needs to know once it comes up, and is not found out
// while it is drawn: the start screen whether answers are kept, what shows the plan
// its damp.
func (m Model) shown() (tea.Model, tea.Cmd) {
	if x, ok := m.top().(preparer); ok {
		return m, x.prepare(m.s)
	}
	if _, ok := m.top().(*matters); ok {
		work := m.s.Settle()
		if work == nil {
			return m, nil
		}
		return m, m.s.next(session.Next{Work: work}, m.top())
	}
	return m, nil
}

// preparer is a screen that finds something out when it comes up.
type preparer interface{ prepare(*state) tea.Cmd }

// longestTrail is how many steps back leads to before the order of the path.
const longestTrail = 20

// goTo replaces everything above the start screen by the screen of a step, and
// keeps the one that led there.
func (m Model) goTo(msg goMsg) Model {
	switch {
	case msg.open || msg.to == session.AtStart || len(m.stack) < 2:
		m.trail = nil
	case m.stack[1].Step() != msg.to:
		trail := m.trail[max(0, len(m.trail)-longestTrail+1):]
		m.trail = append(trail[:len(trail):len(trail)], m.stack[1])
	}
	m.stack = m.stack[:1:1]
	if msg.to == session.AtStart {
		return m
	}
	sc := stepScreen(msg.to, m.s)
	if f, ok := sc.(*form); ok && msg.open {
		f.whereLeft()
	}
	return m.push(sc)
}

// autosave keeps the answers in the state folder, in a command.
func (m Model) autosave() tea.Cmd {
	if m.s.Store == nil || m.s.Edits == m.s.Opened {
		return nil
	}
	n, text, store := m.s.Edits, m.s.KeptText(), m.s.Store
	m.s.keeping = n
	return inTime(func() tea.Msg { return savedMsg{n, store.Autosave(n, text)} })
}

// quit asks first where answers would be left in no file of the person that has
// one, or, once it turns out, in no file at all.
func (m Model) quit() (tea.Model, tea.Cmd) {
	if !m.s.Saved && m.s.Path != "" {
		m.asking = true
		return m, nil
	}
	if m.s.Saved && !m.s.WalkUnsaved() {
		m.done = true
		return m, tea.Quit
	}
	keep := m.autosave()
	if keep == nil {
		m.done = true
		return m, tea.Quit
	}
	m.leaving = true
	return m, keep
}

// lost says why the newest answers are in no file, empty when they are in one.
func (m Model) lost() string {
	if m.s.Saved && !m.s.WalkUnsaved() || m.s.Edits == m.s.Opened {
		return ""
	}
	return m.s.unkept
}

// leave answers "save before you leave?".
func (m Model) leave(msg tea.KeyMsg) (tea.Model, tea.Cmd) {
	switch {
	case key.Matches(msg, keys.Yes):
		m.asking, m.s.leave = false, true
		return m, m.s.next(m.s.Save(), nil)
	case key.Matches(msg, keys.No):
		m.done = true
		return m, tea.Sequence(m.autosave(), tea.Quit)
	case key.Matches(msg, keys.Back):
		m.asking, m.interrupted = false, false
	}
	return m, nil
}

// View draws the path, the top screen, what happened, and the keys.
func (m Model) View() string {
	switch {
	case m.done || m.width == 0:
		return ""
	case m.s.keptTo < m.s.keeping && !m.s.slow && *m.frame != "":
		return *m.frame // what an answer led to is shown once it is kept
	}
	*m.frame = m.draw()
	return *m.frame
}

func (m Model) draw() string {
	if m.width < minWidth || m.height < minHeight {
		return m.tooSmall()
	}
	p := newCanvas(m.width, m.theme.Glyphs.Ellipsis)
	top := m.top()
	if !m.s.Settled() && showsPlan(top, m.s) {
		waits(p, m.s)
	} else {
		top.View(p, m.s)
	}
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
	return m.painted(append(out, foot...))
}

func (m Model) tooSmall() string {
	p := newCanvas(max(1, m.width), "")
	p.para(style.Plain, 0, fmt.Sprintf("The window is %d by %d. Battwright needs at least %d by %d. Make it larger; nothing is lost. q quits.", m.width, m.height, minWidth, minHeight))
	rows, _, _, _ := p.window(max(1, m.height), 0)
	return m.painted(rows)
}

func (m Model) painted(rows []row) string {
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
	p := newCanvas(m.width, m.theme.Glyphs.Ellipsis)
	if at := top.Step(); at == session.AtStart {
		p.line(style.Title, "battwright")
	} else {
		m.path(p, at)
	}
	p.line(style.Dim, strings.Repeat(m.theme.Glyphs.Rule, m.width))
	return p.rows
}

// path shows where you are. In a narrow window only the neighbours fit.
func (m Model) path(p *canvas, at step) {
	var pieces []piece
	wide := m.width >= 76
	for i := session.AtHouse; i <= session.AtCheck; i++ {
		name := session.StepNames[i]
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
		pieces = append(pieces, piece{style.Dim, fmt.Sprintf("   step %d of %d", int(at), int(session.AtCheck))})
	}
	p.add(pieces...)
}
