package pages

import (
	"fmt"

	"battwright/rules/bill"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
)

// PlanFile is the recommendation in the form of a file: txt, md, json or csv.
func PlanFile(p plan.Plan, made order.Order, ext string, o Options) (string, error) {
	switch ext {
	case "md":
		return print.Markdown(PlanPage(p, o)), nil
	case "json":
		o.Order = &made
		b, err := JSON(p, o, false)
		return string(b), err
	case "csv":
		return CSV(p, o)
	}
	return print.Text(PlanPage(p, o), o.Width), nil
}

// OrderLineName names a blanket of the order: fiber, R, face and width.
func OrderLineName(l bill.Line, s units.System) string {
	return fmt.Sprintf("%s %s, %s, %s wide", l.Material.Name, s.R(l.Product.NominalR), FaceWord(l.Facing), s.Inches(l.WidthIn))
}

// narrowWidth is that of a telephone.
const narrowWidth = 40

// OrderFile is the order in the form of a file: what is order, ask for the
// asking sheet, or ask-narrow for the same on a telephone.
func OrderFile(made order.Order, p plan.Plan, what, ext string, o Options) (string, error) {
	switch {
	case what == "ask-narrow":
		return print.Text(AskPage(made, p, o), narrowWidth), nil
	case what == "ask":
		return print.Text(AskPage(made, p, o), o.Width), nil
	case ext == "md":
		return print.Markdown(OrderPage(made, p, o)), nil
	case ext == "csv":
		return OrderCSV(made, o)
	case ext == "json":
		b, err := OrderJSON(made, p, o, false)
		return string(b), err
	}
	return print.Text(OrderPage(made, p, o), o.Width), nil
}
