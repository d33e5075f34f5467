package tui

import (
	"fmt"

	"github.com/charmbracelet/x/ansi"

	"battwright/rules/candidate"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/chart"
	"battwright/tui/style"
)

// pen draws in the signs of the theme, measuring as the terminal does.
func (s *session) pen() chart.Pen {
	p := chart.Pen{Glyphs: chart.Unicode(), Measure: ansi.StringWidth}
	if s.ascii {
		p.Glyphs = chart.ASCII()
	}
	return p
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
	if pl.Choice == nil || pl.Stopped != "" {
		p.para(style.Warn, 0, "There is nothing to draw: no blanket goes here as it stands.")
		return
	}
	d := pl.Choice.Damp
	var layers []chart.SectionLayer
	for _, l := range pl.Choice.Stack(pl.Surface, s.catalog(), pl.Target) {
		layers = append(layers, chart.SectionLayer{Name: l.Name, Note: l.Note, Kind: kindOf(l.Role)})
	}
	inside, outside := "the room", "what lies beyond"
	if d.Checked {
		temps(layers, d, s)
		inside = fmt.Sprintf("%s in the coldest month", s.system.Temp(d.InC))
		outside = s.system.Temp(d.OutC)
	}
	drawing(p, s.pen().Section(layers, inside, outside, min(p.width, 78)))
	p.para(style.Dim, 0, "Layers from inside to outside. Temperatures are in steady cold, through the blanket and not through the wood.")
}

// temps sets the temperature at the inside face of each layer of the damp
// calculation, by name: the picture has the same layers in the same order.
func temps(layers []chart.SectionLayer, d candidate.Damp, s *session) {
	at := 0
	for i := range layers {
		for j := at; j < len(d.Layers); j++ {
			if d.Layers[j] == layers[i].Name && j < len(d.ColdestC) {
				layers[i].TempText, at = s.system.Temp(d.ColdestC[j]), j+1
				break
			}
		}
	}
}

func kindOf(role string) chart.Kind {
	switch role {
	case candidate.RoleFiber:
		return chart.Fiber
	case candidate.RoleRetarder:
		return chart.Retarder
	case candidate.RoleSheathing:
		return chart.Sheathing
	case candidate.RoleCladding:
		return chart.Cladding
	case candidate.RoleGap:
		return chart.Gap
	case candidate.RoleConcrete:
		return chart.Concrete
	}
	return chart.Board
}

// dampRows shows the damp check: one sentence, then the year.
func dampRows(p *page, s *session, pl plan.Place) {
	if pl.Choice == nil || pl.Stopped != "" {
		p.para(style.Warn, 0, "Nothing to check: no blanket goes here as it stands.")
		return
	}
	d := pl.Choice.Damp
	tone := style.Good
	if d.Verdict == candidate.MoldRisk || d.Verdict == candidate.StaysWet {
		tone = style.Danger
	}
	p.para(tone, 0, report.DampText(d, s.system))
	p.blank()
	if !d.Checked {
		return
	}
	if d.PeakGM2 > 0 {
		drawing(p, s.pen().Months(d.HeldGM2, chart.MonthsOpts{What: "Water held at the dampest planes", Text: s.system.Moisture, Held: true, Rows: 6}, min(p.width, 78)))
	} else {
		drawing(p, s.pen().Months(d.RH, chart.MonthsOpts{What: "Humidity " + d.Where, Text: s.system.Percent, Limit: s.catalog().Settings.MoldRH, LimitLabel: "mold may grow above", Rows: 6}, min(p.width, 78)))
	}
	if d.Verdict == candidate.NoBuildUp && d.WorstRH > s.catalog().Settings.MoldRH {
		p.para(style.Plain, 0, "The months above the line do not count against it: they are too cold for mold at that spot, or no damper than the air outdoors.")
	}
	p.para(style.Dim, 0, "A yearly balance of vapor only. Not in it: air leaks, which carry far more water, rain, sun, and what wood and fiber store. Seal first.")
}
