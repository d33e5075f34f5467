package print

import (
	"strings"

	"battwright/rules/page"
)

// Text sets a page as plain text, lines at most width runes; 0 means the width
// of a printed page.
func Text(p page.Page, width int) string {
	t := &writer{width: width}
	if t.width <= 0 {
		t.width = usualWidth
	}
	if p.Title != "" {
		t.heading(strings.ToUpper(p.Title), "=")
	}
	if p.Intro != "" {
		t.hanging("", p.Intro, 0)
	}
	for _, b := range p.Blocks {
		t.block(b)
	}
	if len(p.Sources) > 0 {
		t.block(sources(p))
	}
	if p.End != "" {
		t.line("")
		t.hanging("", p.End, 0)
	}
	return t.b.String()
}

// As sets a page in the format somebody asked for: markdown, or else text of a
// width.
func As(format string, p page.Page, width int) string {
	if format == "markdown" || format == "md" {
		return Markdown(p)
	}
	return Text(p, width)
}

// sources name where the figures of a page are from.
func sources(p page.Page) page.Block {
	b := page.Block{Title: "Where this is from"}
	b.Items(page.Quiet, p.Sources)
	return b
}

// writer lays out plain text of a fixed width. It is the last gate before a
// terminal: nothing passes it uncleaned.
type writer struct {
	b     strings.Builder
	width int
	fresh bool // a heading stands right above
}

func (t *writer) line(s string) {
	t.b.WriteString(strings.TrimRight(Clean(s), " "))
	t.b.WriteByte('\n')
}

func (t *writer) heading(s, rule string) {
	if t.b.Len() > 0 {
		t.line("")
	}
	t.hanging("", s, 0)
	t.line(strings.Repeat(rule, t.width))
	t.fresh = true
}

// hanging wraps a text beside its mark.
func (t *writer) hanging(mark, s string, indent int) {
	for i, l := range Wrap(s, t.width-indent) {
		if i > 0 {
			mark = ""
		}
		t.line(Pad(mark, indent) + l)
	}
}

func (t *writer) block(b page.Block) {
	if b.Title != "" {
		t.heading(b.Title, "-")
	} else if len(b.Rows)+len(b.Table) > 0 && !t.fresh {
		t.line("")
	}
	t.fresh = false
	for _, l := range Table(b.Table, t.width) {
		t.line(l)
	}
	for _, r := range b.Rows {
		t.row(r, b.LabelColumn(labelIndent, mostIndent))
	}
}

// The room before a text.
const (
	signIndent  = 2
	tickIndent  = 4
	labelIndent = 8
	mostIndent  = 24
	narrow      = 60 // below it a label stands in line with its text
)

func (t *writer) row(r page.Row, column int) {
	text := signs[r.Mark] + lead(r) + r.Text
	switch r.Kind {
	case page.Item:
		if r.Label != "" {
			text = r.Label + ": " + text
		}
		t.hanging("- ", text, signIndent)
	case page.Tick:
		t.hanging("[ ] ", text, tickIndent)
	case page.Sub:
		t.hanging("", text, tickIndent)
	case page.Fact:
		t.fact(r.Label, text, column)
	case page.Blank:
		for _, l := range BlankLine(r.Text, r.Unit, t.width-signIndent) {
			t.line("  " + l)
		}
	case page.Room:
		t.line(r.Label + " " + strings.Repeat("_", max(4, t.width-len([]rune(r.Label))-1)))
	case page.Figure:
		t.line("")
		for _, l := range r.Lines {
			t.line(l)
		}
		t.line("")
	default:
		if r.Tone.Loud() {
			t.hanging("! ", text, signIndent)
			return
		}
		t.hanging("", text, 0)
	}
}

// signs stand for what a row is in a list.
var signs = map[page.Mark]string{page.For: "+ ", page.Against: "- ", page.Caution: "! ", page.Open: "? ", page.Step: "- "}

func lead(r page.Row) string {
	if r.Lead == "" {
		return ""
	}
	return r.Lead + " "
}

func (t *writer) fact(label, text string, column int) {
	switch {
	case t.width >= narrow:
		t.hanging(label, text, column)
	case label == "":
		t.hanging("  ", text, signIndent)
	default:
		for i, l := range Wrap(label+": "+text, t.width-signIndent) {
			if i > 0 {
				l = "  " + l
			}
			t.line(l)
		}
	}
}
