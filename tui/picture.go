package tui

import (
	"unicode"

	"battwright/rules/candidate"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/chart"
	"battwright/tui/draw"
	"battwright/tui/say"
	"battwright/tui/style"
)

func (s *session) tool(width int) draw.Tool {
	return draw.Tool{Catalog: s.catalog(), System: s.system, ASCII: s.ascii, Width: width}
}

// drawing puts a picture on the page, the sentence that says the same first.
func drawing(p *page, d chart.Drawing) {
	p.para(style.Plain, 0, d.Sentence)
	p.blank()
	for _, l := range d.Lines {
		p.line(style.Plain, l)
	}
	p.blank()
}

// pictureRows shows the layers of the place from inside to outside.
func pictureRows(p *page, s *session, pl plan.Place) {
	d, ok := s.tool(p.width).Layers(pl)
	if !ok {
		p.para(style.Warn, 0, "There is nothing to draw: no blanket is planned here.")
		return
	}
	drawing(p, d)
	p.para(style.Dim, 0, "Layers from inside to outside. Temperatures are in steady cold, through the blanket and not through the wood.")
}

// dampRows shows the damp check: one sentence, then the year.
func dampRows(p *page, s *session, pl plan.Place) {
	if pl.Choice == nil {
		p.para(style.Warn, 0, say.NothingDamp)
		return
	}
	d := pl.Choice.Damp
	tone := style.Good
	if d.Verdict == candidate.MoldRisk || d.Verdict == candidate.StaysWet {
		tone = style.Danger
	}
	p.para(tone, 0, asSentence(report.DampText(d, s.system)))
	p.blank()
	months, ok := s.tool(p.width).Months(pl)
	if !ok {
		return
	}
	drawing(p, months)
	for _, l := range report.DampLimits(d, s.catalog().Settings, s.system) {
		p.para(style.Dim, 0, l)
	}
}

// layerRows is the picture without its sentence, to stand beside a text that
// says the same; false when there is none.
func layerRows(p *page, s *session, pl plan.Place) bool {
	d, ok := s.tool(p.width).Layers(pl)
	for _, l := range d.Lines {
		p.line(style.Plain, l)
	}
	return ok
}

// asSentence begins with a capital where a text stands alone.
func asSentence(s string) string {
	r := []rune(s)
	if len(r) > 0 {
		r[0] = unicode.ToUpper(r[0])
	}
	return string(r)
}
