//go:build unix

package tui

import (
	"io"
	"os"
	"os/signal"
	"syscall"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/term"
)

// pauser gives the terminal back when somebody else stops the program (kill
// -TSTP), and takes it again when it goes on. The library does both for its key
// alone.
type pauser struct{ signals chan os.Signal }

func newPauser() *pauser {
	x := &pauser{make(chan os.Signal, 4)}
	signal.Notify(x.signals, syscall.SIGTSTP, syscall.SIGCONT)
	return x
}

// tell passes the signals on to a program until it has ended.
func (x *pauser) tell(p *tea.Program) {
	for sig := range x.signals {
		if sig == syscall.SIGTSTP {
			p.Send(pauseMsg{})
		} else {
			p.Send(continuedMsg{})
		}
	}
}

func (x *pauser) end() {
	signal.Stop(x.signals)
	close(x.signals)
}

// letGo lets the next stop signal stop the process, which the library sends once
// it has given the terminal back.
func (x *pauser) letGo() tea.Msg {
	signal.Reset(syscall.SIGTSTP)
	return tea.SuspendMsg{}
}

func (x *pauser) listen() tea.Msg {
	signal.Notify(x.signals, syscall.SIGTSTP)
	return nil
}

// raw makes a terminal raw again that a shell had meanwhile. What it was before
// the program is known to the library and stays so.
func raw(in io.Reader) {
	if f, ok := in.(term.File); ok && term.IsTerminal(f.Fd()) {
		_, _ = term.MakeRaw(f.Fd())
	}
}
