// Emptyscreen is the least program of the terminal library: one line that
// counts keys, until q ends it. The background is set first, as in the real
// program: without that the library asks the terminal and waits.
package main

import (
	"fmt"

	_ "battwright/tui/background"

	tea "github.com/charmbracelet/bubbletea"
)

type model int

func (model) Init() tea.Cmd  { return nil }
func (m model) View() string { return fmt.Sprintf("ready %d", m) }
func (m model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	if k, ok := msg.(tea.KeyMsg); ok {
		if k.String() == "q" {
			return m, tea.Quit
		}
		m++
	}
	return m, nil
}

func main() { tea.NewProgram(model(0), tea.WithAltScreen()).Run() }
