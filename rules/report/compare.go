package report

import (
	"fmt"

	"battwright/rules/candidate"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// Named is a plan with the name it was kept under.
type Named struct {
	Name string
	Plan plan.Plan
}

// Compare sets plans of one house beside each other: what differs and why,
// the cost, the heat and the damp. The first is the one the others are held
// against.
func Compare(plans []Named, o Options) []string {
	var t writer
	t.width = o.Width
	if t.width <= 0 {
		t.width = textWidth
	}
	t.heading("SAVED PLANS SIDE BY SIDE", "=")
	for i, n := range plans {
		t.para(fmt.Sprintf("%d. %s: %s", i+1, n.Name, prioritiesText(n.Plan)))
		t.labelled("", fmt.Sprintf("%s, most likely about %s; loses about %s of heat a year; %s", o.System.MoneyRange(n.Plan.Money.Total), o.System.Money(n.Plan.Money.Total.Typical), o.System.Energy(heatOf(n.Plan)), dampCount(n.Plan)))
	}
	if len(plans) == 0 {
		return nil
	}
	t.heading("PLACE BY PLACE", "-")
	for i, p := range plans[0].Plan.Places {
		t.para(p.Surface.Label)
		for k, n := range plans {
			if i < len(n.Plan.Places) {
				t.labelled(fmt.Sprintf("  %d.", k+1), compareCell(n.Plan.Places[i], o))
			}
		}
	}
	t.heading("WHAT DIFFERS FROM THE FIRST", "-")
	for k, n := range plans[1:] {
		t.labelled(fmt.Sprintf("  %d.", k+2), ChangeText(plan.Changes(plans[0].Plan, n.Plan), o.System))
	}
	return splitText(t.String())
}

func compareCell(p plan.Place, o Options) string {
	if p.Choice == nil || p.Stopped != "" {
		return "no plan as it stands"
	}
	text := ShortProduct(p.Choice.Assessed, o.System) + ", " + o.System.MoneyRange(p.Choice.Money.Total)
	if !p.Choice.Heat.MeetsTarget {
		text += ", short by " + o.System.R(p.Choice.Heat.ShortByR)
	}
	return text
}

func heatOf(p plan.Plan) float64 {
	sum := units.Range[float64]{}
	for _, place := range p.Places {
		if place.Choice != nil && place.Stopped == "" {
			sum = sum.Plus(place.Choice.Heat.LossMMBtu)
		}
	}
	return sum.Typical
}

func dampCount(p plan.Plan) string {
	bad := 0
	for _, place := range p.Places {
		if place.Choice != nil && (place.Choice.Damp.Verdict == candidate.MoldRisk || place.Choice.Damp.Verdict == candidate.StaysWet) {
			bad++
		}
	}
	switch bad {
	case 0:
		return "no place fails the damp check"
	case 1:
		return "1 place fails the damp check"
	}
	return fmt.Sprintf("%d places fail the damp check", bad)
}

func splitText(s string) []string {
	var out []string
	start := 0
	for i := range len(s) {
		if s[i] == '\n' {
			out, start = append(out, s[start:i]), i+1
		}
	}
	return out
}
