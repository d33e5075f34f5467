package pages

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// Named is a plan with the name it was kept under.
type Named struct {
	Name string
	Plan plan.Plan
	Was  map[string]string // what it chose when it was kept
}

// ComparePage sets plans of one house beside each other: what differs and why,
// the cost, the heat and the damp. The first is the one the others are held
// against.
func ComparePage(plans []Named, o Options) page.Page {
	d := page.Page{Title: "Saved plans side by side"}
	if len(plans) == 0 {
		return d
	}
	head := d.Block("")
	for i, n := range plans {
		head.Say("%d. %s: %s", i+1, n.Name, prioritiesText(n.Plan))
		if since := SinceKept(n.Was, n.Plan); since != "" {
			head.Sub("since it was kept: %s", since)
		}
		head.Sub("about %s, most likely %s; loses about %s of heat a year; %s", o.System.MoneyRange(n.Plan.Bill.Money.Total), moneyOf(n.Plan.Bill.Money.Total, o.System), o.System.Energy(heatOf(n.Plan)), dampCount(n.Plan))
	}
	places := d.Block("Place by place")
	for i, p := range plans[0].Plan.Places {
		places.Say("%s", p.Surface.Label)
		for k, n := range plans {
			if i < len(n.Plan.Places) {
				places.Sub("%d. %s", k+1, compareCell(n.Plan.Places[i], o))
			}
		}
	}
	differs := d.Block("What differs from the first")
	for k, n := range plans[1:] {
		differs.Add(page.Row{Lead: fmt.Sprintf("%d.", k+2), Text: ChangeText(plan.Changes(plans[0].Plan, n.Plan), o.System)})
	}
	d.Blocks = page.Full(d.Blocks)
	return d
}

func compareCell(p plan.Place, o Options) string {
	switch {
	case p.Stopped():
		return "STOP, no plan as it stands"
	case p.Target.Idle:
		return NothingText(p)
	case p.Choice == nil:
		return "no plan as it stands"
	}
	text := ""
	if len(p.Asks()) > 0 {
		text = "find out first what the plan asks about it; "
	}
	if brief := settleBrief(p); brief != "" {
		text += brief + " "
	}
	if p.Surface.Kind.BesideChimney {
		text += "KEEP THE GAP EMPTY; "
	}
	text += ShortProduct(p.Choice.Assessed, o.System) + ", " + o.System.MoneyRange(p.Cost.Total)
	if !p.Choice.Heat.MeetsTarget {
		text += ", short by " + o.System.R(p.Choice.Heat.ShortByR)
	}
	return text + strings.ReplaceAll(DampAtAGlance(p), "; ", ", ")
}

func heatOf(p plan.Plan) float64 {
	sum := units.Range[float64]{}
	for _, place := range p.Places {
		if place.Choice != nil {
			sum = sum.Plus(place.Choice.Heat.LossMMBtu)
		}
	}
	return sum.Typical
}

func dampCount(p plan.Plan) string {
	bad := 0
	for _, place := range p.Places {
		if place.Choice != nil && place.Choice.Damp.Alarm() {
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

// Kept says in words what each place of a plan gets, to be kept with a saved
// plan. It is written in US units whatever is shown, so that it can be told
// later whether anything changed.
func Kept(p plan.Plan) map[string]string {
	out := map[string]string{}
	for _, place := range p.Places {
		text := "no plan"
		if place.Choice != nil {
			text = ShortProduct(place.Choice.Assessed, units.US)
		}
		out[place.Surface.ID] = text
	}
	return out
}

// SinceKept says what is different now from what a saved plan chose when it
// was kept, empty when nothing is or nothing was kept.
func SinceKept(was map[string]string, p plan.Plan) string {
	if len(was) == 0 {
		return ""
	}
	now := Kept(p)
	var parts []string
	for _, place := range p.Places {
		id := place.Surface.ID
		old, ok := was[id]
		switch {
		case !ok:
			parts = append(parts, place.Surface.Label+" is new")
		case old != now[id]:
			parts = append(parts, fmt.Sprintf("%s was %s", place.Surface.Label, old))
		}
	}
	gone := 0
	for id := range was {
		if _, ok := now[id]; !ok {
			gone++
		}
	}
	if gone > 0 {
		parts = append(parts, fmt.Sprintf("%d of its places are gone", gone))
	}
	return strings.Join(parts, "; ")
}

// VariantText says what a saved plan would change against the plan shown, and
// what it chose otherwise when it was kept.
func VariantText(shown, other plan.Plan, v house.Variant, s units.System) string {
	since := SinceKept(v.Was, other)
	if since != "" {
		since = " Since it was kept: " + since + "."
	}
	return fmt.Sprintf("about %s. %s", moneyOf(other.Bill.Money.Total, s), ChangeText(plan.Changes(shown, other), s)) + since
}

// BudgetChange says what became of the budget when a saved plan was put in
// place, empty where it is what it was.
func BudgetChange(before, after plan.Preferences, s units.System) string {
	was, is := budgetText(before, s), budgetText(after, s)
	switch {
	case was == is:
		return ""
	case is == "":
		return "The budget, " + was + ", is gone: this plan was kept without one."
	case was == "":
		return "The budget is now " + is + "."
	}
	return "The budget is now " + is + "; it was " + was + "."
}

func budgetText(p plan.Preferences, s units.System) string {
	switch {
	case !p.HasBudget:
		return ""
	case p.Spend:
		return s.Money(p.Budget) + " to spend"
	}
	return s.Money(p.Budget) + " as a limit"
}
