package tui

import (
	"fmt"
	"strings"

	"battwright/rules/report"
	"battwright/tui/style"
)

// orderRows shows what would be bought: the same blanket together over the
// whole house, and what is not a blanket.
func orderRows(p *page, s *session) {
	p.line(style.Title, "What would be bought")
	p.para(style.Dim, 0, "Areas from your answers, the same blanket together for all its places. Pieces and packages are counted from the label at the store: divide the area by the coverage printed on the package, round up, add one package in twenty.")
	p.blank()
	for _, n := range s.plan.Needs(s.catalog()) {
		m, _ := s.catalog().Material(n.Product.Material)
		p.para(style.Plain, 0, fmt.Sprintf("%s %s, %s, %s: %s, %s", s.system.R(n.Product.NominalR), m.Name, s.system.Inches(n.Product.ThicknessIn), report.FaceWord(n.Facing), s.system.Area(n.AreaFt2), s.system.MoneyRange(n.Price)))
		p.para(style.Dim, 4, fmt.Sprintf("for %s; about %s of blanket", strings.Join(n.Places, ", "), s.system.Volume(n.Ft3)))
	}
	for _, b := range s.plan.Boards() {
		p.para(style.Danger, 0, fmt.Sprintf("%s: %s. Get a quote.", b.Surface.Label, report.BoardText(b, s.system)))
	}
	measured := 0
	for _, pl := range s.house.Places {
		if len(pl.Measured) > 0 {
			measured++
		}
	}
	p.blank()
	if measured < len(s.house.Places) {
		p.para(style.Warn, 0, "NOT MEASURED: sizes of at least one place are guesses. Measure before you buy.")
	}
}
