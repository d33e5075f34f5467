package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/tui/session"
	"battwright/tui/style"
)

// form asks a list of questions, one open at a time. It is the review screen
// as well: every answer can be reached with the arrow keys.
type form struct {
	session.Form
	on     *state // the session it asks for
	fields []field
	active int
	help   bool
	held
}

func newForm(f session.Form, s *state) *form {
	x := &form{Form: f, on: s}
	if f.On != s.Session { // the walk is asked about in the same way
		x.on = &state{Session: f.On, g: s.g}
	}
	x.refresh()
	if len(x.fields) > 0 {
		x.fields[0].focus(x.on)
	}
	return x
}

// refresh takes the questions that apply now. What was typed into a field
// stays with it.
func (f *form) refresh() {
	s := f.on
	old := map[string]field{}
	activeKey := ""
	for i, x := range f.fields {
		old[x.q.FullKey()] = x
		if i == f.active {
			activeKey = x.q.FullKey()
		}
	}
	f.fields = nil
	place := s.House.Place(f.Place)
	for _, q := range f.Pick() {
		if !s.Answered().Asked(q, place) {
			continue
		}
		x, ok := old[q.FullKey()]
		if !ok {
			x = newField(q, f.Place)
		}
		x.q = s.Answered().Offered(q, place)
		f.fields = append(f.fields, x)
		if q.FullKey() == activeKey {
			f.active = len(f.fields) - 1
		}
	}
	f.active = max(0, min(f.active, len(f.fields)-1))
}

func (f *form) Step() step { return f.Form.Step }

func (f *form) Typing() bool {
	return len(f.fields) > 0 && f.fields[f.active].textual()
}

func (f *form) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok || len(f.fields) == 0 {
		if ok && key.Matches(k, keys.Back) {
			return f, send(backMsg{})
		}
		return f, nil
	}
	x := &f.fields[f.active]
	if f.help {
		f.help = false
		if closesHelp(k) {
			return f, nil
		}
	}
	if k.String() == "f1" || key.Matches(k, keys.Why) && !(x.textual() && x.typed) {
		f.help = true
		return f, nil
	}
	result := x.update(k, f.on)
	if f.on != s {
		s.picked, f.on.picked = f.on.picked, false
	}
	switch result {
	case accepts:
		f.refresh()
		return f.forward(s)
	case stays:
		f.refresh()
		return f, nil
	}
	if a, ok := pressed(k, f.Actions, page.Action{}); ok {
		return f, s.act(a, f)
	}
	switch {
	case key.Matches(k, keys.Up), k.String() == "shift+tab":
		f.move(-1)
	case key.Matches(k, keys.Down):
		f.move(1)
	case key.Matches(k, keys.More) && f.Speeds:
		x.settle(f.on)
		s.Rough = !s.Rough
		s.WayChanged()
		f.refresh()
		f.fields[f.active].focus(f.on)
	case key.Matches(k, keys.Back):
		if f.Speeds && f.active > 0 {
			f.move(-1)
			return f, nil
		}
		if f.holds(k.String(), s) {
			return f, nil
		}
		return f, send(backMsg{})
	case key.Matches(k, keys.Next):
		if f.holds(k.String(), s) {
			return f, nil
		}
		return f, s.done(f.Then, f)
	}
	return f, nil
}

// holds keeps the form open at what was typed and cannot be taken.
func (f *form) holds(k string, s *state) bool {
	f.settle(s)
	at := slices.IndexFunc(f.fields, func(x field) bool { return x.textual() && x.typed })
	if at < 0 {
		return f.release()
	}
	return f.hold(k, f.fields[at].input.Value(), f.fields[at].q.Prompt.In(s.System), s)
}

func (f *form) forward(s *state) (screen, tea.Cmd) {
	if f.active == len(f.fields)-1 {
		return f, s.done(f.Then, f)
	}
	f.move(1)
	return f, nil
}

func (f *form) move(by int) {
	f.fields[f.active].settle(f.on)
	f.refresh()
	f.fields[f.active].blur()
	f.active = max(0, min(f.active+by, len(f.fields)-1))
	f.fields[f.active].focus(f.on)
}

// again shows the answers as they are now, after other screens may have changed
// them.
func (f *form) again() {
	f.refresh()
	if len(f.fields) > 0 {
		f.fields[f.active].focus(f.on)
	}
}

// whereLeft opens the first question behind the last that was answered.
func (f *form) whereLeft() {
	s := f.on
	to := 0
	for i, x := range f.fields {
		if s.Answered().Raw(x.q, s.House.Place(f.Place)).State != house.Absent {
			to = min(i+1, len(f.fields)-1)
		}
	}
	if to > 0 {
		f.move(to - f.active)
	}
}

// settle takes in what is still typed, where it is valid.
func (f *form) settle(*state) (whole bool) {
	if len(f.fields) == 0 {
		return true
	}
	f.fields[f.active].settle(f.on)
	f.refresh()
	return !f.fields[f.active].typed
}

func (f *form) View(p *canvas, s *state) {
	title := f.Title
	if place := s.House.Place(f.Place); f.Named && place != nil {
		title = s.Label(place)
	}
	p.line(style.Title, title)
	if f.Intro != "" {
		p.para(style.Dim, 0, f.Intro)
	}
	p.blank()
	for i := range f.fields {
		f.fields[i].view(p, f.on, i == f.active)
		if i == f.active && f.help {
			f.helpRows(p, s)
		}
	}
	if len(f.fields) == 0 {
		p.line(style.Dim, "Nothing to ask here.")
	}
	if f.Below != nil {
		p.blank()
		showPage(p, s, f.Below(p.width))
	}
}

func (f *form) helpRows(p *canvas, s *state) {
	q := f.fields[f.active].q
	for _, text := range s.HelpOf(q) {
		p.para(style.Good, 4, text)
	}
	x := &f.fields[f.active]
	text := keySentence(append(f.Keys(s), x.shown(keys.GoTo), x.shown(keys.Save), x.shown(keys.Quit)))
	if !x.textual() && x.digitsChoose() {
		text += " " + oneEnter
	}
	p.para(style.Dim, 4, text)
	p.mark()
}

// keySentence lists keys in a line, for where the footer may lack room.
func keySentence(bindings []key.Binding) string {
	var out []string
	for _, b := range bindings {
		if b.Enabled() {
			out = append(out, b.Help().Key+" "+b.Help().Desc)
		}
	}
	return "Keys here: " + strings.Join(out, ", ") + "."
}

// keyBefore goes back in a form of many questions.
var keyBefore = bind("b", "question before", "b", "esc")

// keyDone leaves the questions of a place as they are answered.
var keyDone = bind("n", "done", "n", "ctrl+n")

// next leaves the questions that are still to come; at yes and no, n is no.
func (f *form) next(x *field) key.Binding {
	out := keys.Next
	if f.Place != "" {
		out = keyDone
	}
	out.SetEnabled(x.q.Kind != house.YesNoKind)
	return out
}

func (f *form) Keys(s *state) []key.Binding {
	if len(f.fields) == 0 {
		return []key.Binding{keys.Back}
	}
	x := &f.fields[f.active]
	out := x.keys()
	back := keys.Back
	if f.Speeds && f.active > 0 {
		back = keyBefore
	}
	out = append(out, x.shown(back), bind("tab", "next question", "tab"), x.shown(f.next(x)))
	if f.Speeds {
		more := keys.More
		if !s.Rough {
			more = bind("m", "fewer questions", "m", "ctrl+t")
		}
		out = append(out, x.shown(more))
	}
	for _, a := range f.Actions {
		if a.Tag != "" {
			out = append(out, x.shown(binding(a)))
		}
	}
	if f.help {
		return withHelpOpen(out)
	}
	return out
}

// closesHelp reports whether a key only closes the help: an enter that is meant
// for the help must not answer. Every other key does what it is named for.
func closesHelp(k tea.KeyMsg) bool {
	return key.Matches(k, keys.Why, keys.Accept) || k.String() == "esc"
}

// withHelpOpen names the keys that close the help as that.
func withHelpOpen(list []key.Binding) []key.Binding {
	var out []key.Binding
	for _, b := range list {
		switch name := b.Help().Key; name {
		case "enter", "?", "f1":
			b.SetHelp(name, "close help")
		case "esc": // back has no letter while something is typed
			continue
		}
		out = append(out, b)
	}
	return out
}
