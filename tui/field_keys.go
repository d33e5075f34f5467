package tui

import (
	"slices"
	"strings"
	"unicode"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/session"
)

// complete takes the first suggestion when the cursor stands at the end.
func (f *field) complete(s *state) bool {
	v := f.input.Value()
	if f.input.Position() < len([]rune(v)) {
		return false
	}
	list := s.Answered().Suggest(f.q, v)
	if len(list) == 0 || strings.EqualFold(list[0], v) {
		return false
	}
	f.input.SetValue(list[0])
	f.input.CursorEnd()
	f.typed, f.problem = true, ""
	return true
}

func (f *field) type_(msg tea.KeyMsg) fieldResult {
	switch {
	case key.Matches(msg, keys.Up), key.Matches(msg, keys.Down), slices.Contains(neverTyped, msg.String()):
		return ignores
	}
	before := f.input.Value()
	f.input, _ = f.input.Update(msg)
	if f.input.Value() != before {
		f.typed, f.problem = true, ""
	}
	return stays
}

// neverTyped are keys that the text input would swallow without a trace.
var neverTyped = []string{"esc", "ctrl+t", "ctrl+n", "ctrl+p", "ctrl+l", "shift+tab"}

func (f *field) pick(msg tea.KeyMsg, s *state, p *house.Place) fieldResult {
	n := len(session.Choices(f.q))
	switch {
	case n == 0:
		return ignores
	case msg.String() == "tab":
		return ignores
	case key.Matches(msg, keys.Left), key.Matches(msg, keys.Up) && f.cursor > 0:
		f.cursor = (max(0, f.cursor) + n - 1) % n
	case key.Matches(msg, keys.Right), key.Matches(msg, keys.Down) && f.cursor < n-1:
		f.cursor = (f.cursor + 1) % n
	case f.q.Kind == house.Many && key.Matches(msg, keys.Toggle):
		f.toggle(s, p)
	case f.q.Kind == house.YesNoKind && key.Matches(msg, keys.Yes):
		f.cursor = 0
		return f.picked(s, p)
	case f.q.Kind == house.YesNoKind && msg.String() == "n":
		f.cursor = 1
		return f.picked(s, p)
	case !f.digitsChoose() && len(msg.Runes) == 1 && unicode.IsDigit(msg.Runes[0]):
		f.moveTo(string(msg.Runes))
	case len(msg.Runes) == 1 && msg.Runes[0] >= '1' && int(msg.Runes[0]-'0') <= n:
		f.cursor = int(msg.Runes[0] - '1')
		return f.picked(s, p)
	default:
		return ignores
	}
	return stays
}

// picked takes the option under the cursor and goes on without an enter.
func (f *field) picked(s *state, p *house.Place) fieldResult {
	f.choose(s, p)
	s.picked = true
	return accepts
}

// mostNumbered is how many options the digits can choose among.
const mostNumbered = 9

// digitsChoose is false for a list with more options than digits, that is for
// climate zones: whoever types the 5 of zone 5A must not get the fifth of them.
// Nor do digits tick: over the priorities a 4 is meant for one of them and must
// not rule out the fourth fiber.
func (f *field) digitsChoose() bool {
	return f.q.Kind != house.Many && len(session.Choices(f.q)) <= mostNumbered
}

// moveTo puts the cursor on the next option that begins so, round and round.
func (f *field) moveTo(prefix string) {
	opts := session.Choices(f.q)
	for i := range opts {
		at := (f.cursor + 1 + i) % len(opts)
		if strings.HasPrefix(opts[at].Label.String(), prefix) {
			f.cursor = at
			return
		}
	}
}

func (f *field) toggle(s *state, p *house.Place) {
	v := session.Choices(f.q)[f.cursor].Value
	list := slices.Clone(s.Answered().ValueOf(f.q, p).Answer.List)
	if i := slices.Index(list, v); i >= 0 {
		list = slices.Delete(list, i, i+1)
	} else {
		list = append(list, v)
	}
	s.answer(f.q, p, house.List(list...))
}

func (f *field) keys() []key.Binding {
	out := []key.Binding{keys.Accept}
	switch {
	case f.q.Kind == house.Many:
		out = append(out, bind("up/down", "move", "up"), keys.Toggle)
	case !f.textual():
		out = append(out, bind("up/down", "choose", "up"))
	}
	if f.q.DontKnow {
		out = append(out, f.shown(keys.DontKnow))
	}
	if f.textual() && f.typed {
		return append(out, typed(keys.Why))
	}
	return append(out, keys.Why)
}

// shown is a key by the name it has at this question.
func (f *field) shown(b key.Binding) key.Binding {
	if f.textual() {
		return typed(b)
	}
	return b
}
