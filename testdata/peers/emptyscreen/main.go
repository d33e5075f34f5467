// Emptyscreen is the least program of the terminal library: one line, any key
// ends it. The background is set first, as in the real program: without that
// the library asks the terminal and waits.
package main

import (
	_ "battwright/tui/background"

	tea "github.com/charmbracelet/bubbletea"
)

type model struct{}

func (model) Init() tea.Cmd { return nil }
func (model) View() string  { return "ready" }
func (m model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if _, ok := msg.(tea.KeyMsg); ok {
		return m, tea.Quit
	}
	return m, nil
}

func main() { tea.NewProgram(model{}, tea.WithAltScreen()).Run() }
