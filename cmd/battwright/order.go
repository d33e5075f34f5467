package main

import (
	"flag"

	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
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
	switch problem := o.check(); {
	case problem != "":
		return usage(e, "%s", problem)
	case o.width < leastWidth || o.width > mostWidth:
		return usage(e, "--width %d; want %d to %d, usually 40 or 80", o.width, leastWidth, mostWidth)
	case o.ask && o.format != "text" && o.format != "markdown":
		return usage(e, "--ask is a sheet to write on; want --format text or markdown")
	}
	o.madeFrom(files, o.dataDir)
	w, code := open(o.openFlags, files, e)
	if code != exitDone {
		return code
	}
	nothing := false
	code = o.printEach(w, files, "battwright order my-house.toml", e, func(h *house.House, p plan.Plan) (string, bool, error) {
		made := order.Make(p, w.answered(h))
		text, err := o.render(w, made, p)
		nothing = nothing || ordersNothing(made)
		return text, notReady(made), err
	})
	if code == exitDone && nothing {
		return exitShort
	}
	return code
}

// ordersNothing is true of a house with places of which none gets a line: there
// is no order, however politely that is printed.
func ordersNothing(o order.Order) bool { return len(o.Places) > 0 && len(o.Lines) == 0 }

func (o *orderFlags) flags() *flag.FlagSet {
	f := newFlags("order")
	o.declare(f)
	f.BoolVar(&o.ask, "ask", false, "")
	f.IntVar(&o.width, "width", 78, "")
	return f
}

func (o orderFlags) render(w opened, made order.Order, p plan.Plan) (string, error) {
	opts := w.options()
	opts.Width = o.width
	switch {
	case o.ask:
		return print.As(o.format, pages.AskPage(made, p, opts), o.width), nil
	case o.format == "csv":
		return pages.OrderCSV(made, opts)
	case o.format == "json":
		b, err := pages.OrderJSON(made, p, opts, len(w.houses) > 1)
		return string(b), err
	}
	return print.As(o.format, pages.OrderPage(made, p, opts), o.width), nil
}

// notReady is what --strict looks at: something to find out or settle first, of
// the house or of a place, a place that cannot be ordered, or a size that nobody
// confirmed.
func notReady(o order.Order) bool {
	if len(o.First) > 0 {
		return true
	}
	for _, p := range o.Places {
		if len(p.FindFirst)+len(p.Settle) > 0 {
			return true
		}
		if p.Skipped != "" && !p.Idle || p.Problem != "" || !p.Idle && p.NotMeasured() {
			return true
		}
	}
	return false
}
