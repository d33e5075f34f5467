package tui

import (
	"cmp"
	"slices"
	"strings"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/tui/session"
	"battwright/tui/style"
)

// answerText is the answer in one line, with how it is known.
func (f *field) answerText(s *state) (text string, tone style.Tone) {
	p := s.House.Place(f.place)
	v := s.Answered().ValueOf(f.q, p)
	switch v.Source {
	case house.FromAnswer:
		return f.q.Show(v.Answer, s.System), style.Plain
	case house.FromDefault:
		return f.q.Show(v.Answer, s.System) + " (assumed)", style.Dim
	case house.FromUnknown:
		return cmp.Or(s.Answered().BeliedText(f.q, p), "not known yet"), style.Warn
	}
	return "-", style.Dim
}

// view draws the question; the active one opens up with its input, how to
// find out, and what is wrong.
func (f *field) view(p *canvas, s *state, active bool) {
	answer, tone := f.answerText(s)
	if !active {
		if f.typed && f.problem != "" {
			answer, tone = "not kept: "+f.problem, style.Danger
		}
		f.closed(p, f.q.Prompt.In(s.System), answer, tone)
		return
	}
	first := len(p.rows)
	p.para(style.Chosen, 0, s.g.Pointer+" "+f.q.Prompt.In(s.System))
	p.mark()
	p.head, p.here, p.pin = first, p.focus, len(p.rows)-first
	indent := 4
	if f.textual() {
		f.inputRow(p, s, indent)
	} else {
		f.optionRows(p, s, indent)
	}
	if f.typed {
		list := s.Answered().Suggest(f.q, f.input.Value())
		if len(list) > 0 && !(len(list) == 1 && strings.EqualFold(list[0], f.input.Value())) {
			p.para(style.Good, indent, strings.Join(list, ", ")+"   (the right arrow takes the first)")
		}
	}
	if f.problem != "" {
		p.para(style.Danger, indent, f.problem)
	}
	if f.q.How != "" {
		p.para(style.Dim, indent, f.q.How.In(s.System))
	}
	p.mark()
}

func (f *field) closed(p *canvas, prompt, answer string, tone style.Tone) {
	if p.width < 64 {
		p.line(style.Plain, "  "+prompt)
		p.line(tone, "    "+answer)
		return
	}
	const answerWidth = 32
	left := wrap(prompt, p.width-answerWidth-3)
	right := wrap(answer, answerWidth)
	for i := range max(len(left), len(right)) {
		l, r := "", ""
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		p.add(piece{style.Plain, "  " + padTo(l, p.width-answerWidth-2)}, piece{tone, r})
	}
}

func (f *field) inputRow(p *canvas, s *state, indent int) {
	v := f.input.Value()
	if v == "" {
		answer, _ := f.answerText(s)
		p.add(piece{style.Plain, strings.Repeat(" ", indent) + "[_"}, piece{style.Dim, " " + answer}, piece{style.Plain, " ]"})
		return
	}
	room := max(4, p.width-indent-6)
	r := []rune(v)
	pos := f.input.Position()
	start := max(0, pos-room+1)
	end := min(len(r), start+room)
	text := string(r[start:min(pos, end)]) + "_" + string(r[min(pos, end):end])
	p.add(piece{style.Plain, strings.Repeat(" ", indent) + "["}, piece{style.Chosen, text}, piece{style.Plain, "]" + f.unit(s.System)})
}

// unit stands behind what is typed. A bare number is in the unit of the file
// in SI too, so both are named there.
func (f *field) unit(s units.System) string {
	unit := f.q.Unit
	other := map[string]string{"ft": "m", "in": "mm", "ft2": "m2", "R": "RSI"}[unit]
	switch {
	case other == "" || unit == "R" && s == units.US:
		return ""
	case s == units.US:
		return " " + unit
	}
	return " " + unit + ", or write " + other
}

// optionRows are what can be chosen, each with its number, or ticked.
func (f *field) optionRows(p *canvas, s *state, indent int) {
	known, many := s.Answered().ValueOf(f.q, s.House.Place(f.place)), f.q.Kind == house.Many
	for i, o := range session.Choices(f.q) {
		mark, tone := s.pointer(i == f.cursor)
		lead, note := f.number(i), ""
		switch {
		case many && slices.Contains(known.Answer.List, o.Value):
			lead = s.g.Tick + " "
		case many:
			lead = s.g.NoTick + " "
		case known.Source == house.FromDefault && o.Value == optionOf(f.q, known.Answer):
			note = "  (assumed)"
		}
		p.line(tone, strings.Repeat(" ", indent)+mark+lead+o.Label.In(s.System)+note)
		if i == f.cursor {
			p.here = len(p.rows) - 1
		}
	}
	if known.Source == house.FromUnknown && !many {
		text := cmp.Or(s.Answered().BeliedText(f.q, s.House.Place(f.place)), "not known yet")
		p.para(style.Warn, indent, text)
	}
}

// number stands before an option where digits are keys that choose.
func (f *field) number(i int) string {
	if !f.digitsChoose() {
		return ""
	}
	return numbered(i)
}

func numbered(i int) string {
	if i > 8 {
		return "   "
	}
	return string(rune('1'+i)) + "  "
}
