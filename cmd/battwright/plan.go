package main

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/rules/units"
	"battwright/tui/draw"
)

// planFlags are the options of the plan command.
type planFlags struct {
	format, out, variant, dataDir, system string
	force, strict, picture                bool
	priorities                            []string
	order                                 *order.Order // of the house being printed, for JSON
}

type stringList []string

func (s *stringList) String() string     { return strings.Join(*s, ", ") }
func (s *stringList) Set(v string) error { *s = append(*s, v); return nil }

func runPlan(args []string, e env) int {
	var o planFlags
	f := newFlags("plan")
	f.StringVar(&o.format, "format", "text", "")
	f.StringVar(&o.out, "out", "", "")
	f.BoolVar(&o.force, "force", false, "")
	f.StringVar(&o.variant, "variant", "", "")
	f.StringVar(&o.dataDir, "data", "", "")
	f.StringVar(&o.system, "units", "us", "")
	f.BoolVar(&o.strict, "strict", false, "")
	f.BoolVar(&o.picture, "picture", false, "")
	f.Var((*stringList)(&o.priorities), "priority", "")
	files, err := parseFlags(f, args)
	if err != nil {
		return flagProblem(e, "plan", err)
	}
	if !knownFormat(o.format) {
		return usage(e, "--format %q; want %s", o.format, strings.Join(formats, ", "))
	}
	if o.system != "us" && o.system != "si" {
		return usage(e, "--units %q; want us or si", o.system)
	}
	c, err := loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	l := house.NewList(c)
	levels, err := parsePriorities(l, o.priorities)
	if err != nil {
		return usage(e, "%v", err)
	}
	houses, err := readHouses(l, files, e)
	if err != nil {
		return fail(e, err)
	}
	return printPlans(houses, files, l, levels, o, e)
}

// readHouses reads all files and reports the problems of all of them.
func readHouses(l *house.QuestionList, files []string, e env) ([]*house.House, error) {
	if len(files) == 0 {
		h, err := demoHouse(l)
		return []*house.House{h}, err
	}
	var houses []*house.House
	var errs []error
	for _, path := range files {
		h, err := readHouse(l, path, e.stdin)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		houses = append(houses, h)
	}
	return houses, errors.Join(errs...)
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

func printPlans(houses []*house.House, files []string, l *house.QuestionList, levels map[string]float64, o planFlags, e env) int {
	var b strings.Builder
	short := false
	for i, h := range houses {
		p, err := planOf(h, l, levels, o.variant, systemOf(o.system))
		if err != nil {
			return fail(e, err)
		}
		if o.format == "json" {
			made := order.Make(p, house.Answered{List: l, House: h})
			o.order = &made
		}
		text, err := render(p, l.Catalog(), o, len(houses) > 1)
		if err != nil {
			return fail(e, err)
		}
		if i > 0 && o.format != "json" {
			b.WriteString("\n\n")
		}
		b.WriteString(text)
		short = short || fallsShort(p)
	}
	if len(files) == 0 && o.format == "text" {
		b.WriteString("\nThis is an invented demo house. For your own: battwright, or battwright plan my-house.toml\n")
	}
	if code := output(b.String(), o, e); code != exitDone {
		return code
	}
	if o.strict && short {
		return exitShort
	}
	return exitDone
}

func planOf(h *house.House, l *house.QuestionList, levels map[string]float64, variant string, sys units.System) (plan.Plan, error) {
	a := house.Answered{List: l, House: h, System: sys}
	var v *house.Variant
	if variant != "" {
		if v = h.Variant(variant); v == nil {
			return plan.Plan{}, fmt.Errorf("no saved plan is called %q in this house; it has: %s", variant, variantNames(h))
		}
	}
	prefs := plan.PreferencesOf(a, v)
	for k, level := range levels {
		prefs.Priorities[k] = level
	}
	assessed := plan.Assess(a)
	p := assessed.Weigh(prefs)
	p.Unknown = assessed.FindOut(prefs, p)
	p.NearClimate = assessed.NearClimates(prefs, p)
	return p, nil
}

func variantNames(h *house.House) string {
	if len(h.Variants) == 0 {
		return "none"
	}
	names := make([]string, len(h.Variants))
	for i, v := range h.Variants {
		names[i] = v.Name
	}
	return strings.Join(names, ", ")
}

func render(p plan.Plan, c *catalog.Catalog, o planFlags, several bool) (string, error) {
	opts := report.Options{Catalog: c, System: systemOf(o.system), Order: o.order}
	if o.picture {
		opts.Draw = drawer(c, opts.System)
	}
	switch o.format {
	case "markdown":
		return report.Markdown(p, opts), nil
	case "csv":
		return report.CSV(p, opts)
	case "json":
		b, err := report.JSON(p, opts, several)
		return string(b), err
	}
	return report.Text(p, opts), nil
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
			out = append(append(out, report.Wrap(d.Sentence, width)...), "")
			out = append(out, d.Lines...)
		}
		return out
	}
}

func systemOf(s string) units.System {
	if s == "si" {
		return units.SI
	}
	return units.US
}

// fallsShort is what --strict looks at: a place without a plan, or a choice
// that misses its target without the builder having accepted that.
func fallsShort(p plan.Plan) bool {
	for _, place := range p.Places {
		if place.Stopped != "" || place.Choice == nil {
			return true
		}
		if !place.Choice.Heat.MeetsTarget && !place.Surface.Waived {
			return true
		}
	}
	return false
}

func output(text string, o planFlags, e env) int {
	if o.out == "" {
		if _, err := fmt.Fprint(e.stdout, text); err != nil {
			return fail(e, err)
		}
		return exitDone
	}
	err := writeResult(o.out, text, o.force)
	if errors.Is(err, fs.ErrExist) {
		return fail(e, fmt.Errorf("%s is there already; add --force to overwrite it", o.out))
	}
	if err != nil {
		return fail(e, fmt.Errorf("%s: %w", o.out, plainPathError(err)))
	}
	return exitDone
}
