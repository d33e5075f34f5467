package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
)

// keyMap holds the keys that the screens have themselves: moving, answering, and
// what every screen knows. What can be done from a page has its key in its
// page.Action. The footer and the list of all keys are made from both. A name that
// begins with ctrl is the one a text field leaves to the key.
type keyMap struct {
	Up, Down, Left, Right, PageUp, PageDown, Top, Bottom key.Binding
	Accept, Back, Next                                   key.Binding
	DontKnow, Why, Clear, More, Toggle                   key.Binding
	Yes, No                                              key.Binding
	Save, Words                                          key.Binding
	All, GoTo, Quit, Interrupt, Suspend                  key.Binding
}

func bind(help, what string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(help, what))
}

// typed is a key as a text field leaves it: letters belong to the text there, so
// its other name is shown, where it has one.
func typed(b key.Binding) key.Binding {
	for _, k := range b.Keys() {
		if strings.HasPrefix(k, "ctrl+") || k == "esc" || k == "f1" {
			b.SetHelp(k, b.Help().Desc)
			return b
		}
	}
	return b
}

var keys = keyMap{
	Up:        bind("up", "up", "up"),
	Down:      bind("down", "down", "down", "tab"),
	Left:      bind("left", "less", "left"),
	Right:     bind("right", "more", "right"),
	PageUp:    bind("pgup", "page up", "pgup"),
	PageDown:  bind("pgdn", "page down", "pgdown"),
	Top:       bind("home", "to the top", "home"),
	Bottom:    bind("end", "to the end", "end"),
	Accept:    bind("enter", "accept", "enter"),
	Back:      bind("b", "back", "b", "esc"),
	Next:      bind("n", "next step", "n", "ctrl+n"),
	DontKnow:  bind("d", "don't know", "d", "ctrl+d"),
	Why:       bind("?", "why we ask", "?", "f1"),
	Clear:     bind("c", "clear", "c", "ctrl+u"),
	More:      bind("m", "more questions", "m", "ctrl+t"),
	Toggle:    bind("space", "tick", " "),
	Yes:       bind("y", "yes", "y"),
	No:        bind("n", "no", "n"),
	Save:      bind("s", "save", "s", "ctrl+s"),
	Words:     bind("/", "words", "/"),
	All:       bind("?", "all keys", "?"),
	GoTo:      bind("g", "go to", "g", "ctrl+g"),
	Quit:      bind("q", "quit", "q", "ctrl+q"),
	Interrupt: bind("ctrl+c", "stop", "ctrl+c"),
	Suspend:   bind("ctrl+z", "pause", "ctrl+z"),
}
