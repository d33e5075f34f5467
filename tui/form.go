package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/house"
	"battwright/tui/session"
	"battwright/tui/style"
)

// form asks a list of questions, one open at a time. It is the review screen
// as well: every answer can be reached with the arrow keys.
type form struct {
	title  string
	intro  string
	at     step
	place  string // id of the place, empty for the house
	named  bool   // the title is the name of the place, which may change here
	pick   func(*state) []house.Question
	then   func(*state) tea.Cmd // after the last question
	fields []field
	active int
	help   bool
	speeds bool                  // it has a rough look and all questions
	below  func(*canvas, *state) // what the answers lead to, under the questions
	extra  []key.Binding
	on     func(tea.KeyMsg, *state) tea.Cmd // keys of this form alone
}

func newForm(title, intro string, at step, place string, s *state, pick func(*state) []house.Question, then func(*state) tea.Cmd) *form {
	f := &form{title: title, intro: intro, at: at, place: place, pick: pick, then: then}
	f.refresh(s)
	if len(f.fields) > 0 {
		f.fields[0].focus(s)
	}
	return f
}

// refresh takes the questions that apply now. What was typed into a field
// stays with it.
func (f *form) refresh(s *state) {
	old := map[string]field{}
	activeKey := ""
	for i, x := range f.fields {
		old[x.q.FullKey()] = x
		if i == f.active {
			activeKey = x.q.FullKey()
		}
	}
	f.fields = nil
	place := s.House.Place(f.place)
	for _, q := range f.pick(s) {
		if !s.Answered().Asked(q, place) {
			continue
		}
		x, ok := old[q.FullKey()]
		if !ok {
			x = newField(q, f.place)
		}
		x.q = s.Answered().Offered(q, place)
		f.fields = append(f.fields, x)
		if q.FullKey() == activeKey {
			f.active = len(f.fields) - 1
		}
	}
	f.active = max(0, min(f.active, len(f.fields)-1))
}

func (f *form) Step() step { return f.at }

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
	switch x.update(k, s) {
	case accepts:
		f.refresh(s)
		return f.forward(s)
	case stays:
		f.refresh(s)
		return f, nil
	}
	if f.on != nil {
		if cmd := f.on(k, s); cmd != nil {
			return f, cmd
		}
	}
	switch {
	case key.Matches(k, keys.Up), k.String() == "shift+tab":
		f.move(-1, s)
	case key.Matches(k, keys.Down):
		f.move(1, s)
	case key.Matches(k, keys.More) && f.speeds:
		x.settle(s)
		s.Rough = !s.Rough
		s.WayChanged()
		f.refresh(s)
		f.fields[f.active].focus(s)
	case key.Matches(k, keys.Back):
		if f.speeds && f.active > 0 {
			f.move(-1, s)
			return f, nil
		}
		x.settle(s)
		return f, send(backMsg{})
	case key.Matches(k, keys.Next):
		x.settle(s)
		if f.then != nil {
			return f, f.then(s)
		}
	}
	return f, nil
}

func (f *form) forward(s *state) (screen, tea.Cmd) {
	if f.active == len(f.fields)-1 {
		if f.then != nil {
			return f, f.then(s)
		}
		return f, nil
	}
	f.move(1, s)
	return f, nil
}

func (f *form) move(by int, s *state) {
	f.fields[f.active].settle(s)
	f.refresh(s)
	f.fields[f.active].blur()
	f.active = max(0, min(f.active+by, len(f.fields)-1))
	f.fields[f.active].focus(s)
}

// again shows the answers as they are now, after other screens may have changed
// them.
func (f *form) again(s *state) {
	f.refresh(s)
	if len(f.fields) > 0 {
		f.fields[f.active].focus(s)
	}
}

// whereLeft opens the first question behind the last that was answered.
func (f *form) whereLeft(s *state) {
	to := 0
	for i, x := range f.fields {
		if s.Answered().Raw(x.q, s.House.Place(f.place)).State != house.Absent {
			to = min(i+1, len(f.fields)-1)
		}
	}
	if to > 0 {
		f.move(to-f.active, s)
	}
}

// settle takes in what is still typed, where it is valid.
func (f *form) settle(s *state) (whole bool) {
	if len(f.fields) == 0 {
		return true
	}
	f.fields[f.active].settle(s)
	f.refresh(s)
	return !f.fields[f.active].typed
}

func (f *form) View(p *canvas, s *state) {
	title := f.title
	if place := s.House.Place(f.place); f.named && place != nil {
		title = s.Answered().Text(house.PlaceScope, place, "label")
	}
	p.line(style.Title, title)
	if f.intro != "" {
		p.para(style.Dim, 0, f.intro)
	}
	p.blank()
	for i := range f.fields {
		f.fields[i].view(p, s, i == f.active, s.g)
		if i == f.active && f.help {
			f.helpRows(p, s)
		}
	}
	if len(f.fields) == 0 {
		p.line(style.Dim, "Nothing to ask here.")
	}
	if f.below != nil {
		p.blank()
		f.below(p, s)
	}
}

func (f *form) helpRows(p *canvas, s *state) {
	q := f.fields[f.active].q
	h, ok := s.Catalog().Help(q.FullKey())
	if !ok {
		h.How = q.How
	}
	if h.Why != "" {
		p.para(style.Good, 4, "Why we ask: "+h.Why.In(s.System))
	}
	if h.How != "" {
		p.para(style.Good, 4, "How to find out: "+h.How.In(s.System))
	}
	if h.Ask != "" {
		p.para(style.Good, 4, "To ask: "+h.Ask.In(s.System))
	}
	x := &f.fields[f.active]
	text := keySentence(append(f.Keys(s), x.shown(keys.GoTo)))
	if !x.textual() && x.digitsChoose() {
		text += " " + session.OneEnter
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
	if f.place != "" {
		out = keyDone
	}
	out.SetEnabled(f.then != nil && x.q.Kind != house.YesNoKind)
	return out
}

func (f *form) Keys(s *state) []key.Binding {
	if len(f.fields) == 0 {
		return []key.Binding{keys.Back}
	}
	x := &f.fields[f.active]
	out := x.keys()
	back := keys.Back
	if f.speeds && f.active > 0 {
		back = keyBefore
	}
	out = append(out, x.shown(back), bind("tab", "next question", "tab"), x.shown(f.next(x)))
	if f.speeds {
		more := keys.More
		if !s.Rough {
			more = bind("m", "fewer questions", "m", "ctrl+t")
		}
		out = append(out, x.shown(more))
	}
	for _, b := range f.extra {
		out = append(out, x.shown(b))
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
