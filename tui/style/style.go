// Package style is the only place with colours and glyphs. Sixteen terminal
// colours on the terminal's own background, none of them needed to understand
// anything: every state also has a word or a mark.
package style

import (
	"github.com/charmbracelet/lipgloss"
)

// Tone is what a piece of text is for; the theme gives it a look.
type Tone int

// The tones.
const (
	Plain Tone = iota
	Title
	Dim
	Chosen // the row the keys act on
	Good
	Warn
	Danger
	Key
)

// Glyphs are the few signs that are not letters. ASCII has a set of its own.
type Glyphs struct {
	Pointer, Rule, Dot, Bar, Empty, Ellipsis, Tick, NoTick string
}

// Theme is a look: colours and glyphs.
type Theme struct {
	Glyphs Glyphs
	mono   bool
}

// New makes a theme. Mono has no colour at all (NO_COLOR); ascii keeps to
// ASCII signs.
func New(mono, ascii bool) Theme {
	t := Theme{mono: mono, Glyphs: Glyphs{"›", "─", "·", "█", "░", "…", "[x]", "[ ]"}}
	if ascii {
		t.Glyphs = Glyphs{">", "-", "-", "#", ".", "...", "[x]", "[ ]"}
	}
	return t
}

// Paint gives a text the look of a tone. It never changes its width.
func (t Theme) Paint(tone Tone, s string) string {
	if t.mono || s == "" {
		return s
	}
	st := lipgloss.NewStyle()
	switch tone {
	case Title:
		st = st.Bold(true)
	case Dim:
		st = st.Faint(true)
	case Chosen:
		st = st.Bold(true).Foreground(lipgloss.Color("6"))
	case Good:
		st = st.Foreground(lipgloss.Color("2"))
	case Warn:
		st = st.Foreground(lipgloss.Color("3"))
	case Danger:
		st = st.Bold(true).Foreground(lipgloss.Color("1"))
	case Key:
		st = st.Foreground(lipgloss.Color("6"))
	default:
		return s
	}
	return st.Render(s)
}
