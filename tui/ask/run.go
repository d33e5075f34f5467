// Package ask is the wizard line by line: the same questions, answers and
// results as the screens, for a terminal without cursor movement, for a screen
// reader, and for answers that come from a file.
//
// Everything written is plain text in whole lines of a fixed width: one thing a
// line, no colour, no drawing. Every answer is kept as soon as it is given.
package ask

import (
	"errors"
	"fmt"
	"io"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/units"
	"battwright/tui/session"
)

// Errors of Run. Both come after the answers were kept.
var (
	// ErrEnded says that the input ended before the person quit.
	ErrEnded = errors.New("the answers ended before quit")
	// ErrInterrupted is for readers that can be stopped from outside: Run passes
	// it on. It says that the person stopped the program.
	ErrInterrupted = errors.New("interrupted")
)

// UsualWidth is how long lines are where nobody says otherwise, in characters.
const UsualWidth = 78

// The limits of a width that was said.
const (
	leastWidth = 30
	mostWidth  = 200
)

// Config is what Run needs beside its input and output.
type Config struct {
	List   *house.QuestionList
	Store  session.Store // nil: nothing is kept
	House  *house.House  // nil: begin with the start menu
	Path   string        // the file of House
	Text   string        // the text of that file as read
	New    bool          // the file is not there yet: the house will be saved in it
	System units.System
	Width  int  // of a line, 30 to 200; 0 means the usual
	Echo   bool // write each answer after its prompt: for input that no terminal echoes
}

// Run asks until the person quits. The end of the input is ErrEnded; what the
// reader or the writer reports is passed on. The answers are kept in any case.
func Run(in io.Reader, out io.Writer, cfg Config) error {
	s, first := session.Begin(session.Config{List: cfg.List, Store: cfg.Store, House: cfg.House, Path: cfg.Path, Text: cfg.Text, New: cfg.New, System: cfg.System})
	a := &app{talk: newTalk(in, out, cfg.Width, cfg.Echo), s: s, seen: map[string]bool{}}
	err := a.walk(first)
	if errors.Is(err, errQuit) {
		err = nil
	}
	if err != nil {
		a.talk.endLine()
	}
	kept := a.keep()
	if err == nil {
		err = a.talk.flush()
	}
	switch {
	case errors.Is(err, io.EOF):
		err = ErrEnded
	case err == nil && kept == nil:
		return nil
	}
	if kept != nil {
		return errors.Join(err, fmt.Errorf("your answers could not be kept: %w", kept))
	}
	return err
}

// whole is the run that the house belongs to.
func (a *app) whole() *app {
	if a.of != nil {
		return a.of.whole()
	}
	return a
}

// keep writes the answers to the state folder, once for each edit.
func (a *app) keep() error {
	s := a.s
	if s.Store == nil || s.Edits == a.kept || s.Edits == s.Opened {
		return nil
	}
	if err := s.Store.Autosave(s.Edits, s.KeptText()); err != nil {
		return err
	}
	a.kept = s.Edits
	return nil
}

// edited keeps what was edited before it says what that changed, and whether it
// could not be kept.
func (a *app) edited() {
	failed := a.whole().keep()
	switch text := a.s.Changed; text {
	case "":
	case pages.NoChange:
		a.talk.say(text)
	default:
		a.talk.say("Changed: " + text)
	}
	if failed != nil {
		a.talk.say(session.NotKept + failed.Error())
	}
}

// errQuit unwinds everything when the person leaves.
var errQuit = errors.New("quit")

// app is one run.
type app struct {
	talk    *talk
	s       *session.Session
	kept    int             // the edit that was kept last
	of      *app            // the run that this one belongs to, when it asks about the walk and not the house
	seen    map[string]bool // menus whose words were told once
	doubted string          // the answer that was asked about once already
	again   bool            // the page is to be said once more
	noted   func()          // set where a form is not about the house: what to do after an answer
}

// stop is where to go next: a step, or what stands below.
type stop = session.Step

const (
	same stop = iota - 3 // stay; nothing to show changed
	here                 // stay, show again
	up                   // one level back
)

func (a *app) walk(first session.Next) error {
	a.talk.say("Battwright, line by line. Type help at any question.")
	at := first.To
	if first.Open.ID != "" {
		var err error
		if at, err = a.keptChoice(first.Open.Arg); err != nil {
			return err
		}
	}
	for {
		to, err := a.visit(at)
		if err != nil {
			return err
		}
		if to > up {
			at = to
		}
	}
}

// visit asks or shows what belongs to a step. Back leads to the step before.
func (a *app) visit(at stop) (stop, error) {
	if f, ok := a.s.Form(session.AtStep(at)); ok {
		to, err := a.form(f)
		if to == up {
			to = at - 1
		}
		return to, err
	}
	back := at - 1
	if at == session.AtStart {
		back = here
		if look := a.s.LookForKept(); look != nil {
			look.Do()()
		}
	}
	return a.view(session.AtStep(at), back)
}
