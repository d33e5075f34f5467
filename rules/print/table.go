package print

import "strings"

// The columns of a table: the first, and the least of the others.
const (
	firstColumn = 14
	leastColumn = 15
)

// Table sets a table, its first row the head: side by side where the width
// allows it, else one entry after the other. A table of one row is empty.
func Table(table [][]string, width int) []string {
	if len(table) < 2 {
		return nil
	}
	head := table[0]
	wide := (width - firstColumn) / (len(head) - 1)
	var out []string
	if wide < leastColumn {
		for _, row := range table[1:] {
			out = append(out, row[0])
			for i := 1; i < len(row); i++ {
				for _, l := range Wrap(head[i]+": "+row[i], width-signIndent) {
					out = append(out, "  "+l)
				}
			}
		}
		return out
	}
	for n, row := range table {
		out = append(out, tableRow(row, wide)...)
		if n == 0 {
			out = append(out, strings.Repeat("-", width))
		}
	}
	return out
}

func tableRow(row []string, wide int) []string {
	columns := make([][]string, len(row))
	height := 0
	for i, c := range row {
		columns[i] = Wrap(c, columnWidth(i, wide)-2)
		height = max(height, len(columns[i]))
	}
	out := make([]string, height)
	for y := range out {
		var b strings.Builder
		for i, c := range columns {
			text := ""
			if y < len(c) {
				text = c[y]
			}
			b.WriteString(Pad(text, columnWidth(i, wide)))
		}
		out[y] = strings.TrimRight(b.String(), " ")
	}
	return out
}

func columnWidth(i, wide int) int {
	if i == 0 {
		return firstColumn
	}
	return wide
}
