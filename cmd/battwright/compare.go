package main

import (
	"fmt"

	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
)

// runCompare sets the saved plans of a house beside the plan of now.
func runCompare(o options, e env) int {
	if len(o.files) > 1 {
		return usage(e, "compare takes one house file; its saved plans are compared")
	}
	w, code := open(o, o.files, e)
	if code != exitDone {
		return code
	}
	h := w.houses[0]
	variants := o.variants
	if len(variants) == 0 {
		for _, v := range h.Variants {
			variants = append(variants, v.Name)
		}
	}
	if len(variants) == 0 {
		return fail(e, fmt.Errorf("this house holds no saved plan to compare; in the screens: k at the first look keeps one"))
	}
	a := w.answered(h)
	assessed := plan.Assess(a)
	plans := []pages.Named{{Name: "now", Plan: assessed.Weigh(plan.PreferencesOf(a, nil))}}
	for _, name := range variants {
		v, err := variantOf(h, name)
		if err != nil {
			return fail(e, err)
		}
		plans = append(plans, pages.Named{Name: name, Plan: assessed.OfVariant(*v), Was: v.Was})
	}
	_, err := fmt.Fprint(e.stdout, print.Text(pages.ComparePage(plans, w.options()), 0))
	if err != nil {
		return fail(e, err)
	}
	return exitDone
}
