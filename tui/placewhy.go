package tui

import (
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/tui/style"
)

func rankRows(p *page, s *session, pl plan.Place) {
	for i, r := range report.RankRows(pl, s.options()) {
		label := ""
		if i == 0 {
			label = "Ranks"
		}
		if r.Rank == "" {
			p.labelled(style.Dim, label, labelColumn, r.Text())
			continue
		}
		p.labelled(style.Plain, label, labelColumn, r.Rank+". "+r.Text())
	}
}

// why shows the ranking, the points of each material by priority, and every
// reason with the rule it comes from.
func (x *placePage) why(p *page, s *session, pl plan.Place) {
	p.para(style.Dim, 0, "Why this one, and why not the others. Every reason names its rule in brackets.")
	p.blank()
	rankRows(p, s, pl)
	if text := report.SureNumbers(pl, s.options()); text != "" {
		p.labelled(style.Dim, "Sure", labelColumn, text)
	}
	for _, l := range report.MoreLines(pl, s.options()) {
		p.labelled(style.Dim, l.Label, labelColumn, l.Text)
	}
	for _, l := range report.WhyNotLines(pl, s.options()) {
		p.blank()
		p.line(style.Title, l.Label)
		p.para(style.Plain, 2, l.Text)
	}
	p.blank()
	p.line(style.Title, "The numbers, by priority")
	for _, e := range pl.Entries {
		p.blank()
		p.line(style.Title, e.Name)
		if !e.Usable() {
			for _, why := range report.WhyOut(e) {
				p.para(style.Warn, 2, why)
			}
			for _, h := range e.Verdict.Excluded {
				p.para(style.Dim, 4, "["+h.Rule.ID+"] "+sourceTitle(s, h.Rule.Source))
			}
			continue
		}
		for _, l := range report.Detail(pl, e, s.options()) {
			p.labelled(style.Dim, "  "+l.Label, 24, l.Text)
		}
		for _, h := range e.Verdict.For {
			p.para(style.Plain, 2, "+ "+h.Text+" ["+h.Rule.ID+"]")
		}
		for _, h := range e.Verdict.Against {
			p.para(style.Plain, 2, "- "+h.Text+" ["+h.Rule.ID+"]")
		}
	}
	unfitRows(p, s, pl)
}

// unfitRows come last: they are many, and few people need them.
func unfitRows(p *page, s *session, pl plan.Place) {
	lines := report.UnfitLines(pl, s.options())
	if len(lines) == 0 {
		return
	}
	p.blank()
	p.line(style.Title, "Blankets that do not fit here")
	for _, l := range lines {
		p.para(style.Dim, 2, l)
	}
}

func sourceTitle(s *session, id string) string {
	if src, ok := s.catalog().Source(id); ok {
		return src.Title
	}
	return id
}

func (x *placePage) how(p *page, s *session, pl plan.Place) {
	p.line(style.Title, "Care")
	for _, c := range report.Cautions(pl, s.options()) {
		p.para(style.Warn, 2, "! "+c)
	}
	steps := report.Steps(pl)
	if len(steps) > 0 {
		p.blank()
		p.line(style.Title, "How")
	}
	for _, h := range steps {
		p.para(style.Plain, 2, s.g.Dot+" "+h)
	}
	for _, n := range pl.Target.Notes {
		p.para(style.Dim, 2, n)
	}
	p.blank()
	p.para(style.Dim, 0, report.Closing)
}
