package pages

import (
	"fmt"

	"battwright/rules/page"
	"battwright/rules/plan"
)

// FindOutPage lists what is unknown, most plan-changing first, whose weather is
// used, and what is assumed. p has the near climates filled in.
func FindOutPage(p plan.Plan, open []plan.Said, o Options) page.Page {
	d := page.Page{Title: "Find-out list"}
	b := d.Block("")
	b.Add(page.Row{Tone: page.Quiet, Text: "What is not known yet. MATTERS: another answer changes the plan. The rest leaves the blankets as they are, as far as was tried: a year of damp is not worked out for every answer."})
	for _, pl := range p.Places {
		for _, text := range pl.Heads(o.Catalog, o.System) {
			b.Item(page.Stop, pl.Surface.Label+": "+text)
		}
	}
	for i, u := range open {
		row := page.Row{Kind: page.Item, Lead: fmt.Sprintf("%d.", i+1), Text: whereOf(u) + ": " + u.Prompt + " " + effectText(u)}
		if u.Matters {
			row.Tone = page.Care
		}
		b.Add(row)
		if h, ok := o.Catalog.Help(u.Key); ok && h.Ask != "" {
			b.Sub("To ask: %s", h.Ask.In(o.System))
		}
	}
	if len(open) == 0 {
		b.Say("%s", noneOpen(len(p.Assumed)))
	}
	d.Block("Whose weather").Items(page.Quiet, SiteLines(p, o))
	assumed := d.Block("Assumed, or worked out from your other answers")
	for _, a := range p.Assumed {
		assumed.Item(page.Quiet, fmt.Sprintf("%s: %s %s", whereOf(a), a.Prompt, a.Value))
	}
	return d
}

func whereOf(u plan.Said) string {
	if u.Place == "" {
		return "House"
	}
	return u.Label
}

// effectText says what an answer that is not known would change.
func effectText(u plan.Said) string {
	switch {
	case u.Matters:
		return "MATTERS: " + u.Effect
	case u.Effect != "":
		return u.Effect
	}
	return "changes no blanket, as far as was tried"
}

// noneOpen heads the assumptions where no question is open.
func noneOpen(assumed int) string {
	switch assumed {
	case 0:
		return "No open questions, and nothing is assumed."
	case 1:
		return "No open questions. 1 answer is only assumed: see below."
	}
	return fmt.Sprintf("No open questions. %d answers are only assumed: see below.", assumed)
}

// OpenAnswers counts what is not known and what is assumed.
func OpenAnswers(p plan.Plan) string {
	return fmt.Sprintf("%s not known yet, %d assumed", plural(len(p.Unknown), "answer"), len(p.Assumed))
}

// MindPage lists the changes of one priority that change the plan.
func MindPage(list []plan.MindChange, o Options) page.Page {
	d := page.Page{Title: "What would change the plan"}
	b := d.Block("")
	b.Add(page.Row{Tone: page.Quiet, Text: "One priority of the house moved, the others as they are: the nearest level that turns a place."})
	for _, m := range list {
		b.Item(page.Plain, MindText(m, o))
	}
	if len(list) == 0 {
		b.Add(page.Row{Tone: page.Good, Text: "No single priority would change the plan."})
	}
	return d
}

// StillOpenPage compares what can still be changed about a place before it is
// framed: cost, R, fits or not, and the last moment to decide.
func StillOpenPage(p plan.Place, list []plan.Open, o Options) page.Page {
	d := page.Page{Title: p.Surface.Label + ": what can still be changed"}
	b := d.Block("")
	if len(list) == 0 {
		b.Say("Nothing: the house is framed, or this place has no frame of its own to choose.")
		return d
	}
	b.Add(page.Row{Tone: page.Quiet, Text: "Each line changes one thing and leaves the rest. Lumber and board are not in the price; blankets are."})
	until := ""
	for _, x := range list {
		if x.Until != until {
			until = x.Until
			b = d.Block("Decide " + until)
		}
		row := page.Row{Kind: page.Item, Text: x.What}
		if x.Now {
			row.Tone, row.Text = page.Good, x.What+" (as it is)"
		}
		b.Add(row)
		b.Sub("%s", stillOpenText(x, o))
	}
	return d
}

// MoneyPage says what each place gets and costs in the plan, and what holds it.
func MoneyPage(p plan.Plan, o Options) page.Page {
	d := page.Page{Title: "What it costs"}
	b := d.Block("")
	b.Say("%s", MoneyText(p, o.System))
	for _, pl := range p.Places {
		row := page.Row{Kind: page.Item, Label: pl.Surface.Label, Text: Glance(pl, o)}
		if pl.Stopped() || len(pl.Asks())+len(pl.Settles()) > 0 {
			row.Tone = page.Stop
		}
		b.Add(row)
	}
	return d
}

// LadderPage heads the lines of the ladder.
func LadderPage(rungs int, stakes string) page.Page {
	d := page.Page{Title: "What the next dollars buy"}
	b := d.Block("")
	b.Add(page.Row{Tone: page.Quiet, Text: "One line of this ladder is your plan. The others are each the best found for that much money, judged by your other priorities, and no place has fewer points for these than on the line before. The R-value is met wherever a blanket can, and none gets damp where another would not. " + StakesText(stakes)})
	if rungs == 0 {
		b.Loud("There is nothing to buy yet.")
	}
	return d
}
