package tui

import (
	"strings"
	"testing"

	"github.com/charmbracelet/bubbles/key"
	"github.com/stretchr/testify/require"
)

// shownKeys are the keys that a screen's footer promises, as a person reads
// them: "up/down" is two keys, "0-5" is six, "/" is itself.
func shownKeys(b key.Binding) []string {
	switch text := b.Help().Key; {
	case text == "0-5":
		return strings.Split("012345", "")
	case text == "pgup/pgdn":
		return []string{"pgdn", "pgup"}
	case len(text) > 1 && strings.Contains(text, "/"):
		return strings.Split(text, "/")
	default:
		return []string{text}
	}
}

func footKeys(m Model) []key.Binding {
	out := m.top().Keys(m.s)
	if !m.top().Typing() {
		out = append(out, keys.GoTo, keys.Words, keys.Save, keys.Quit)
	}
	return out
}

// Every key that the footer shows does something: another frame, a file, or
// the end of the program.
func TestEveryShownKeyWorks(t *testing.T) {
	for _, s := range stops {
		if s.name == "leave" {
			continue // its keys are tested by leaving
		}
		t.Run(s.name, func(t *testing.T) {
			for _, b := range footKeys(at(t, s, Config{Mono: true}, 80, 24).m) {
				works := false
				for _, k := range shownKeys(b) {
					for _, height := range []int{24, 12} { // scrolling needs a low window
						if works {
							break
						}
						p := at(t, s, Config{Mono: true}, 80, height)
						before := p.view()
						p.press(k)
						works = works || p.quit || p.view() != before
					}
				}
				require.True(t, works || emptyHanded(s.name, b), "%s (%s) does nothing", b.Help().Key, b.Help().Desc)
			}
		})
	}
}

// emptyHanded are the keys that rightly have nothing to do on a screen.
func emptyHanded(name string, b key.Binding) bool {
	desc := b.Help().Desc
	switch name {
	case "ladder-empty":
		return desc != "back" // there is nothing to buy yet
	case "look-empty", "matters-empty":
		return desc == "place" || desc == "open it"
	case "order", "order-empty", "order-cut-place", "order-cutting", "order-ask", "find-out-empty", "would-change":
		return desc == "scroll" // all of it is on the screen
	case "words", "words-found":
		return desc == "accept"
	case "house-number-wrong", "house-numbers", "open-file", "order-price":
		return desc == "accept" // what is wrong is on the screen already
	case "place-matters":
		return desc == "as in the house" // the first priority has no answer of its own here
	case "go-to":
		return desc == "go to"
	case "places-delete":
		return true // any key answers the question first
	}
	return false
}

// The help texts of the key map name keys that are bound.
func TestKeyMapNamesWhatItBinds(t *testing.T) {
	for _, b := range []key.Binding{
		keys.Up, keys.Down, keys.Left, keys.Right, keys.PageUp, keys.PageDown, keys.Accept, keys.Back, keys.Next, keys.DontKnow,
		keys.Why, keys.Clear, keys.More, keys.Toggle, keys.Yes, keys.No, keys.Save, keys.Words, keys.GoTo, keys.Quit, keys.Interrupt, keys.Suspend,
	} {
		require.True(t, key.Matches(keyOf(b.Help().Key), b), "%s is shown for %q and not bound", b.Help().Key, b.Help().Desc)
		require.NotEmpty(t, b.Help().Desc)
	}
}

// A priority of one place goes back to that of the house.
func TestClearingAPriorityOfAPlace(t *testing.T) {
	p := at(t, stopNamed(t, "place-matters"), Config{Mono: true}, 100, 40)
	place := p.m.s.House.Place("street-wall")
	p.press("down") // quiet, which this wall has its own answer for
	require.Contains(t, p.view(), "  just here")
	p.press("c")
	require.NotContains(t, p.view(), "  just here")
	require.NotContains(t, place.Answers, "priorities.sound")
	p.press("left")
	require.Contains(t, p.view(), "  just here")
}
