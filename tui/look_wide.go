package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/chart"
	"battwright/tui/style"
)

// wideWidth is the width from which two things stand side by side.
const wideWidth = 120

// wide shows all places and materials at once, and under them what the table
// has no room for about the place under the cursor.
func (x *look) wide(p *canvas, s *state) {
	headers := []string{"", "Place"}
	for _, m := range s.Catalog().Materials {
		headers = append(headers, m.Name)
	}
	var rows [][]string
	for i, pl := range s.Plan.Places {
		mark := ""
		if i == x.cursor {
			mark = s.g.Pointer
		}
		rows = append(rows, append([]string{mark, placeCell(pl, s)}, materialCells(pl, headers[2:], s)...))
	}
	opts := chart.TableOpts{Dense: true} // a name may wrap, what fits and its price may not
	for c := range headers {
		if c != 1 {
			opts.Keep = append(opts.Keep, c)
		}
	}
	for i, l := range s.tool(p.width).Pen().Table(headers, rows, p.width, opts).Lines {
		tone := style.Plain
		switch {
		case i == 0:
			tone = style.Title
		case strings.HasPrefix(l, s.g.Pointer):
			tone = style.Chosen
		}
		p.line(tone, l)
		if tone == style.Chosen {
			p.mark()
		}
	}
	p.blank()
	p.line(style.Dim, takenMark+" is what the plan takes. Prices are the most likely ones; the lines below give low and high.")
	if x.cursor < len(s.Plan.Places) {
		p.blank()
		x.place(p, s, s.Plan.Places[x.cursor], true)
	}
}

// takenMark stands before the material that the plan takes.
const takenMark = "*"

// takes reports whether the plan takes the material of an entry.
func takes(pl plan.Place, e plan.Entry) bool {
	return pl.Choice != nil && pl.Choice.MaterialID == e.MaterialID
}

// placeCell names a place, and says in it what no score may stand for.
func placeCell(pl plan.Place, s *state) string {
	if pl.Stopped() {
		return pl.Surface.Label + ": STOP, see below"
	}
	cell := pl.Surface.Label
	if len(pl.Asks()) > 0 {
		cell += ": FIND OUT FIRST, see below"
	}
	if pl.Surface.Kind.BesideChimney {
		cell += ": " + report.GapText(pl, s.Options())
	}
	return cell
}

// materialCells are the cells of a place under the names of the materials.
func materialCells(pl plan.Place, names []string, s *state) []string {
	cells := make([]string, len(names))
	for i, r := range report.RankRows(pl, s.Options()) {
		at := slices.Index(names, r.Name)
		if at < 0 {
			continue
		}
		e := pl.Entries[i]
		cells[at] = r.Fit
		if r.Price != "" {
			cells[at] += " " + s.System.MoneyOf(e.Money.Total.Typical, e.Money.Total)
		}
		if takes(pl, e) {
			cells[at] = takenMark + " " + cells[at]
		}
	}
	return cells
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
