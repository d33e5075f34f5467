package tui

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/tui/session"
)

// namesOf are the names of all keys of a set of bindings.
func namesOf(set any) []string {
	var out []string
	v := reflect.ValueOf(set)
	for i := range v.NumField() {
		if b, ok := v.Field(i).Interface().(key.Binding); ok {
			out = append(out, b.Keys()...)
		}
	}
	return out
}

// Letters that arrive together are text in a field whatever word they spell:
// all names of our keys, of the text input's, and of the terminal library's.
func TestLettersThatSpellAKeyAreText(t *testing.T) {
	names := append(namesOf(keys), namesOf(textinput.DefaultKeyMap)...)
	for typ := tea.KeyType(-100); typ < 130; typ++ {
		names = append(names, (tea.KeyMsg{Type: typ}).String())
	}
	slices.Sort(names)
	names = slices.Compact(names)
	require.Greater(t, len(names), 100)
	fields := map[string]func(*player) (string, bool){
		"site.county":     func(p *player) (string, bool) { return activeText(p) },
		"shape.length_ft": func(p *player) (string, bool) { return activeText(p) },
	}
	for field, text := range fields {
		for _, start := range []string{"", "North "} {
			p := newPlayer(t, Config{Mono: true}, 80, 24)
			p.press("1").ask(field)
			for _, name := range names {
				if len([]rune(name)) < 2 {
					continue
				}
				p.press("ctrl+u").typed(start)
				p.send(burst(name))
				got, ok := text(p)
				require.True(t, ok && !p.quit && !p.m.done, "%q led away from %s", name, field)
				require.Equal(t, start+name, got, "%q in %s", name, field)
			}
		}
	}
	for _, name := range names { // a prompt is a field too
		if len([]rune(name)) < 2 {
			continue
		}
		p := newPlayer(t, Config{Mono: true}, 80, 24)
		p.press("4")
		p.send(burst(name))
		x, ok := p.m.top().(*prompt)
		require.True(t, ok && !p.quit && !p.m.done, "%q led away", name)
		require.Equal(t, name, x.input.Value())
	}
}

// activeText is what stands in the open field of the form on top.
func activeText(p *player) (string, bool) {
	f, ok := p.m.top().(*form)
	if !ok {
		return "", false
	}
	return f.fields[f.active].input.Value(), true
}

// Outside a field letters that spell the stop key are single keys as well.
func TestLettersNeverStop(t *testing.T) {
	for _, text := range []string{"ctrl+c", "ctrl+z"} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.send(burst(text))
		require.False(t, p.m.Interrupted(), text)
	}
}

// In an empty field letters are text, one by one too, in every typed question of
// the house, of the money and of a place; what is wrong is said at the field.
func TestLettersInAnEmptyFieldAreText(t *testing.T) {
	seen := 0
	for _, open := range [][]string{{"g", "1"}, {"g", "5"}, {"g", "2", "e"}} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.m.s.Rough = false
		p.press(open...)
		f := p.m.top().(*form)
		for at := -1; f.active > at; p.press("tab") {
			at = f.active
			if x := f.fields[at]; x.textual() {
				for _, text := range []string{"abc", "about 5000", "none", "nldmcqgs/"} {
					p.press("ctrl+u").typed(text)
					got, ok := activeText(p)
					require.True(t, ok && f == p.m.top(), "%q led away from %s", text, x.q.FullKey())
					require.Equal(t, text, got, x.q.FullKey())
				}
				p.press("ctrl+u")
				seen++
			}
		}
	}
	require.Greater(t, seen, 15)
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.press("g", "5").ask("budget.total_usd").typed("about 5000").press("enter")
	require.Contains(t, p.view(), "about 5000")
	require.Equal(t, session.AtMoney, p.m.top().Step())
}

// The commands of a text field are keys that no text holds, and the footer says
// which.
func TestCommandsOfATextField(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 140, 40)
	p.press("g", "5").ask("budget.total_usd")
	for _, want := range []string{"esc back", "ctrl+n next step", "ctrl+l what the next dollars buy", "ctrl+s save", "ctrl+g go to", "ctrl+q quit"} {
		require.Contains(t, feet(p), want)
	}
	p.press("ctrl+l")
	require.Contains(t, p.view(), "What the next dollars buy")
	p.press("esc", "ctrl+g")
	require.Contains(t, p.view(), "Go to")
	p.press("5").ask("budget.total_usd").press("ctrl+u").typed("9000").press("ctrl+q")
	require.True(t, p.quit)
	require.Equal(t, 9000.0, p.m.s.Answered().Num(house.Budget, nil, "total_usd"), "what is typed is kept")
}

// A digit chooses and goes on. An enter right behind it is left out once, so
// that a habit passes no question unread, least of all one about safety.
func TestEnterBehindADigitSkipsNothing(t *testing.T) {
	for _, together := range []bool{false, true} {
		p := newPlayer(t, Config{Mono: true}, 80, 24)
		p.press("1").ask("stage")
		p.hold = together // both keys are there before either is worked off
		p.press("1", "enter")
		p.hold = false
		p.settle()
		f := p.m.top().(*form)
		require.True(t, f.fields[f.active].q.Safety)
		require.Equal(t, "old", f.fields[f.active].q.FullKey(), "the question after is open, not passed")
		require.Contains(t, p.view(), alreadyTaken)
		require.Contains(t, strings.Join(strings.Fields(p.press("?").view()), " "), "An enter right after it is left out")
		p.press("esc", "enter")
		require.NotEqual(t, "old", f.fields[f.active].q.FullKey(), "another enter goes on")
		require.Equal(t, house.Absent, p.m.s.Answered().Raw(find(t, "old"), nil).State)
	}
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("shape.length_ft").typed("61").press("enter")
	p.press("ctrl+g", "up", "enter")
	require.Equal(t, session.AtStart, p.m.top().Step(), p.view())
	p.press("2", "enter")
	require.Contains(t, p.view(), "would be replaced", "the enter of a choice is no second yes")
	require.Equal(t, 61.0, p.m.s.Answered().Num(house.Shape, nil, "length_ft"))
}

// Where one name begins as what was typed, enter takes it.
func TestTheOnlyMatchIsTaken(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("site.state").typed("North Carolina").press("enter").typed("bun").press("enter")
	require.Equal(t, "Buncombe", p.m.s.Answered().Text(house.Site, nil, "county"))
	p.press("shift+tab", "ctrl+u").typed("b").press("enter")
	require.Contains(t, p.view(), "enter again keeps it", "several begin so")
}
