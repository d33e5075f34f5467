package tui

import (
	"battwright/rules/page"
	"battwright/rules/print"
	"battwright/tui/session"
	"battwright/tui/style"
)

// toneOf paints what a row means.
var toneOf = map[page.Tone]style.Tone{
	page.Plain: style.Plain, page.Quiet: style.Dim, page.Good: style.Good, page.Care: style.Warn, page.Stop: style.Danger,
}

// signOf stands for what a row is in a list.
var signOf = map[page.Mark]string{page.For: "+ ", page.Against: "- ", page.Caution: "! ", page.Open: "? "}

// showPage draws a page without its title.
func showPage(p *canvas, s *state, d page.Page) {
	if d.Intro != "" {
		p.para(style.Dim, 0, d.Intro)
		p.blank()
	}
	showBlocks(p, s, page.Full(d.Blocks))
	if len(d.Sources) > 0 {
		p.blank()
		p.line(style.Title, "Where this is from")
		for _, l := range d.Sources {
			p.para(style.Dim, 2, l)
		}
	}
	if d.End != "" {
		p.blank()
		p.para(style.Dim, 0, d.End)
	}
}

// showBlocks draws parts of a page.
func showBlocks(p *canvas, s *state, blocks []page.Block) {
	for i, b := range blocks {
		if i > 0 {
			p.blank()
		}
		if b.Title != "" {
			p.para(style.Title, 0, b.Title)
		}
		for _, l := range print.Table(b.Table, min(p.width, widestText)) {
			p.line(style.Plain, l)
		}
		column := b.LabelColumn(labelColumn, widestLabel)
		for _, r := range b.Rows {
			showRow(p, s, r, column)
		}
	}
}

// The columns of labels.
const (
	labelColumn = 8
	widestLabel = 24
)

func showRow(p *canvas, s *state, r page.Row, column int) {
	tone, text := toneOf[r.Tone], rowText(r)
	switch r.Kind {
	case page.Item:
		if r.Label != "" {
			text = r.Label + ": " + text
		}
		mark := "  " + s.mark(r)
		p.hanging(tone, mark, len([]rune(mark)), text)
	case page.Tick:
		p.hanging(tone, s.g.NoTick+" ", 4, text)
	case page.Sub:
		p.para(tone, 4, text)
	case page.Fact:
		p.labelled(tone, r.Label, column, s.mark(r)+text)
	case page.Blank:
		for _, l := range print.BlankLine(r.Text, r.Unit, p.width-2) {
			p.line(tone, "  "+l)
		}
	case page.Room:
		for _, l := range print.BlankLine(r.Label, "", p.width) {
			p.line(tone, l)
		}
	case page.Figure:
		for _, l := range r.Lines {
			p.line(tone, l)
		}
	default:
		sign := s.mark(r)
		if sign == "" && r.Tone == page.Care {
			sign = "! "
		}
		p.para(tone, 0, sign+text)
	}
}

// mark is the sign before a row of a list.
func (s *state) mark(r page.Row) string {
	if r.Mark == page.Step {
		return s.g.Dot + " "
	}
	return signOf[r.Mark]
}

// rowText is a row with its number, and with the key that leads on from it.
func rowText(r page.Row) string {
	text := r.Text
	if r.Lead != "" {
		text = r.Lead + " " + text
	}
	if r.To != "" {
		text += ": " + binding(session.Leads[r.To]).Help().Key + " " + r.Then
	}
	return text
}

// hanging is a paragraph with a mark before its first line.
func (p *canvas) hanging(tone style.Tone, mark string, indent int, text string) {
	for i, l := range wrap(clean(text), p.width-indent) {
		lead := padTo("", indent)
		if i == 0 {
			lead = padTo(mark, indent)
		}
		p.add(piece{style.Plain, lead}, piece{tone, l})
	}
}
