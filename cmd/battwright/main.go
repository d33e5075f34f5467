// Battwright helps a first-time owner-builder decide which blanket insulation
// goes in each place of a house, and explains itself.
package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"runtime/debug"
	"time"

	"github.com/charmbracelet/x/term"

	"battwright/rules/strict"
	_ "battwright/tui/background" // before any terminal library: see that package
)

// The exit codes. This is the only table of them.
const (
	exitDone        = 0   // done; warnings allowed
	exitInput       = 1   // input is wrong, or could not be read or written
	exitUsage       = 2   // the command line is wrong
	exitShort       = 3   // done, but something falls short (plan and order: with --strict; an order of nothing and answers that disagree in a check always)
	exitInternal    = 70  // a fault of the program itself
	exitInterrupted = 130 // stopped by the person or a signal
)

// env is what a run touches of the outside world.
type env struct {
	stdin          io.Reader
	stdout, stderr io.Writer
	terminal       bool // both ends are a terminal
	getenv         func(string) string
	now            func() time.Time // nil: the clock of the machine
	files          fs.FS            // nil: the data that are built in
}

// today is the day of the run, as a day without a time.
func (e env) today() time.Time {
	now := time.Now
	if e.now != nil {
		now = e.now
	}
	year, month, day := now().Date()
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

func main() {
	// A run is short and holds little: collecting garbage as often as usual would
	// cost a fifth of it. From the limit on it is collected as usual.
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(256 << 20)
	e := env{os.Stdin, os.Stdout, os.Stderr, isTerminal(os.Stdin) && isTerminal(os.Stdout), os.Getenv, time.Now, nil}
	os.Exit(run(os.Args[1:], e))
}

func isTerminal(f *os.File) bool { return term.IsTerminal(f.Fd()) }

// run is the whole program. A panic is a fault of ours: it is reported in
// plain words and never loses what a saved file holds.
func run(args []string, e env) (code int) {
	defer func() {
		if r := recover(); r != nil {
			fault, _ := strict.CleanLines(fmt.Sprintf("battwright: a fault in the program itself: %v\nNothing you saved was changed.\n%s", r, debug.Stack()))
			io.WriteString(e.stderr, fault)
			code = exitInternal
		}
	}()
	if e.terminal {
		return dispatch(args, e)
	}
	out := &watched{to: e.stdout}
	e.stdout = out
	code = dispatch(args, e)
	if out.err != nil && (code == exitDone || code == exitShort) {
		return fail(e, out.err)
	}
	return code
}

func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" || info.Main.Version == "(devel)" {
		return "battwright (built from source)"
	}
	return "battwright " + info.Main.Version
}
