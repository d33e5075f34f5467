// Package background tells lipgloss that the background is dark before any
// terminal library can ask the terminal. Version 1 of bubbletea asks at import
// time, in every sub-command, and waits five seconds on a terminal that does
// not answer. Packages are initialised in the order of their import paths, and
// this one sorts before it. Nothing we draw depends on the answer: colours are
// the sixteen of the terminal, on its own background.
package background

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
