package pages

import (
	"fmt"

	"battwright/rules/plan"
)

// stillOpenText says in one line what a change before framing would bring: what
// fits then, what it is worth, what it costs, whether the target is met.
func stillOpenText(x plan.Open, o Options) string {
	e := x.Place.Choice
	if e == nil {
		return "nothing fits"
	}
	text := fmt.Sprintf("%s, finished about %s, %s", ShortProduct(e.Assessed, o.System), o.System.R(e.Heat.AssemblyR), o.System.MoneyRange(x.Place.Cost.Total))
	switch {
	case !e.Heat.MeetsTarget:
		text += ", short by " + o.System.R(e.Heat.ShortByR)
	case x.Place.Target.AddR > 0:
		text += ", target met only with " + o.System.R(x.Place.Target.AddR) + " more board"
	case x.Place.Target.Required:
		text += ", target met"
	}
	if e.Heat.EaveShortIn > 0 {
		text += ", thin at the eave"
	}
	return text
}
