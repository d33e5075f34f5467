package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/strict"
	"battwright/tui/session"
	"battwright/tui/style"
)

// prompt asks for one line of text: a file name, a name, a word.
type prompt struct {
	session.Prompt
	at      step
	input   textinput.Model
	problem string
	live    bool   // what is typed is answered while it is typed
	sure    string // what was asked twice: the same text accepted again means yes
	fresh   bool   // it was just asked: letters are an answer of their own, not more of the name
	taken   bool   // what is typed was taken in without enter
	held
}

func newPrompt(at step, ask session.Prompt) *prompt {
	in := textinput.New()
	in.Prompt, in.CharLimit = "", maxTyped
	in.Focus()
	in.SetValue(ask.Value)
	in.CursorEnd()
	return &prompt{Prompt: ask, at: at, input: in}
}

// newGlossary finds words while they are typed.
func newGlossary() *prompt {
	x := newPrompt(session.AtStart, session.Prompt{Title: session.WordsTitle, Hint: "Type " + session.AWord})
	x.live = true
	return x
}

func (x *prompt) Step() step   { return x.at }
func (x *prompt) Typing() bool { return true }

func (x *prompt) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	switch {
	case k.Type == tea.KeyEsc:
		s.leave = false
		return x, send(backMsg{})
	case key.Matches(k, keys.Accept) && x.live:
		return x, nil
	case key.Matches(k, keys.Accept):
		x.problem = ""
		return x, s.done(func() session.Next { return s.Take(x.Prompt, x.typed(), &x.sure) }, x)
	}
	x.problem, x.taken = "", false
	if x.fresh && k.Type == tea.KeyRunes {
		x.input.SetValue("")
	}
	x.fresh = false
	x.input, _ = x.input.Update(k)
	return x, nil
}

func (x *prompt) typed() string {
	text, _ := strict.CleanText(strings.TrimSpace(x.input.Value()))
	return text
}

// settle takes in a figure or a name that was typed, when the person leaves
// without enter: but no name of a file, where nothing is said about the house,
// and nothing that takes the place of something else.
func (x *prompt) settle(s *state) (whole bool) {
	text := x.typed()
	if x.Prompt.Take == nil || text == x.Value {
		return true
	}
	if x.Warn != nil && x.Warn(text) != "" {
		return false
	}
	n := s.Take(x.Prompt, text, &x.sure)
	if n.Problem != "" {
		x.problem = onScreen(n.Problem)
		return false
	}
	s.views, s.notice, x.Value, x.taken = nil, n.Say, text, true
	return true
}

// holds keeps the prompt open at what cannot be taken.
func (x *prompt) holds(k string, s *state) bool {
	if x.settle(s) {
		return x.release()
	}
	return x.hold(k, x.typed(), x.Title, s)
}

func (x *prompt) View(p *canvas, s *state) {
	p.line(style.Title, x.Title)
	if x.Why != "" {
		p.para(style.Warn, 0, x.Why)
	}
	p.para(style.Dim, 0, x.Hint)
	p.blank()
	v := []rune(x.input.Value())
	pos := x.input.Position()
	start := max(0, pos-max(4, p.width-8))
	p.add(piece{style.Plain, "  ["}, piece{style.Chosen, string(v[start:pos]) + "_" + string(v[pos:])}, piece{style.Plain, "]"})
	p.mark()
	if x.problem != "" {
		p.para(style.Danger, 2, x.problem)
		p.mark()
	}
	typed := strings.TrimSpace(x.input.Value())
	if x.live {
		p.blank()
		showPage(p, s, s.WordPage(typed))
	}
	if x.Warn != nil {
		p.blank()
		p.para(style.Warn, 0, x.Warn(typed))
	}
}

func (x *prompt) Keys(*state) []key.Binding {
	back := bind("esc", "back", "esc")
	if x.live {
		return []key.Binding{back}
	}
	return []key.Binding{keys.Accept, back}
}
