package main

import (
	"flag"
	"fmt"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/tui/draw"
)

// planFlags are the options of the plan command, most of which the order has
// too.
type planFlags struct {
	openFlags
	outFlags
	format          string
	strict, picture bool
	thorough        bool // all of the plan is printed
}

func (o *planFlags) declare(f *flag.FlagSet) {
	o.openFlags.declare(f)
	o.declareWeights(f)
	o.outFlags.declare(f)
	f.StringVar(&o.format, "format", "text", "")
	f.BoolVar(&o.strict, "strict", false, "")
}

// check finds what is wrong with the options, empty when nothing is.
func (o planFlags) check() string {
	if !knownFormat(o.format) {
		return fmt.Sprintf("--format %q; want %s", o.format, strings.Join(formats, ", "))
	}
	return o.wrongUnits()
}

type stringList []string

func (s *stringList) String() string     { return strings.Join(*s, ", ") }
func (s *stringList) Set(v string) error { *s = append(*s, v); return nil }

func runPlan(args []string, e env) int {
	var o planFlags
	f := newFlags("plan")
	o.declare(f)
	f.BoolVar(&o.picture, "picture", false, "")
	files, err := parseFlags(f, args)
	if err != nil {
		return flagProblem(e, "plan", err)
	}
	if problem := o.check(); problem != "" {
		return usage(e, "%s", problem)
	}
	o.madeFrom(files, o.dataDir)
	w, code := open(o.openFlags, files, e)
	if code != exitDone {
		return code
	}
	o.thorough = o.format != "csv"
	return o.printEach(w, files, "battwright, or battwright plan my-house.toml", e, func(h *house.House, p plan.Plan) (string, bool, error) {
		text, err := o.render(w, h, p)
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
// whether it falls short of what --strict asks; hint is how to start with a
// house of one's own.
func (o planFlags) printEach(w opened, files []string, hint string, e env, one func(*house.House, plan.Plan) (string, bool, error)) int {
	var b strings.Builder
	anyShort := false
	for i, h := range w.houses {
		p, err := w.plan(h, o.thorough)
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
	if len(files) == 0 && o.format == "text" {
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

func (o planFlags) render(w opened, h *house.House, p plan.Plan) (string, error) {
	opts := w.options()
	if o.picture {
		opts.Draw = drawer(opts.Catalog, opts.System)
	}
	switch o.format {
	case "csv":
		return pages.CSV(p, opts)
	case "json":
		made := order.Make(p, w.answered(h))
		opts.Order = &made
		b, err := pages.JSON(p, opts, len(w.houses) > 1)
		return string(b), err
	}
	return print.As(o.format, pages.PlanPage(p, opts), opts.Width), nil
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
