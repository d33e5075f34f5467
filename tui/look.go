package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"

	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/tui/style"
)

// wideWidth is the width from which two things stand side by side.
const wideWidth = 120

// takenMark stands before the material that the plan takes.
const takenMark = "*"

// lookRows are the places of the first look with every material. A wide window
// has them all in a table, and under it the one under the cursor.
func (x *viewScreen) lookRows(p *canvas, s *state) {
	all := pages.LookBlocks(s.Plan, s.Options())
	if p.width < wideWidth || len(all) == 0 || !x.table(p, s, pages.LookTable(s.Plan, s.Options())) {
		for i, b := range all {
			x.place(p, s, b, i == x.cursor)
		}
		return
	}
	p.blank()
	p.line(style.Dim, takenMark+" is what the plan takes. Prices are the most likely ones; the lines below give low and high.")
	p.blank()
	x.place(p, s, all[x.cursor], true)
}

// The columns of the table: a price is never cut, a name wraps.
const (
	tableGap  = 2
	leastName = 16
)

// table is false where there is no room for all of it.
func (x *viewScreen) table(p *canvas, s *state, table [][]string) bool {
	widths := make([]int, len(table[0]))
	names := p.width - tableGap
	for i := 1; i < len(widths); i++ {
		for _, cells := range table {
			widths[i] = max(widths[i], ansi.StringWidth(clean(cells[i])))
		}
		names -= widths[i] + tableGap
	}
	if widths[0] = names; names < leastName {
		return false
	}
	for y, cells := range table {
		mark, tone := s.pointer(y == x.cursor+1)
		if y == 0 {
			tone = style.Title
		}
		for i, name := range wrap(clean(cells[0]), widths[0]) {
			line := mark + padTo(name, widths[0])
			for c := 1; c < len(cells) && i == 0; c++ {
				line += strings.Repeat(" ", tableGap) + padTo(clean(cells[c]), widths[c])
			}
			p.line(tone, strings.TrimRight(line, " "))
			mark = "  "
		}
		if y == 0 {
			p.line(style.Dim, strings.Repeat(s.g.Rule, p.width))
		}
		if y == x.cursor+1 {
			p.mark()
		}
	}
	return true
}

// place is one place: its name, what to do, and every material; under the cursor
// also what decides.
func (x *viewScreen) place(p *canvas, s *state, b page.Block, here bool) {
	first := len(p.rows)
	if here && x.cursor == 0 { // the first look opens at its top, with the total
		p.here, first = first, 0
	}
	glance(p, s, b, here)
	said := false // one reason a material, the one for it first
	for _, r := range b.Rows[1:] {
		switch {
		case r.Kind != page.Sub:
			said = false
			lead := "      "
			if r.Mark == page.Taken {
				lead = "    " + takenMark + " "
			}
			p.hanging(toneOf[r.Tone], lead+padTo(r.Label, 14), 20, r.Text)
		case here && r.Mark == page.For:
			said = true
			p.para(style.Dim, 20, "+ "+r.Text)
		case here && !said:
			p.para(style.Dim, 20, r.Text)
		}
	}
	if here {
		p.markFrom(first)
	}
}

// glance is one place in one entry: its name and what to do.
func glance(p *canvas, s *state, b page.Block, here bool) {
	mark, tone := s.pointer(here)
	if !here {
		tone = style.Title
	}
	p.line(tone, mark+b.Title)
	p.para(toneOf[b.Rows[0].Tone], 4, b.Rows[0].Text)
}

// beside puts two pages next to each other, the right one as it is.
func (p *canvas) beside(left, right *canvas) {
	const rule = "  "
	for i := range max(len(left.rows), len(right.rows)) {
		var l, r row
		if i < len(left.rows) {
			l = left.rows[i]
		}
		if i < len(right.rows) {
			r = right.rows[i]
		}
		used := 0
		for _, x := range l {
			used += ansi.StringWidth(x.text)
		}
		out := append(row{}, l...)
		if len(r) > 0 {
			out = append(out, piece{style.Plain, strings.Repeat(" ", max(0, left.width-used)) + rule})
			out = append(out, r...)
		}
		p.rows = append(p.rows, out)
	}
}
