package main

import (
	"fmt"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/tui/draw"
)

func runPlan(o options, e env) int {
	w, code := open(o, o.files, e)
	if code != exitDone {
		return code
	}
	return o.printEach(w, o.format != "csv", "battwright, or battwright plan my-house.toml", e, func(h *house.House, p plan.Plan) (string, bool, error) {
		text, err := o.renderPlan(w, h, p)
		return text, fallsShort(p), err
	})
}

func parsePriorities(l *house.QuestionList, args []string) (map[string]float64, error) {
	out := map[string]float64{}
	for _, a := range args {
		key, value, ok := strings.Cut(a, "=")
		q, known := l.Find("priorities." + key)
		if !ok || !known {
			return nil, fmt.Errorf("--priority %q; want one like cost=5, with %s", a, strings.Join(priorityIDs(l), ", "))
		}
		answer, err := q.Parse(value)
		if err != nil || answer.State != house.Given {
			return nil, fmt.Errorf("--priority %q; want a whole number from 0 to 5", a)
		}
		out[key] = answer.Number
	}
	return out, nil
}

func priorityIDs(l *house.QuestionList) []string {
	var out []string
	for _, q := range l.In(house.Priorities, "") {
		out = append(out, q.Key)
	}
	return out
}

// printEach prints the houses one after the other. What prints one tells too
// whether it falls short of what --strict asks; thorough is all of the plan, hint
// how to start with a house of one's own.
func (o options) printEach(w opened, thorough bool, hint string, e env, one func(*house.House, plan.Plan) (string, bool, error)) int {
	var b strings.Builder
	anyShort := false
	for i, h := range w.houses {
		p, err := w.plan(h, thorough)
		if err != nil {
			return fail(e, err)
		}
		text, short, err := one(h, p)
		if err != nil {
			return fail(e, err)
		}
		if i > 0 && o.format != "json" {
			b.WriteString("\n\n")
		}
		b.WriteString(text)
		anyShort = anyShort || short
	}
	if len(o.files) == 0 && o.format == "text" {
		b.WriteString("\nThis is an invented demo house. For your own: " + hint + "\n")
	}
	if code := o.print(b.String(), e); code != exitDone {
		return code
	}
	if o.strict && anyShort {
		return exitShort
	}
	return exitDone
}

func (o options) renderPlan(w opened, h *house.House, p plan.Plan) (string, error) {
	opts := w.options()
	if o.picture {
		opts.Draw = drawer(opts.Catalog, opts.System)
	}
	if o.format == "csv" {
		return pages.CSV(p, opts)
	}
	return o.rendered(func() ([]byte, error) {
		made := order.Make(p, w.answered(h))
		opts.Order = &made
		return pages.JSON(p, opts, len(w.houses) > 1)
	}, func() (page.Page, error) { return pages.PlanPage(p, opts), nil })
}

// drawer makes the drawings of a place for a printed report: plain signs, so
// that they print anywhere, each after the sentence that says the same.
func drawer(c *catalog.Catalog, sys units.System) func(plan.Place, int) []string {
	return func(p plan.Place, width int) []string {
		tool := draw.Tool{Catalog: c, System: sys, ASCII: true, Width: width}
		var out []string
		if d, ok := tool.Layers(p); ok {
			out = append(append(out, d.Lines...), "")
		}
		if d, ok := tool.Months(p); ok {
			out = append(append(out, print.Wrap(d.Sentence, width)...), "")
			out = append(out, d.Lines...)
		}
		return out
	}
}

// fallsShort is what --strict looks at: nothing to judge, something to find out
// or settle first, of the house (the climate zone, the figures of the drawings,
// answers that disagree) or of a place, a place without a plan, or a choice that
// misses its target without the builder having accepted that. A board that is
// still to be bought, like the blankets, is no shortfall: the plan names it.
func fallsShort(p plan.Plan) bool {
	if len(p.Places) == 0 || len(p.First()) > 0 {
		return true
	}
	for _, place := range p.Places {
		if place.Stopped() || len(place.Asks())+len(place.Settles()) > 0 {
			return true
		}
		if place.Target.Idle {
			continue // nothing is asked there
		}
		if place.Choice == nil || !place.Choice.Heat.MeetsTarget && !place.Surface.Waived {
			return true
		}
	}
	return false
}
