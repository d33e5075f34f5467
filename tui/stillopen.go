package tui

import (
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/say"
	"battwright/tui/style"
)

// newStillOpen compares what can still be changed about a place before it is
// framed: cost, R, fits or not, and the last moment to decide.
func newStillOpen(id string) *reading {
	return &reading{at: stepLook, draw: func(p *canvas, s *session) {
		pl := s.place(id)
		if pl == nil {
			p.line(style.Warn, "This place is gone.")
			return
		}
		p.line(style.Title, say.StillOpen(pl.Surface.Label))
		list := s.assess.StillOpen(plan.PreferencesOf(s.answered(), nil), id)
		if len(list) == 0 {
			p.para(style.Dim, 0, say.NothingOpen)
			return
		}
		p.para(style.Dim, 0, say.StillOpenHow)
		until := ""
		for _, x := range list {
			if x.Until != until {
				until = x.Until
				p.blank()
				p.line(style.Title, "Decide "+until)
			}
			tone, now := style.Plain, ""
			if x.Now {
				tone, now = style.Chosen, "  (as it is)"
			}
			p.para(tone, 2, x.What+now)
			p.para(style.Dim, 6, report.StillOpenText(x, s.options()))
		}
	}}
}
