package tui

import (
	"os"
	"reflect"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// Colours are on in these tests whatever the terminal they run in, so that
// "no escape in mono" says something.
func TestMain(m *testing.M) {
	lipgloss.SetColorProfile(termenv.ANSI)
	os.Exit(m.Run())
}

func demoHouse(t testing.TB) *house.House {
	t.Helper()
	return fixture.Demo(t, demo.Default).House
}

// player plays the loop of the terminal library: it hands messages to the
// model and runs the commands that come back.
type player struct {
	t     testing.TB
	m     Model
	store *fixture.Memory
	quit  bool
	keys  int
	held  []tea.Cmd // commands that have not run yet
	hold  bool      // keep commands until settle
	mix   func(n int, swap func(i, j int))
}

func newPlayer(t testing.TB, c Config, width, height int) *player {
	t.Helper()
	store := fixture.NewMemory()
	if c.Store != nil {
		store = c.Store.(*fixture.Memory)
	}
	if c.List == nil {
		c.List = fixture.List(t)
	}
	c.Store = store
	p := &player{t: t, m: NewModel(c), store: store}
	p.send(tea.WindowSizeMsg{Width: width, Height: height})
	p.held = append(p.held, p.m.Init())
	p.settle()
	return p
}

func (p *player) send(msg tea.Msg) {
	next, cmd := p.m.Update(msg)
	p.m = next.(Model)
	if cmd == nil {
		return
	}
	p.held = append(p.held, cmd)
	if !p.hold {
		p.settle()
	}
}

// settle runs what is held, and what comes of it. With mix, commands that may
// finish in any order do.
func (p *player) settle() {
	for len(p.held) > 0 {
		list := p.held
		p.held = nil
		if p.mix != nil {
			p.mix(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		}
		for _, c := range list {
			p.run(c)
		}
	}
}

func (p *player) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		list := append([]tea.Cmd{}, msg...)
		if p.mix != nil {
			p.mix(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		}
		for _, c := range list {
			p.run(c)
		}
	case tea.QuitMsg:
		p.quit = true
	case tea.SuspendMsg, tea.InterruptMsg:
	default:
		// A sequence is a type that the library keeps to itself.
		if v := reflect.ValueOf(msg); v.Kind() == reflect.Slice && v.Type().Elem() == reflect.TypeFor[tea.Cmd]() {
			for i := range v.Len() {
				p.run(v.Index(i).Interface().(tea.Cmd))
			}
			return
		}
		p.send(msg)
	}
}

// press presses keys by name; a name of one rune is that rune.
func (p *player) press(names ...string) *player {
	for _, n := range names {
		p.keys++
		p.send(keyOf(n))
	}
	return p
}

// typed presses one key for each rune of a text.
func (p *player) typed(text string) *player {
	for _, r := range text {
		p.press(string(r))
	}
	return p
}

// toStart leads to the start screen through the menu of steps.
func (p *player) toStart() *player { return p.press("ctrl+g", "up", "enter") }

// ask tabs to a question of the form on top.
func (p *player) ask(fullKey string) *player {
	f, ok := p.m.top().(*form)
	require.True(p.t, ok, "no form on the screen")
	for range f.fields {
		if f.fields[f.active].q.FullKey() == fullKey {
			return p
		}
		p.press("tab")
	}
	require.Equal(p.t, fullKey, f.fields[f.active].q.FullKey(), "the form does not ask it")
	return p
}

func (p *player) view() string { return p.m.View() }

func (p *player) resize(width, height int) *player {
	p.send(tea.WindowSizeMsg{Width: width, Height: height})
	return p
}

var namedKeys = map[string]tea.KeyType{
	"enter": tea.KeyEnter, "esc": tea.KeyEsc, "up": tea.KeyUp, "down": tea.KeyDown, "left": tea.KeyLeft, "right": tea.KeyRight,
	"tab": tea.KeyTab, "shift+tab": tea.KeyShiftTab, "pgup": tea.KeyPgUp, "pgdn": tea.KeyPgDown, "backspace": tea.KeyBackspace,
	"delete": tea.KeyDelete, "home": tea.KeyHome, "end": tea.KeyEnd, "f1": tea.KeyF1,
}

func keyOf(name string) tea.KeyMsg {
	if t, ok := namedKeys[name]; ok {
		return tea.KeyMsg{Type: t}
	}
	if name == "space" || name == " " {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	if c, ok := strings.CutPrefix(name, "ctrl+"); ok && len(c) == 1 {
		return tea.KeyMsg{Type: tea.KeyType(c[0]-'a') + tea.KeyCtrlA}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}
