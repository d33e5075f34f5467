package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
)

// keyMap holds the keys that more than one screen knows. The footer and the list
// of all keys are made from it and from the keys of single screens, which stand
// below or beside their screen and are matched as bindings too. A name that
// begins with ctrl is the one a text field leaves to the key.
type keyMap struct {
	Up, Down, Left, Right, PageUp, PageDown, Top, Bottom key.Binding
	Accept, Back, Next                                   key.Binding
	DontKnow, Why, Clear, More, Toggle                   key.Binding
	Yes, No                                              key.Binding
	Add, Copy, Delete, Edit, Propose                     key.Binding
	Reasons, Picture, Damp, How, Own                     key.Binding
	FindOut, Export, Save, Keep, Words                   key.Binding
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
	Add:       bind("a", "add", "a"),
	Copy:      bind("c", "copy", "c"),
	Delete:    bind("x", "delete", "x"),
	Edit:      bind("e", "its answers", "e"),
	Propose:   bind("r", "propose again", "r"),
	Reasons:   bind("w", "why", "w"),
	Picture:   bind("p", "picture", "p"),
	Damp:      bind("d", "damp", "d"),
	How:       bind("h", "how to install", "h"),
	Own:       bind("o", "what matters here", "o"),
	FindOut:   bind("f", "find out", "f"),
	Export:    bind("x", "export", "x"),
	Save:      bind("s", "save", "s", "ctrl+s"),
	Keep:      bind("k", "keep as a plan", "k"),
	Words:     bind("/", "words", "/"),
	All:       bind("?", "all keys", "?"),
	GoTo:      bind("g", "go to", "g", "ctrl+g"),
	Quit:      bind("q", "quit", "q", "ctrl+q"),
	Interrupt: bind("ctrl+c", "stop", "ctrl+c"),
	Suspend:   bind("ctrl+z", "pause", "ctrl+z"),
}

// The keys of single screens that the map does not hold.
var (
	keyMatters = bind("m", "what matters", "m")
	keyOpen    = bind("c", "what can still change", "c")
	keyWrite   = bind("w", "write to a file", "w")
)
