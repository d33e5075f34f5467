package pages

import (
	"fmt"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// WhyNotLines says of every other material why it was not chosen: the rule
// that takes it out with its source, or the two largest differences and the
// smallest single change that would make it the choice.
func WhyNotLines(p plan.Place, o Options) []Line {
	var out []Line
	for _, w := range p.WhyNots() {
		e := p.EntryOf(w.Material)
		if e == nil {
			continue
		}
		out = append(out, Line{"Why not " + e.Name + "?", whyNotText(p, w, *e, o)})
	}
	return out
}

func whyNotText(p plan.Place, w plan.WhyNot, e plan.Entry, o Options) string {
	if w.Excluded {
		parts := WhyOut(e)
		for _, h := range e.Verdict.Excluded {
			parts = append(parts, "["+h.Rule.ID+": "+sourceOf(o, h.Rule.Source)+"]")
		}
		return strings.Join(parts, " ")
	}
	var parts []string
	if w.Short {
		parts = append(parts, fmt.Sprintf("It falls short of the target by %s, and the R-value is always kept.", o.System.R(e.Heat.ShortByR)))
	}
	if w.Damper {
		parts = append(parts, "It gets damp here and the choice does not; no priority and no budget changes that.")
	}
	if w.Below {
		parts = append(parts, "A rule always ranks it below here.")
	}
	for i, g := range w.Gaps {
		head := "It loses"
		if i > 0 {
			head = "And"
		}
		parts = append(parts, fmt.Sprintf("%s %.0f points on %s (%s; the choice %s).", head, g.Points, o.Catalog.Criteria[g.Priority].Name, rawText(e.Assessed, g.Priority, o), rawText(p.Choice.Assessed, g.Priority, o)))
	}
	if w.Gains != nil {
		parts = append(parts, fmt.Sprintf("It gains %.0f on %s.", w.Gains.Points, o.Catalog.Criteria[w.Gains.Priority].Name))
	}
	switch {
	case w.Wins != nil:
		parts = append(parts, fmt.Sprintf("It would win with %s at %d instead of %g%s.", o.Catalog.Criteria[w.Wins.Priority].Name, w.Wins.To, w.Wins.From, ifAfforded(p, e)))
	case !w.Short && !w.Below && !w.Damper && p.Best == nil && p.Surface.Pin == "":
		parts = append(parts, "No single priority makes it win.")
	}
	return strings.Join(parts, " ")
}

// rawText is the measured figure behind a value, in its unit.
func rawText(a candidate.Assessed, criterion int, o Options) string {
	if criterion >= len(a.Values) {
		return ""
	}
	return measured(o.Catalog.Criteria[criterion], a.Values[criterion], o.System)
}

func sourceOf(o Options, id string) string {
	if s, ok := o.Catalog.Source(id); ok {
		return s.Title
	}
	return id
}

// MindText says one change of a priority and what it turns.
func MindText(m plan.MindChange, o Options) string {
	return fmt.Sprintf("With %s at %g instead of %g: %s", o.Catalog.Criteria[m.Priority].Name, m.To, m.From, ChangeText(m.Changes, o.System))
}

func measured(k catalog.Criterion, v candidate.Measure, s units.System) string {
	if len(v.Detail) == 0 {
		if k.ID == "cost" {
			return s.CentsForR(v.Raw.Typical)
		}
		return fmt.Sprintf("%.0f %s", v.Raw.Typical, k.Unit)
	}
	parts := make([]string, len(v.Detail))
	for i, d := range v.Detail {
		switch {
		case d.Unit != catalog.AlarmUnit:
			parts[i] = s.Measured(d.Raw, d.Unit)
		case d.Raw > 0:
			parts[i] = "gets wet or molds"
		default:
			parts[i] = "no damp found"
		}
	}
	return strings.Join(parts, "; ")
}
