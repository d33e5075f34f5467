package tui

import (
	"errors"
	"io/fs"
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
		text, _ := strict.CleanText(strings.TrimSpace(x.input.Value()))
		if said := strings.ToLower(text); x.sure != "" && (said == "yes" || said == "y") {
			text = x.sure // the answer to whether the file may be overwritten
		}
		x.problem = ""
		return x, x.accept(text, s)
	}
	x.problem = ""
	if x.fresh && k.Type == tea.KeyRunes {
		x.input.SetValue("")
	}
	x.fresh = false
	x.input, _ = x.input.Update(k)
	return x, nil
}

// accept takes a text. A problem keeps the prompt open.
func (x *prompt) accept(text string, s *state) tea.Cmd {
	switch {
	case text == "" && !x.Optional:
		x.problem = x.Empty()
	case x.Write != nil:
		return x.write(text, s)
	case x.Read != nil && s.Store == nil:
		x.problem = session.Sentence(session.NoReading)
	case x.Read != nil:
		store := s.Store
		return s.work("Reading "+text, func() func(*state) tea.Cmd {
			have, err := store.Read(text)
			return func(s *state) tea.Cmd {
				if err != nil {
					x.problem = err.Error()
					return nil
				}
				return x.on(s, func() session.Next { return x.Read(text, have) })
			}
		})
	default:
		return x.on(s, func() session.Next {
			n, problem := x.Take(text)
			x.problem = onScreen(problem)
			return n
		})
	}
	return nil
}

// on leaves the prompt, unless there is a problem.
func (x *prompt) on(s *state, do func() session.Next) tea.Cmd {
	return s.done(func() session.Next {
		n := do()
		if x.problem == "" {
			n.Close++
		}
		return n
	}, x)
}

// write writes a file outside the loop. Only a file that is there already can be
// overwritten, by the same name a second time or by yes.
func (x *prompt) write(path string, s *state) tea.Cmd {
	if !strings.HasSuffix(path, x.Ending) {
		path += x.Ending
	}
	text, err := x.Write()
	switch {
	case err != nil:
		x.problem = sentence(err)
		return nil
	case s.Store == nil:
		x.problem = session.Sentence(session.NoWriting)
		return nil
	}
	do := s.Write(strings.TrimSpace(x.input.Value()), path, text, x.sure == path, x.Saves)
	x.sure = ""
	return s.work("Writing "+path, func() func(*state) tea.Cmd {
		err := do()
		return func(s *state) tea.Cmd {
			switch {
			case errors.Is(err, fs.ErrExist):
				x.sure, x.fresh = path, true
				x.problem = err.Error() + ". Enter again overwrites it, and so does yes."
			case err != nil:
				x.problem = err.Error() + "."
			default:
				return x.on(s, func() session.Next { return x.Written(path) })
			}
			return nil
		}
	})
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
