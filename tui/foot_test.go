package tui

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/tui/session"
)

// feet are the lines of keys under the last rule.
func feet(p *player) string {
	lines := strings.Split(p.view(), "\n")
	rule := 0
	for i, l := range lines {
		if strings.HasPrefix(l, "───") {
			rule = i
		}
	}
	return strings.Join(lines[rule+1:], "\n")
}

// Saving, leaving and going back are on every footer, in a small window too.
func TestFootKeepsWhatMattersMost(t *testing.T) {
	for _, s := range stops {
		if s.name == "leave" {
			continue // its question stands there instead
		}
		p := at(t, s, Config{Mono: true}, 80, 24)
		for _, size := range [][2]int{{60, 20}, {80, 24}, {60, 12}} {
			foot := feet(p.resize(size[0], size[1]))
			if p.m.top().Typing() {
				require.Regexp(t, "esc (back|question before)", foot, "%s at %v", s.name, size)
				if _, ok := p.m.top().(*form); ok {
					require.Contains(t, foot, "ctrl+s save", "%s at %v", s.name, size)
				}
				continue
			}
			for _, want := range []string{"s save", "q quit"} {
				require.Contains(t, foot, want, "%s at %v", s.name, size)
			}
			if p.m.top().Step() != session.AtStart {
				require.Regexp(t, "b (back|question before)", foot, "%s at %v", s.name, size)
			}
		}
	}
}

// In the smallest window every question still names what takes the answer, the way
// back and the key that tells all others; every page the way back and that key.
func TestFootOfTheSmallestWindow(t *testing.T) {
	for _, s := range stops {
		if s.name == "leave" {
			continue // its question stands there instead
		}
		p := at(t, s, Config{Mono: true}, 80, 24)
		for _, size := range [][2]int{{minWidth, minHeight}, {41, 10}, {40, 24}} {
			foot := feet(p.resize(size[0], size[1]))
			if p.m.top().Step() != session.AtStart || p.m.top().Typing() {
				require.Regexp(t, `\b(b|esc) (back|question before)`, foot, "%s at %v", s.name, size)
			}
			if x, ok := p.m.top().(*form); ok {
				require.Contains(t, foot, "enter", "%s at %v", s.name, size)
				if !x.help && asksWhy(x, p.m.s) {
					require.Regexp(t, `(\?|f1) all keys`, foot, "%s at %v", s.name, size)
				}
			}
			if _, ok := p.m.top().(*prompt); !ok { // there esc leads back to where it stands
				require.Regexp(t, "quit|all keys", foot, "%s at %v", s.name, size)
			}
		}
	}
	p := at(t, stopNamed(t, "house-text"), Config{Mono: true}, 41, 10)
	seen := ""
	for p.press("f1"); !strings.Contains(seen, p.view()); p.press("pgdn") {
		seen += p.view()
	}
	for _, want := range []string{"enter close help", "ctrl+g go to", "ctrl+s save", "ctrl+q quit"} {
		require.Contains(t, strings.Join(strings.Fields(seen), " "), want)
	}
}

// What has no room in the footer is one key away.
func TestAllKeys(t *testing.T) {
	p := at(t, stopNamed(t, "place-result"), Config{Mono: true}, 60, 20)
	require.NotContains(t, feet(p), "other place")
	require.Contains(t, feet(p), "? all keys")
	shown := p.press("?").view() + p.press("pgdn").view()
	for _, b := range newPlacePage("street-wall").Keys(p.m.s) {
		if b.Enabled() {
			require.Contains(t, shown, b.Help().Desc)
		}
	}
	p.press("b")
	require.Contains(t, p.view(), "Street wall")
}

// A place has its priorities done, not a first look of its own; the words of
// the trade are read and not accepted.
func TestKeysSayWhatTheyDo(t *testing.T) {
	foot := feet(at(t, stopNamed(t, "place-matters"), Config{Mono: true}, 80, 24))
	require.Contains(t, foot, "enter done")
	require.NotContains(t, foot, "first look")
	require.Contains(t, feet(at(t, stopNamed(t, "matters-help"), Config{Mono: true}, 80, 24).press("enter")), "enter first look")
	for _, words := range []string{"words", "words-found"} {
		require.NotContains(t, feet(at(t, stopNamed(t, words), Config{Mono: true}, 80, 24)), "enter")
	}
	// Only the questions of the house have a short and a long list.
	for name, want := range map[string]bool{"house-choice": true, "place-form": false, "money": false, "check-walk-place": false} {
		require.Equal(t, want, strings.Contains(feet(at(t, stopNamed(t, name), Config{Mono: true}, 120, 40)), "more questions"), name)
	}
}

// While the help of a question is open, every key that is named acts as it is
// named: what answers does answer, and what closes the help says so.
func TestKeysActWhileHelpIsOpen(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 100, 40)
	p.press("1").ask("stage").press("?")
	require.Contains(t, p.view(), "enter close help")
	require.NotContains(t, p.view(), "enter accept")
	require.Contains(t, p.view(), oneEnter[:30])
	p.press("enter")
	require.NotContains(t, p.view(), "Why we ask")
	require.Equal(t, house.Absent, p.m.s.House.Answers["stage"].State, "an enter for the help answers nothing")
	p.press("?", "2")
	require.Equal(t, house.Text("framed"), p.m.s.House.Answers["stage"])
	p.ask("site.county").press("?")
	require.Contains(t, p.view(), "Why we ask")
	require.NotContains(t, p.view(), oneEnter[:30], "a digit is text there")
	require.NotContains(t, p.view(), "esc back")
	p.press("esc")
	p.ask("shape.chimney").press("?", "d")
	require.Equal(t, house.Unknown, p.m.s.House.Answers["shape.chimney"].State)

	p = newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 100, 40)
	p.press("g", "3", "enter", "enter", "?", "5")
	require.Equal(t, house.Number(5), p.m.s.House.Answers["priorities.cost"])
}

// Where don't know is no answer, it is said what is, in the words of the screen.
func TestDontKnowNamesTheWordsOfTheScreen(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 100, 40)
	f := newField(find(t, "stage"), "")
	f.dontKnow(p.m.s, nil)
	require.Contains(t, f.problem, "leave it as it is, or choose one of these: ")
	for _, o := range find(t, "stage").Options {
		require.Contains(t, f.problem, o.Label.In(p.m.s.System))
	}
	require.NotContains(t, f.problem, "not-framed")
}
