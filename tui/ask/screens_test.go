package ask_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// screens plays the wizard through its own keys.
type screens struct {
	t     *testing.T
	m     tea.Model
	store *fixture.Memory
	r     *replies
}

func (s *screens) send(msg tea.Msg) {
	var cmd tea.Cmd
	s.m, cmd = s.m.Update(msg)
	s.run(cmd)
}

func (s *screens) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil, tea.QuitMsg:
	case tea.BatchMsg:
		for _, c := range msg {
			s.run(c)
		}
	default:
		// A sequence is a type that the library keeps to itself.
		if v := reflect.ValueOf(msg); v.Kind() == reflect.Slice && v.Type().Elem() == reflect.TypeFor[tea.Cmd]() {
			for i := range v.Len() {
				s.run(v.Index(i).Interface().(tea.Cmd))
			}
			return
		}
		s.send(msg)
	}
}

func (s *screens) press(keys ...tea.KeyMsg) {
	for _, k := range keys {
		s.send(k)
	}
}

// active is the prompt of the open question, empty outside a form.
func (s *screens) active() string {
	for _, l := range strings.Split(s.m.View(), "\n") {
		if prompt, ok := strings.CutPrefix(l, "> "); ok {
			return strings.TrimSpace(prompt)
		}
	}
	return ""
}

// form answers a form from where it stands to its end.
func (s *screens) form(title string, place int, kind string) {
	for range 200 {
		if !strings.Contains(s.m.View(), title) {
			return
		}
		prompt := s.active()
		s.press(s.r.to(named(s.t, prompt, kind), place).keys...)
		if strings.Contains(s.m.View(), title) && s.active() == prompt {
			s.press(next) // tab stays on the last question
			return
		}
	}
	require.Fail(s.t, "the form does not end")
}

func (s *screens) matters() {
	out := s.r.to(named(s.t, "Is anything out of the question?", ""), -1)
	if n := len(out.keys); n >= 2 {
		s.press(out.keys[:n-1]...) // all but the tab, which leads on below
	}
	for _, q := range fixture.List(s.t).In(house.Priorities, "") {
		s.press(tab)
		if k := s.r.to(q, -1); k.line != leave.line {
			s.press(runes(k.line))
		}
	}
	s.press(next)
}

func (s *screens) whole(rough bool) (kept, text string) {
	s.press(runes(map[bool]string{true: "1", false: "2"}[rough]))
	s.form("The house", -1, "")
	h, err := house.Read(fixture.List(s.t), "kept", s.store.Text)
	require.NoError(s.t, err)
	for i, p := range h.Places {
		s.press(runes("e"))
		s.form("Size first, then what it is made of.", i, p.Kind)
		s.press(tea.KeyMsg{Type: tea.KeyDown})
	}
	s.press(next)
	for i, p := range h.Places { // in lines too: size and frame of each, then what matters
		if !rough {
			s.form(fmt.Sprintf("(place %d of %d)", i+1, len(h.Places)), i, p.Kind)
		}
	}
	s.matters()
	s.press(runes("n"))
	s.form("Work and money", -1, "")
	s.press(runes("g"), runes("4"), runes("x"), runes("2"), runes("mine"), enter)
	return s.store.Text, s.store.Files["mine.txt"]
}
