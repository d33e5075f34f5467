package tui

import (
	"cmp"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/tui/session"
	"battwright/tui/style"
)

// viewScreen shows a view of the session: its page, its rows to choose from, and
// its actions as keys.
type viewScreen struct {
	at       session.At
	step     step
	made     *page.Page // a page made once, in place of a view
	cursor   int
	question *session.Confirm // is asked on the screen: y or anything else
}

// newScreen is the screen of a view or a form, nil for the start screen below all.
func newScreen(at session.At, s *state, under step) screen {
	switch at.ID {
	case session.MattersForm:
		return newMatters(s)
	case session.OwnForm:
		return newMattersFor(s, at.Arg)
	case session.Words:
		return newGlossary()
	case session.Place:
		return newPlacePage(at.Arg)
	}
	if f, ok := s.Form(at); ok {
		return newForm(f, s)
	}
	v, _ := s.view(at)
	x := &viewScreen{at: at, step: v.Step, cursor: v.Cursor}
	switch {
	case at.ID == session.Steps:
		x.step, x.cursor = under, max(0, int(under)-1)
	case under == session.AtStart: // no step lies below: back leads to the start screen
		x.step = under
	}
	return x
}

func stepScreen(to step, s *state) screen { return newScreen(session.AtStep(to), s, to) }

// now is what it shows now.
func (x *viewScreen) now(s *state) session.View {
	if x.made != nil {
		return session.View{Page: func(int) page.Page { return *x.made }}
	}
	v, ok := s.view(x.at)
	if !ok {
		v.Page = func(int) page.Page { return session.Gone() }
	}
	return printing(v, x.at)
}

var keyWrite = page.Action{ID: session.Write, Key: "w", Tag: "write to a file"}

// printing lets a page be written that is also printed.
func printing(v session.View, at session.At) session.View {
	if v.Prints {
		write := keyWrite
		write.Arg = string(at.ID) + "|" + at.Arg
		v.Actions = append(v.Actions, write)
	}
	return v
}

func (x *viewScreen) Step() step   { return x.step }
func (x *viewScreen) Typing() bool { return false }

func (x *viewScreen) root() bool { return x.at.ID == session.Start }

func (x *viewScreen) prepare(s *state) tea.Cmd {
	if x.root() {
		return s.next(session.Next{Work: s.LookForKept()}, x)
	}
	if slow := x.now(s).Slow; slow != nil {
		if work := slow(); work != nil {
			return s.next(session.Next{Work: work}, x)
		}
	}
	return nil
}

// binding is the key of an action.
func binding(a page.Action) key.Binding {
	names := strings.Fields(a.Key)
	if len(names) == 0 {
		return key.NewBinding()
	}
	return bind(names[0], a.Tag, names...)
}

// pressed is the action behind a key; one that acts on a row gets the one under
// the cursor.
func pressed(k tea.KeyMsg, actions []page.Action, under page.Action) (page.Action, bool) {
	for _, a := range actions {
		if a.Key == "" || !key.Matches(k, binding(a)) {
			continue
		}
		if a.Of != "" {
			if a.Of != under.ID {
				return a, false
			}
			a.Arg = under.Arg
		}
		return a, true
	}
	return page.Action{}, false
}

func (x *viewScreen) Update(msg tea.Msg, s *state) (screen, tea.Cmd) {
	k, ok := msg.(tea.KeyMsg)
	if !ok {
		return x, nil
	}
	if ask := x.question; ask != nil {
		x.question = nil
		if key.Matches(k, keys.Yes) {
			return x, s.done(ask.Then, x)
		}
		return x, nil
	}
	v := x.now(s)
	rows := v.Rows()
	x.cursor = max(0, min(x.cursor, len(rows)-1))
	var here page.Action
	if len(rows) > 0 {
		here = rows[x.cursor]
	}
	if a, ok := pressed(k, v.Actions, here); ok {
		return x, s.act(a, x)
	}
	switch {
	case key.Matches(k, keys.Back) && x.at.ID == session.Kept: // what is typed next is kept where they were
		return x, s.act(page.Action{ID: session.LeaveKept, Arg: x.at.Arg}, x)
	case key.Matches(k, keys.Back) && !x.root():
		return x, send(backMsg{})
	case len(rows) == 0:
	case key.Matches(k, keys.Up):
		x.move(-1, v, len(rows))
	case key.Matches(k, keys.Down):
		x.move(1, v, len(rows))
	case key.Matches(k, keys.Accept):
		return x, s.act(here, x)
	case v.Kind != session.Cursor && len(k.Runes) == 1 && k.Runes[0] >= '1' && int(k.Runes[0]-'0') <= len(rows):
		x.cursor, s.picked = int(k.Runes[0]-'1'), true
		return x, s.act(rows[x.cursor], x)
	}
	return x, nil
}

// move moves the cursor, in a menu round and round.
func (x *viewScreen) move(by int, v session.View, n int) {
	if v.Kind == session.Cursor {
		x.cursor = max(0, min(x.cursor+by, n-1))
		return
	}
	x.cursor = (x.cursor + by + n) % n
}

func (x *viewScreen) View(p *canvas, s *state) {
	v := x.now(s)
	d := v.Page(p.width)
	titled(p, s, d)
	rows := v.Rows()
	if len(rows) > 0 && (d.Intro == "" || len(d.Blocks) > 0) {
		p.blank()
	}
	x.cursor = max(0, min(x.cursor, len(rows)-1))
	switch x.at.ID {
	case session.Look:
		x.lookRows(p, s)
		return
	case session.Places:
		x.placeRows(p, s)
		return
	}
	for i, a := range rows {
		x.row(p, s, v, i, a)
	}
}

func (x *viewScreen) row(p *canvas, s *state, v session.View, i int, a page.Action) {
	mark, tone := s.pointer(i == x.cursor)
	if v.Kind != session.Cursor {
		mark += numbered(i)
	}
	p.line(tone, mark+a.Label)
	if i == x.cursor {
		p.mark()
	}
	indent := 5
	if v.Kind == session.Cursor { // it opens up under the cursor
		indent = 11
	}
	if a.Note == "" || v.Kind == session.Cursor && i != x.cursor {
		return
	}
	for _, l := range strings.Split(a.Note, "\n") {
		p.para(style.Dim, indent, l)
	}
	if v.Kind == session.Cursor {
		p.mark()
	}
}

// pointer is the mark before a row that the cursor may stand on.
func (s *state) pointer(here bool) (string, style.Tone) {
	if here {
		return s.g.Pointer + " ", style.Chosen
	}
	return "  ", style.Plain
}

func (x *viewScreen) Keys(s *state) []key.Binding {
	v := x.now(s)
	rows := v.Rows()
	var out []key.Binding
	if x.at.ID != session.Places && (len(rows) > 0 || v.Kind == session.Cursor) {
		out = append(out, bind("up/down", cmp.Or(v.Move, "move"), "up", "down"), bind("enter", cmp.Or(v.Choose, "choose"), "enter"))
		out[0].SetEnabled(len(rows) > 0)
		out[1].SetEnabled(len(rows) > 0)
	}
	if v.Kind != session.Cursor && len(rows) > 0 && !x.root() {
		out = append(out, keys.Back)
	}
	for _, a := range v.Actions {
		if a.Tag != "" {
			out = append(out, binding(a))
		}
	}
	if len(rows) == 0 && v.Kind != session.Cursor {
		out = append(out, bind("pgup/pgdn", "scroll", "pgup"))
	}
	if v.Kind == session.Cursor || len(rows) == 0 {
		out = append(out, keys.Back)
	}
	return out
}

// titled draws a page with its title.
func titled(p *canvas, s *state, d page.Page) {
	if d.Title != "" {
		p.para(style.Title, 0, d.Title)
	}
	showPage(p, s, d)
}

// placeRows are the places with their size and frame in columns, and what is not
// covered under them.
func (x *viewScreen) placeRows(p *canvas, s *state) {
	for i := range s.House.Places {
		place := &s.House.Places[i]
		mark, tone := s.pointer(i == x.cursor)
		area, known, frame := s.SizeOf(place)
		if p.width < 64 {
			p.line(tone, mark+s.Label(place))
			p.line(style.Dim, "    "+area+" ("+known+"), "+frame)
		} else {
			p.add(piece{tone, mark + p.column(s.Label(place), p.width-47)}, piece{style.Plain, padTo(area+" "+known, 22)}, piece{style.Dim, frame})
		}
		if i == x.cursor {
			p.mark()
		}
	}
	if x.question != nil {
		p.line(style.Warn, x.question.Ask+"  y yes, any other key no")
	}
	p.blank()
	showBlocks(p, s, []page.Block{pages.NotCoveredBlock(s.Plan)})
}
