package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"

	"battwright/rules/page"
	"battwright/tui/session"
	"battwright/tui/style"
)

// roomyHeight is the least height that gives the keys two lines.
const roomyHeight = 16

// narrow is the width below which two lines of keys hold too few.
const narrow = 60

// foot is what happened, and the keys.
func (m Model) foot(top screen) []row {
	p := newCanvas(m.width, m.theme.Glyphs.Ellipsis)
	p.line(style.Dim, strings.Repeat(m.theme.Glyphs.Rule, m.width))
	switch {
	case m.asking:
		ask := session.NotAllSaved
		if m.s.unkept != "" {
			ask = m.s.unkept + session.SaveFirst
		}
		p.most(style.Warn, ask, m.height/3)
		p.rows = append(p.rows, packKeys([]key.Binding{keys.Yes, keys.No, bind("b", "stay", "b")}, m.width)...)
		return p.rows
	case m.s.lasting() != "":
		p.most(style.Warn, m.s.lasting(), m.height/3)
	case m.s.notice != "":
		p.most(style.Warn, m.s.notice, m.height/3)
	case m.s.unkept != "":
		p.most(style.Warn, m.s.unkept, m.height/3)
	case m.s.Changed != "":
		p.line(style.Good, m.s.Changed)
	}
	m.keyLines(p, m.footKeys(top))
	return p.rows
}

// footKeys are the keys of a screen and those of all screens.
func (m Model) footKeys(top screen) []key.Binding {
	out := top.Keys(m.s)
	if top.Typing() {
		if x, ok := top.(*prompt); !ok || x.Prompt.Take != nil {
			out = append(out, typed(keys.Save))
		}
		return append(out, typed(keys.GoTo), typed(keys.Quit))
	}
	if x, ok := top.(*viewScreen); !ok || x.at.ID != session.Steps {
		out = append(out, keys.GoTo)
	}
	return append(out, keys.Words, keys.Save, keys.Quit)
}

// keyLines shows the keys in at most two lines, one in a low window. Where they
// do not fit, the least useful are left out and "? all keys" says so.
func (m Model) keyLines(p *canvas, bindings []key.Binding) {
	lines := 2
	if m.height < roomyHeight {
		lines = 1
	}
	var shown []key.Binding
	for _, b := range bindings {
		if b.Enabled() {
			shown = append(shown, b)
		}
	}
	rows := packKeys(shown, m.width)
	if len(rows) > lines {
		shown = m.brief(shown, lines == 1 || m.width < narrow)
	}
	for rows = packKeys(shown, m.width); len(rows) > lines; rows = packKeys(shown, m.width) {
		drop := leastUseful(shown)
		if drop < 0 {
			break
		}
		shown = slices.Delete(shown, drop, drop+1)
	}
	p.rows = append(p.rows, rows[:min(lines, len(rows))]...)
}

// brief are the keys where not all have room, with the one that lists all. At a
// question that is the one of its help, which names the keys too; where room is
// scarce it says so and stays.
func (m Model) brief(shown []key.Binding, scarce bool) []key.Binding {
	out, all := []key.Binding{}, keys.All
	all.SetEnabled(!m.top().Typing() && !asksWhy(m.top(), m.s))
	for _, b := range shown {
		switch name := b.Help().Key; {
		case !scarce:
		case b.Help().Desc == keys.Why.Help().Desc:
			all = b
			all.SetHelp(name, keys.All.Help().Desc)
			continue
		case b.Help().Desc == keyBefore.Help().Desc:
			b.SetHelp(name, keys.Back.Help().Desc)
		}
		out = append(out, b)
	}
	if all.Enabled() {
		out = append(out, all)
	}
	return out
}

// packKeys sets keys side by side in as many lines as they need.
func packKeys(bindings []key.Binding, width int) []row {
	var rows []row
	var line row
	used := 0
	for _, b := range bindings {
		w := len(b.Help().Key) + 1 + len(b.Help().Desc)
		if used > 0 && used+2+w > width {
			rows, line, used = append(rows, line), nil, 0
		}
		if used > 0 {
			line = append(line, piece{style.Dim, "  "})
			used += 2
		}
		used += w
		line = append(line, piece{style.Key, b.Help().Key}, piece{style.Dim, " " + b.Help().Desc})
	}
	return append(rows, line)
}

// leastUseful is the key that is left out first: in a form the one that
// leaves the questions to come, then words, then go to, then the screen's own from the last
// on, then an enter that its row explains, then quitting and saving. Answering,
// going back and the list of all keys stay to the end; -1 when no other is left.
func leastUseful(bindings []key.Binding) int {
	is := func(names ...string) func(key.Binding) bool {
		return func(b key.Binding) bool {
			return slices.Contains(names, b.Help().Key) || slices.Contains(names, b.Help().Desc)
		}
	}
	own := func(b key.Binding) bool {
		return !is("enter", "b", "esc", "s", "ctrl+s", "q", keys.All.Help().Desc)(b)
	}
	enter := func(b key.Binding) bool { return b.Help().Key == "enter" && b.Help().Desc != keys.Accept.Help().Desc }
	for _, first := range []func(key.Binding) bool{
		is(keyDone.Help().Desc), is(keys.Next.Help().Desc), is(keys.Words.Help().Desc), is(keys.GoTo.Help().Desc),
		own, enter, is("q"), is("s", "ctrl+s"),
	} {
		for i := len(bindings) - 1; i >= 0; i-- {
			if first(bindings[i]) {
				return i
			}
		}
	}
	return -1
}

// asksWhy reports whether "?" belongs to the screen: it tells why a question is
// asked.
func asksWhy(top screen, s *state) bool {
	for _, b := range top.Keys(s) {
		if b.Help().Key == keys.Why.Help().Key {
			return true
		}
	}
	return false
}

// newKeyList shows all keys of a screen, also those that had no room.
func newKeyList(of screen, s *state) *viewScreen {
	d := page.Page{Blocks: []page.Block{
		keyBlock("Keys of the screen you came from", of.Keys(s)),
		keyBlock("Keys of every screen", []key.Binding{keys.GoTo, keys.Words, keys.PageDown, keys.PageUp, keys.Top, keys.Bottom, keys.Save, keys.Quit, keys.Interrupt, keys.Suspend}),
	}, End: oneEnter}
	return &viewScreen{made: &d, step: of.Step()}
}

func keyBlock(title string, list []key.Binding) page.Block {
	b := page.Block{Title: title}
	for _, k := range list {
		if k.Enabled() {
			b.Add(page.Row{Kind: page.Fact, Label: "  " + k.Help().Key, Text: k.Help().Desc})
		}
	}
	return b
}
