package main

import (
	"flag"
	"fmt"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/report"
)

// orderFlags are the options of the order command: those of a plan, and the
// asking sheet.
type orderFlags struct {
	planFlags
	ask   bool
	width int
}

func runOrder(args []string, e env) int {
	var o orderFlags
	f := o.flags()
	files, err := parseFlags(f, args)
	if err != nil {
		return flagProblem(e, "order", err)
	}
	switch {
	case !knownFormat(o.format):
		return usage(e, "--format %q; want %s", o.format, strings.Join(formats, ", "))
	case o.system != "us" && o.system != "si":
		return usage(e, "--units %q; want us or si", o.system)
	case o.width < leastWidth || o.width > mostWidth:
		return usage(e, "--width %d; want %d to %d, usually 40 or 80", o.width, leastWidth, mostWidth)
	case o.ask && o.format != "text" && o.format != "markdown":
		return usage(e, "--ask is a sheet to write on; want --format text or markdown")
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
	return printOrders(houses, files, l, levels, o, e)
}

func (o *orderFlags) flags() *flag.FlagSet {
	f := newFlags("order")
	f.StringVar(&o.format, "format", "text", "")
	f.StringVar(&o.out, "out", "", "")
	f.BoolVar(&o.force, "force", false, "")
	f.StringVar(&o.variant, "variant", "", "")
	f.StringVar(&o.dataDir, "data", "", "")
	f.StringVar(&o.system, "units", "us", "")
	f.BoolVar(&o.strict, "strict", false, "")
	f.BoolVar(&o.ask, "ask", false, "")
	f.IntVar(&o.width, "width", 78, "")
	f.Var((*stringList)(&o.priorities), "priority", "")
	return f
}

func printOrders(houses []*house.House, files []string, l *house.QuestionList, levels map[string]float64, o orderFlags, e env) int {
	var b strings.Builder
	short := false
	for i, h := range houses {
		p, err := planOf(h, l, levels, o.variant, systemOf(o.system))
		if err != nil {
			return fail(e, err)
		}
		made := order.Make(p, house.Answered{List: l, House: h})
		text, err := renderOrder(made, p, l.Catalog(), o, len(houses) > 1)
		if err != nil {
			return fail(e, err)
		}
		if i > 0 && o.format != "json" {
			b.WriteString("\n\n")
		}
		b.WriteString(text)
		short = short || notReady(made)
	}
	if len(files) == 0 && o.format == "text" {
		fmt.Fprintf(&b, "\nThis is an invented demo house. For your own: battwright order my-house.toml\n")
	}
	if code := output(b.String(), o.planFlags, e); code != exitDone {
		return code
	}
	if o.strict && short {
		return exitShort
	}
	return exitDone
}

func renderOrder(made order.Order, p plan.Plan, c *catalog.Catalog, o orderFlags, several bool) (string, error) {
	opts := report.Options{Catalog: c, System: systemOf(o.system), Width: o.width}
	switch {
	case o.ask && o.format == "markdown":
		return report.AskMarkdown(made, p, opts), nil
	case o.ask:
		return report.AskText(made, p, opts), nil
	}
	switch o.format {
	case "markdown":
		return report.OrderMarkdown(made, p, opts), nil
	case "csv":
		return report.OrderCSV(made, opts)
	case "json":
		b, err := report.OrderJSON(made, p, opts, several)
		return string(b), err
	}
	return report.OrderText(made, p, opts), nil
}

// notReady is what --strict looks at: a place that cannot be ordered, or a
// size that nobody confirmed.
func notReady(o order.Order) bool {
	for _, p := range o.Places {
		if p.Skipped != "" || p.Problem != "" || p.NotMeasured() {
			return true
		}
	}
	return false
}
