package tui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/units"
	_ "battwright/tui/background" // before the terminal library asks the terminal
	"battwright/tui/session"
	"battwright/tui/style"
)

// Config is what the wizard needs to start.
type Config struct {
	List   *house.QuestionList
	Store  Store
	House  *house.House // nil: begin with the start screen
	Path   string
	Text   string
	New    bool // the file is not there yet: the house will be saved in it
	System units.System
	Mono   bool // no colour
	ASCII  bool
	In     io.Reader
	Out    io.Writer
}

// ErrInterrupted says that the person stopped the program with ctrl-c.
var ErrInterrupted = errors.New("interrupted")

// ErrHurried says that the program was ended while something hung.
var ErrHurried = errors.New("ended at once")

// ErrNotKept says that the newest answers are in no file; why follows.
var ErrNotKept = errors.New("your answers are in no file")

// NewModel makes the root model of a configuration.
func NewModel(c Config) Model {
	theme := style.New(c.Mono, c.ASCII)
	on, first := session.Begin(session.Config{List: c.List, Store: c.Store, House: c.House, Path: c.Path, Text: c.Text, New: c.New, System: c.System})
	on.ASCII = c.ASCII
	s := &state{Session: on, g: theme.Glyphs, notice: first.Say}
	m := Model{s: s, theme: theme, scroll: map[int]int{}, frame: new(string)}
	m = m.push(newScreen(session.At{ID: session.Start}, s, session.AtStart))
	if first.To != session.AtStart {
		m = m.goTo(goMsg{to: first.To, open: true})
	}
	if first.Open.ID != "" {
		m = m.push(newScreen(first.Open, s, session.AtStart))
	}
	return m
}

// grace is how long an orderly end may take once somebody insists on it.
const grace = time.Second

// Run shows the wizard until the person leaves or ctx ends. The terminal is
// restored whatever happens, a panic included. Signals end ctx and are not the
// library's: its own handler and the end of ctx can wait for each other for ever.
// When hurry is closed the program ends even if something it waits for never
// comes, a drive that does not answer for instance.
func Run(ctx context.Context, hurry <-chan struct{}, c Config) error {
	return runWith(ctx, hurry, c, func(*Model) {})
}

func runWith(ctx context.Context, hurry <-chan struct{}, c Config, begin func(*Model)) error {
	m := NewModel(c)
	begin(&m)
	m.pauser, m.in = newPauser(), c.In
	p := tea.NewProgram(m, tea.WithContext(ctx), tea.WithoutSignalHandler(), tea.WithAltScreen(), tea.WithInput(c.In), tea.WithOutput(c.Out))
	go m.pauser.tell(p)
	defer m.pauser.end()
	ended := make(chan error, 1)
	go func() { ended <- toTheEnd(p) }()
	select {
	case err := <-ended:
		return err
	case <-hurry:
	}
	select {
	case err := <-ended:
		return err
	case <-time.After(grace):
	}
	_ = p.ReleaseTerminal()
	return ErrHurried
}

// toTheEnd runs the program and keeps the last answers.
func toTheEnd(p *tea.Program) error {
	last, err := p.Run()
	m, ok := last.(Model)
	if !ok {
		return err
	}
	// A signal may come before the command that keeps the last answer has run.
	if !m.hurried {
		m.settle()
	}
	if keep := m.autosave(); keep != nil && !m.hurried && (!m.s.Saved || m.s.WalkUnsaved()) {
		msg := keep()
		if slow, ok := msg.(slowMsg); ok {
			msg = <-slow.rest
		}
		if kept, ok := msg.(savedMsg); ok {
			next, _ := m.kept(kept)
			m = next.(Model)
		}
	}
	if m.Interrupted() {
		err = ErrInterrupted
	}
	if why := m.lost(); why != "" {
		err = errors.Join(err, fmt.Errorf("%w: %s", ErrNotKept, strings.TrimPrefix(why, session.NotKept)))
	}
	return err
}
