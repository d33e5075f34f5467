//go:build unix

package tui

import (
	"io"
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
	"golang.org/x/sys/unix"
)

// pauser gives the terminal back when somebody else stops the program (kill
// -TSTP), and takes it again when it goes on. The library does both for its key
// alone.
type pauser struct {
	signals chan os.Signal
	letting atomic.Bool // the next stop signal comes from the library
}

func newPauser() *pauser {
	x := &pauser{signals: make(chan os.Signal, 4)}
	signal.Notify(x.signals, syscall.SIGTSTP, syscall.SIGCONT)
	return x
}

// tell passes the signals on to a program until it has ended. A SIGTSTP that was
// ever listened to stops a Go program no more, and resetting it does not change
// that: the runtime keeps its handler. So the one that the library sends, when it
// has given the terminal back, is answered with the stop that nobody can catch.
func (x *pauser) tell(p *tea.Program) {
	for sig := range x.signals {
		switch {
		case sig == syscall.SIGCONT:
			p.Send(continuedMsg{})
		case x.letting.CompareAndSwap(true, false):
			_ = syscall.Kill(syscall.Getpid(), syscall.SIGSTOP)
		default:
			p.Send(pauseMsg{})
		}
	}
}

func (x *pauser) end() {
	signal.Stop(x.signals)
	close(x.signals)
}

// shell reports whether there may be a shell to go back to. In the process group
// that began the session there is none: a terminal window, a remote login or a
// container started the program, and nobody could make it go on.
func (*pauser) shell() bool {
	session, err := unix.Getsid(0)
	return err == nil && session != unix.Getpgrp()
}

// letGo lets the next stop signal stop the process, which the library sends once
// it has given the terminal back.
func (x *pauser) letGo() tea.Msg {
	x.letting.Store(true)
	return tea.SuspendMsg{}
}

// raw makes a terminal raw again that a shell had meanwhile. What it was before
// the program is known to the library and stays so.
func raw(in io.Reader) {
	if f, ok := in.(term.File); ok && term.IsTerminal(f.Fd()) {
		_, _ = term.MakeRaw(f.Fd())
	}
}
