package tui

import (
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/chart"
	"battwright/tui/draw"
	"battwright/tui/style"
)

func (s *state) tool(width int) draw.Tool {
	return draw.Tool{Catalog: s.Catalog(), System: s.System, ASCII: s.ascii, Width: width}
}

// drawing puts a picture on the page, the sentence that says the same first.
func drawing(p *canvas, d chart.Drawing) {
	p.para(style.Plain, 0, d.Sentence)
	p.blank()
	for _, l := range d.Lines {
		p.line(style.Plain, l)
	}
	p.blank()
}

// pictureRows shows the layers of the place from inside to outside.
func pictureRows(p *canvas, s *state, pl plan.Place) {
	d, ok := s.tool(p.width).Layers(pl)
	if !ok {
		p.para(style.Warn, 0, "There is nothing to draw: no blanket is planned here.")
		return
	}
	drawing(p, d)
	p.para(style.Dim, 0, "Layers from inside to outside. Temperatures are in steady cold, through the blanket and not through the wood.")
}

// dampRows shows the year of the damp check.
func dampRows(p *canvas, s *state, pl plan.Place) {
	months, ok := s.tool(p.width).Months(pl)
	if !ok {
		return
	}
	p.blank()
	drawing(p, months)
	for _, l := range report.DampLimits(pl.Choice.Damp, s.Catalog().Settings, s.System) {
		p.para(style.Dim, 0, l)
	}
}

// layerRows is the picture without its sentence, to stand beside a text that
// says the same; false when there is none.
func layerRows(p *canvas, s *state, pl plan.Place) bool {
	d, ok := s.tool(p.width).Layers(pl)
	for _, l := range d.Lines {
		p.line(style.Plain, l)
	}
	return ok
}
