package main

import (
	"fmt"
	"runtime"
	"time"

	"github.com/charmbracelet/bubbles/list"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/tui"
)

// compareFrames measures from a key to the text of the next frame: a walk
// through the screens of a house of 30 places, priorities changed on the way,
// against moving in the least list of 30 lines that the terminal library has.
func compareFrames() error {
	a, err := demoOf(30)
	if err != nil {
		return err
	}
	walk := []string{"down", "down", "up", "enter", "w", "esc", "p", "esc", "b", "m", "enter", "0", "down", "5", "down", "3", "1", "4", "down", "2", "up", "5", "esc", "pgdown", "pgup"}
	ours := keyTimes(tui.NewModel(tui.Config{List: a.List, House: a.House}), walk, 1500)
	var items []list.Item
	for i := range 30 {
		items = append(items, line(fmt.Sprintf("place %d", i)))
	}
	least := keyTimes(listModel{list.New(items, list.NewDefaultDelegate(), 80, 24)}, []string{"down", "down", "down", "up", "pgdown", "pgup"}, 1500)
	fmt.Printf("keys to frames, 30 places: p50 %v, p99 %v, most %v; a list of 30: p50 %v, p99 %v, most %v; p99 %.1f times\n",
		share(ours, 0.5), share(ours, 0.99), share(ours, 1), share(least, 0.5), share(least, 0.99), share(least, 1), share(ours, 0.99).Seconds()/share(least, 0.99).Seconds())
	return nil
}

type line string

func (l line) Title() string       { return string(l) }
func (l line) Description() string { return "" }
func (l line) FilterValue() string { return string(l) }

type listModel struct{ l list.Model }

func (m listModel) Init() tea.Cmd { return nil }
func (m listModel) View() string  { return m.l.View() }
func (m listModel) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	l, cmd := m.l.Update(msg)
	return listModel{l}, cmd
}

// keyTimes plays keys and takes the time of each, with what follows from it
// and the drawing.
func keyTimes(m tea.Model, keys []string, n int) []time.Duration {
	m, _ = m.Update(tea.WindowSizeMsg{Width: 80, Height: 24})
	_ = m.View()
	runtime.GC()
	var out []time.Duration
	for i := range n {
		msg := keyOf(keys[i%len(keys)])
		began := time.Now()
		m = settled(m, msg)
		_ = m.View()
		out = append(out, time.Since(began))
	}
	return out
}

func settled(m tea.Model, msg tea.Msg) tea.Model {
	m, cmd := m.Update(msg)
	for range 4 {
		if cmd == nil {
			break
		}
		next := cmd()
		if next == nil {
			break
		}
		m, cmd = m.Update(next)
	}
	return m
}

func keyOf(name string) tea.KeyMsg {
	for t, known := range map[tea.KeyType]string{tea.KeyDown: "down", tea.KeyUp: "up", tea.KeyEnter: "enter", tea.KeyEsc: "esc", tea.KeyPgDown: "pgdown", tea.KeyPgUp: "pgup"} {
		if known == name {
			return tea.KeyMsg{Type: t}
		}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}
