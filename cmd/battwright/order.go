package main

import (
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
)

func runOrder(o options, e env) int {
	if o.ask && o.format != "text" && o.format != "markdown" {
		return usage(e, "--ask is a sheet to write on; want --format text or markdown")
	}
	w, code := open(o, o.files, e)
	if code != exitDone {
		return code
	}
	nothing := false
	code = o.printEach(w, false, "battwright order my-house.toml", e, func(h *house.House, p plan.Plan) (string, bool, error) {
		made := order.Make(p, w.answered(h))
		text, err := o.renderOrder(w, made, p)
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

func (o options) renderOrder(w opened, made order.Order, p plan.Plan) (string, error) {
	opts := w.pageOptions(o)
	if o.format == "csv" {
		return pages.OrderCSV(made, opts)
	}
	return o.rendered(func() ([]byte, error) { return pages.OrderJSON(made, p, opts, len(w.houses) > 1) }, func() (page.Page, error) {
		if o.ask {
			return pages.AskPage(made, p, opts), nil
		}
		return pages.OrderPage(made, p, opts), nil
	})
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
