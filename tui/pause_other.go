//go:build !unix

package tui

import (
	"io"

	tea "github.com/charmbracelet/bubbletea"
)

// pauser has nothing to do where no signal stops a program.
type pauser struct{}

func newPauser() *pauser          { return &pauser{} }
func (*pauser) tell(*tea.Program) {}
func (*pauser) end()              {}
func (*pauser) shell() bool       { return false }
func (*pauser) letGo() tea.Msg    { return nil }
func raw(io.Reader)               {}
