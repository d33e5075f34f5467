package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/report"
	"battwright/rules/strict"
	"battwright/tui/session"
	"battwright/tui/style"
)

// prompt asks for one line of text: a file name, a name, a word.
type prompt struct {
	at          step
	title, hint string
	input       textinput.Model
	problem     string
	confirm     func(string, *state) (tea.Cmd, string) // a problem keeps the prompt open
	below       func(*canvas, *state, string)
	saves       bool         // it asks where to save: the save key accepts
	why         string       // why it is asked, when that is not plain
	sure        string       // what was asked twice: the same text accepted again means yes
	fresh       bool         // it was just asked: letters are an answer of their own, not more of the name
	written     func(*state) // after the file was written
}

func newPrompt(at step, title, hint string, confirm func(string, *state) (tea.Cmd, string)) *prompt {
	in := textinput.New()
	in.Prompt, in.CharLimit = "", maxTyped
	in.Focus()
	return &prompt{at: at, title: title, hint: hint, input: in, confirm: confirm}
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
	case key.Matches(k, keys.Accept) && x.confirm == nil:
		return x, nil // what is typed is answered while it is typed
	case key.Matches(k, keys.Accept):
		text, _ := strict.CleanText(strings.TrimSpace(x.input.Value()))
		if said := strings.ToLower(text); x.sure != "" && (said == "yes" || said == "y") {
			text = x.sure // the answer to whether the file may be overwritten
		}
		x.problem = ""
		cmd, problem := x.confirm(text, s)
		if problem != "" {
			x.problem = problem
		}
		return x, cmd
	}
	x.problem = ""
	if x.fresh && k.Type == tea.KeyRunes {
		x.input.SetValue("")
	}
	x.fresh = false
	x.input, _ = x.input.Update(k)
	return x, nil
}

// askTwice asks whether a file that is there may be overwritten.
func (x *prompt) askTwice(path string) { x.sure, x.fresh = path, true }

func (x *prompt) View(p *canvas, s *state) {
	p.line(style.Title, x.title)
	if x.why != "" {
		p.para(style.Warn, 0, x.why)
	}
	p.para(style.Dim, 0, x.hint)
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
	if x.below != nil {
		p.blank()
		x.below(p, s, x.input.Value())
	}
}

func (x *prompt) Keys(*state) []key.Binding {
	back := bind("esc", "back", "esc")
	if x.confirm == nil {
		return []key.Binding{back}
	}
	return []key.Binding{keys.Accept, back}
}

// readThen reads a file that a person names, outside the loop, and goes on with
// its text; the problem is for the screen.
func (x *prompt) readThen(s *state, path string, then func(*state, string) tea.Cmd) (tea.Cmd, string) {
	switch store := s.Store; {
	case path == "":
		return nil, "Type the name of a file."
	case store == nil:
		return nil, session.Sentence(session.NoReading)
	default:
		return s.work("Reading "+path, func() func(*state) tea.Cmd {
			text, err := store.Read(path)
			return func(s *state) tea.Cmd {
				if err != nil {
					x.problem = err.Error()
					return nil
				}
				return then(s, text)
			}
		}), ""
	}
}

// newOpenFile reads a house file; a broken one shows all its problems and
// leaves the open house alone.
func newOpenFile() *prompt {
	var x *prompt
	x = newPrompt(stepNone, session.Open.Label, session.PathOfFile("my-house.toml"), func(path string, s *state) (tea.Cmd, string) {
		return x.readThen(s, path, func(s *state, text string) tea.Cmd { return openText(s, path, text) })
	})
	return x
}

func openText(s *state, path, text string) tea.Cmd {
	h, err := house.Read(s.List, path, text)
	if err != nil {
		return send(replaceMsg{newProblems(path+" has mistakes", err)})
	}
	if !s.mayReplace("file "+path, path) {
		return nil
	}
	return s.replaced(path, func(s *state) tea.Cmd {
		s.open(h, path, text)
		return s.besideKept(path, text)
	})
}

// besideKept goes on with a file just opened: asking first where answers are kept
// for it that it does not hold.
func (s *state) besideKept(path, text string) tea.Cmd {
	store := s.Store
	return s.work("Looking for kept answers", func() func(*state) tea.Cmd {
		have, kept, there := store.Resume()
		return func(s *state) tea.Cmd {
			if !there || !session.SameFile(kept, path) {
				return goOn(s)
			}
			s.TakeWalk(have)
			if session.WithoutWay(have) == text {
				return goOn(s)
			}
			return tea.Sequence(goOn(s), send(pushMsg{newKeptChoice(kept)}))
		}
	})
}

// newSaveAs asks where to save the house, and says why it asks.
func newSaveAs(path, why string) *prompt {
	var x *prompt
	x = newPrompt(stepNone, "Save the house", session.NameOfFile("my-house.toml")+". "+session.PlainText+".", func(path string, s *state) (tea.Cmd, string) {
		if path == "" {
			return nil, "Type the name of a file."
		}
		if !strings.HasSuffix(path, ".toml") {
			path += ".toml"
		}
		text := s.Text()
		return x.write(s, path, text, func(s *state) tea.Cmd { return tea.Sequence(send(backMsg{}), s.savedIn(path, text)) }), ""
	})
	x.saves, x.why = true, why
	x.input.SetValue(path)
	x.input.CursorEnd()
	return x
}

func forget(store Store) tea.Cmd {
	return func() tea.Msg {
		if err := store.Forget(); err != nil {
			return noticeMsg{err.Error()}
		}
		return nil
	}
}

func newExport() *menu {
	m := &menu{title: "Export the recommendation", intro: "Write it to a file, or read it here first.", at: stepOrder}
	m.rows = func(s *state) []choiceRow {
		rows := []choiceRow{{"Read it here", "", func(*state) tea.Cmd { return send(pushMsg{newReader()}) }}}
		for _, f := range session.PlanFormats {
			rows = append(rows, choiceRow{"Write " + f.Name, "", func(*state) tea.Cmd { return send(pushMsg{newExportTo(f.Ext)}) }})
		}
		return rows
	}
	return m
}

func newExportTo(ext string) *prompt {
	var x *prompt
	x = newPrompt(stepOrder, "Export", session.NameOfFile("my-house."+ext), func(path string, s *state) (tea.Cmd, string) {
		if path == "" {
			return nil, "Type the name of a file."
		}
		if !strings.HasSuffix(path, "."+ext) {
			path += "." + ext
		}
		text, err := report.PlanFile(s.Plan, s.Order(), ext, s.Options())
		if err != nil {
			return nil, sentence(err)
		}
		return x.write(s, path, text, func(s *state) tea.Cmd {
			s.notice = session.Written(path)
			return tea.Sequence(send(backMsg{}), send(backMsg{}))
		}), ""
	})
	return x
}

func newReader() *reading {
	return &reading{at: stepOrder, draw: func(p *canvas, s *state) {
		d := report.PlanPage(s.Plan, s.Options())
		p.para(style.Title, 0, d.Title)
		showPage(p, s, d)
	}}
}

// newGlossary finds words while they are typed.
func newGlossary() *prompt {
	x := newPrompt(stepNone, session.Words.Label, "Type a word, even misspelled, or the name of a rule: it stands in brackets beside a reason.", nil)
	x.below = func(p *canvas, s *state, typed string) {
		if strings.TrimSpace(typed) == "" {
			p.para(style.Dim, 0, strings.Join(s.Catalog().Terms(), ", "))
			return
		}
		found, near := report.TermBlocks(s.Catalog(), strings.TrimSpace(typed), s.System)
		showBlocks(p, s, found)
		if len(found) == 0 && near != "" {
			p.line(style.Warn, "Did you mean "+near+"?")
		} else if len(found) == 0 {
			p.line(style.Warn, "No such word here.")
		}
	}
	return x
}
