package tui

import (
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/style"
)

// newStillOpen compares what can still be changed about a place before it is
// framed: cost, R, fits or not, and the last moment to decide.
func newStillOpen(id string) *reading {
	return &reading{at: stepLook, draw: func(p *canvas, s *state) {
		pl := s.Place(id)
		if pl == nil {
			p.line(style.Warn, "This place is gone.")
			return
		}
		list := s.Assess.StillOpen(plan.PreferencesOf(s.Answered(), nil), id)
		titled(p, s, report.StillOpenPage(*pl, list, s.Options()))
	}}
}
