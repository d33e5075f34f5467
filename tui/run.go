package tui

import (
	"context"
	"errors"
	"io"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/units"
	_ "battwright/tui/background" // before the terminal library asks the terminal
	"battwright/tui/say"
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

// NewModel makes the root model of a configuration.
func NewModel(c Config) Model {
	theme := style.New(c.Mono, c.ASCII)
	s := newSession(c.List, c.Store, c.System)
	s.g, s.ascii = theme.Glyphs, c.ASCII
	m := Model{s: s, theme: theme, scroll: map[int]int{}}
	m = m.push(newStart())
	if c.House != nil {
		// Before the start screen looks for kept answers: opening a house after
		// that is how they are taken up.
		s.open(c.House, c.Path, c.Text)
	}
	m = m.entered()
	if c.House != nil {
		m = m.goTo(firstOpenStep(s))
		if path, ok := say.KeptBeside(s.store, c.Text); ok {
			m = m.push(newKeptChoice(path))
		} else if c.New {
			s.notice = NewFile(c.Path)
		}
	}
	return m
}

// NewFile says that a house begins under a name that no file has yet.
func NewFile(path string) string {
	return path + " is not there yet: this is a new house, and saving puts it there."
}

// Run shows the wizard until the person leaves or ctx ends. The terminal is
// restored whatever happens, a panic included. Signals end ctx and are not the
// library's: its own handler and the end of ctx can wait for each other for ever.
func Run(ctx context.Context, c Config) error {
	p := tea.NewProgram(NewModel(c), tea.WithContext(ctx), tea.WithoutSignalHandler(), tea.WithAltScreen(), tea.WithInput(c.In), tea.WithOutput(c.Out))
	last, err := p.Run()
	m, ok := last.(Model)
	if ok && !m.s.saved {
		// A signal may come before the command that keeps the last answer has run.
		if keep := m.autosave(); keep != nil {
			keep()
		}
	}
	if ok && m.Interrupted() {
		return ErrInterrupted
	}
	return err
}
