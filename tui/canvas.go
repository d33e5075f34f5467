package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"battwright/rules/print"
	"battwright/rules/strict"
	"battwright/tui/style"
)

// piece is a run of text of one tone.
type piece struct {
	tone style.Tone
	text string
}

// row is one line of a screen before it is painted.
type row []piece

// canvas collects the rows of a screen. Screens say what to show; the page keeps
// every line within the width and cleans what comes from files.
type canvas struct {
	width    int
	rows     []row
	ellipsis string // what says that a line was cut
	focus    int    // the row that must stay in view when the page is cut to height
	head     int    // the row above it that must too, where both do not fit; -1 for none
	here     int    // the row in between that counts most, under a head that stays in place; -1 for none
	pin      int    // how many rows that head has
}

// widestText keeps sentences readable: longer lines lose the eye.
const widestText = 112

func newCanvas(width int, ellipsis string) *canvas {
	return &canvas{width: width, ellipsis: ellipsis, focus: -1, head: -1, here: -1}
}

func clean(s string) string {
	s, _ = strict.CleanText(s)
	return strings.ReplaceAll(s, "\n", " ")
}

// add appends one line, cut to the width.
func (p *canvas) add(pieces ...piece) {
	left := p.width
	var out row
	for _, x := range pieces {
		text := clean(x.text)
		if w := ansi.StringWidth(text); w > left {
			text = ansi.Truncate(text, left, p.ellipsis)
		}
		left -= ansi.StringWidth(text)
		out = append(out, piece{x.tone, text})
	}
	p.rows = append(p.rows, out)
}

func (p *canvas) line(tone style.Tone, s string) { p.add(piece{tone, s}) }

func (p *canvas) blank() { p.rows = append(p.rows, nil) }

// para appends wrapped text, each line indented.
func (p *canvas) para(tone style.Tone, indent int, s string) {
	for _, l := range wrap(clean(s), min(p.width-indent, widestText)) {
		p.add(piece{style.Plain, strings.Repeat(" ", indent)}, piece{tone, l})
	}
}

// most is a paragraph of no more lines than given; what is cut shows.
func (p *canvas) most(tone style.Tone, s string, lines int) {
	all := wrap(clean(s), min(p.width, widestText))
	for i, l := range all[:min(len(all), max(1, lines))] {
		if i == lines-1 && len(all) > lines {
			l = ansi.Truncate(l, p.width-ansi.StringWidth(p.ellipsis), "") + p.ellipsis
		}
		p.add(piece{tone, l})
	}
}

// labelled appends "Label  text" with the text wrapped beside the label.
func (p *canvas) labelled(tone style.Tone, label string, labelWidth int, s string) {
	if p.width < labelWidth*3 {
		labelWidth = p.width / 3
	}
	for i, l := range wrap(clean(s), min(p.width-labelWidth, widestText)) {
		head := label
		if i > 0 {
			head = ""
		}
		p.add(piece{style.Title, p.column(head, labelWidth)}, piece{tone, l})
	}
}

// column fits a text into a column with a space after it; what is cut shows.
func (p *canvas) column(s string, width int) string {
	return padTo(ansi.Truncate(s, max(0, width-1), p.ellipsis), width)
}

// mark makes the last row the one to keep in view.
func (p *canvas) mark() { p.focus = len(p.rows) - 1 }

// markFrom does so for an entry of several rows; its first row, a name, is seen
// even where the rest is longer than the window.
func (p *canvas) markFrom(first int) {
	p.mark()
	p.head = first
}

// wrap is print.Wrap for text that may hold wide characters: lines that come
// out too wide are cut by cells, not runes.
func wrap(s string, width int) []string {
	width = max(1, width)
	var out []string
	for _, l := range print.Wrap(s, width) {
		for ansi.StringWidth(l) > width {
			head := ansi.Truncate(l, width, "")
			if head == "" {
				break
			}
			out = append(out, head)
			l = strings.TrimPrefix(l, head)
		}
		out = append(out, l)
	}
	return out
}

func padTo(s string, width int) string {
	s = ansi.Truncate(s, width, "")
	if n := width - ansi.StringWidth(s); n > 0 {
		return s + strings.Repeat(" ", n)
	}
	return s
}

// window cuts the rows to a height, starting at scroll or so that the focused
// row is in view, and says whether there is more above and below.
func (p *canvas) window(height, scroll int) (rows []row, top int, above, below bool) {
	if height < 1 {
		return nil, 0, false, false
	}
	top = scroll
	if p.focus >= 0 {
		top = min(top, p.focus)
		top = max(top, p.focus-height+1)
		switch {
		case p.here >= 0 && p.focus-p.head >= height: // the options alone are longer
			top = max(p.head, p.here-height+1)
		case p.head >= 0:
			top = min(top, p.head)
		}
	}
	top = max(0, min(top, len(p.rows)-height))
	end := min(len(p.rows), top+height)
	rows = p.rows[top:end]
	if p.focus >= 0 && p.here >= 0 && top > p.head && p.pin < len(rows) {
		rows = slices.Concat(p.rows[p.head:p.head+p.pin], rows[p.pin:])
	}
	return rows, top, top > 0, end < len(p.rows)
}

func paint(t style.Theme, r row) string {
	var b strings.Builder
	for _, x := range r {
		b.WriteString(t.Paint(x.tone, x.text))
	}
	return b.String()
}
