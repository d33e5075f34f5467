package chart

import (
	"slices"
	"strings"
)

// TableOpts says how columns may be treated; columns count from 0.
type TableOpts struct {
	Keep  []int // columns never wrapped: numbers and prices
	Right []int // columns aligned at the right
	Dense bool  // no empty line between rows even where cells wrap
}

// columnGap is the space between columns.
const columnGap = 2

// Table sets rows under headers. Cells wrap within their column; where the
// columns do not fit without cutting words, each row becomes a block: its
// first cell, then one "header: cell" line for each of the others. Nothing is
// left out either way.
func (p Pen) Table(headers []string, rows [][]string, width int, opts TableOpts) Drawing {
	p, width = p.ready(), clampWidth(width)
	headers, rows = square(headers, rows)
	if len(headers) == 0 {
		return p.empty(width)
	}
	sentence := tableSentence(headers, rows)
	columns := p.columns(headers, rows, width, opts)
	if columns == nil {
		return p.finish(width, p.blocks(headers, rows, width), sentence)
	}
	return p.finish(width, p.grid(headers, rows, columns, opts), sentence)
}

// square cleans all cells and gives every row the same number of them.
func square(headers []string, rows [][]string) ([]string, [][]string) {
	n := len(headers)
	for _, r := range rows {
		n = max(n, len(r))
	}
	full := make([][]string, len(rows))
	for i, r := range rows {
		full[i] = cleaned(r, n)
	}
	return cleaned(headers, n), full
}

func cleaned(cells []string, n int) []string {
	out := make([]string, n)
	for i, c := range cells {
		out[i] = clean(c)
	}
	return out
}

// grid is the table in columns.
func (p Pen) grid(headers []string, rows [][]string, columns []int, o TableOpts) []string {
	lines := p.gridRow(headers, columns, o)
	rule := make([]string, len(columns))
	for i, c := range columns {
		rule[i] = strings.Repeat(p.Glyphs.base, c)
	}
	lines = append(lines, strings.Join(rule, blank(columnGap)))
	groups := make([][]string, len(rows))
	wrapped := false
	for i, r := range rows {
		groups[i] = p.gridRow(r, columns, o)
		wrapped = wrapped || len(groups[i]) > 1
	}
	for i, g := range groups {
		// Without the empty line it is not clear where a wrapped row ends.
		if i > 0 && wrapped && !o.Dense {
			lines = append(lines, "")
		}
		lines = append(lines, g...)
	}
	return lines
}

func (p Pen) gridRow(cells []string, columns []int, o TableOpts) []string {
	texts := make([][]string, len(cells))
	height := 0
	for i, c := range cells {
		texts[i] = p.wrap(c, columns[i])
		height = max(height, len(texts[i]))
	}
	lines := make([]string, height)
	for row := range lines {
		parts := make([]string, len(cells))
		for i, t := range texts {
			cell := ""
			if row < len(t) {
				cell = t[row]
			}
			if slices.Contains(o.Right, i) {
				parts[i] = p.padLeft(cell, columns[i])
			} else {
				parts[i] = p.padRight(cell, columns[i])
			}
		}
		lines[row] = strings.Join(parts, blank(columnGap))
	}
	return lines
}

// blocks is the table for a window too narrow for columns.
func (p Pen) blocks(headers []string, rows [][]string, width int) []string {
	if len(rows) == 0 {
		return p.wrap(strings.Join(present(headers...), ", "), width)
	}
	var lines []string
	for i, r := range rows {
		if i > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, p.wrap(r[0], width)...)
		for c := 1; c < len(r); c++ {
			if said := labelled(headers[c], r[c]); said != "" {
				lines = append(lines, p.hang(said, width, "  ", "    ")...)
			}
		}
	}
	return lines
}

func labelled(header, cell string) string {
	if header == "" || cell == "" {
		return cell
	}
	return header + ": " + cell
}

func tableSentence(headers []string, rows [][]string) string {
	if len(rows) == 0 {
		return "A table without rows, with columns " + unstop(list(present(headers...))) + "."
	}
	parts := make([]string, len(rows))
	for i, r := range rows {
		var cells []string
		for c := 1; c < len(r); c++ {
			if r[c] != "" {
				cells = append(cells, strings.TrimSpace(headers[c]+" "+r[c]))
			}
		}
		parts[i] = strings.Join(present(r[0], strings.Join(cells, ", ")), ": ")
	}
	said := unstop(strings.Join(present(parts...), "; "))
	if said == "" {
		return nothing
	}
	return said + "."
}
