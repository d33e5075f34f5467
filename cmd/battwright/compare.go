package main

import (
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/rules/report"
)

// runCompare sets the saved plans of a house beside the plan of now.
func runCompare(args []string, e env) int {
	var dataDir, system string
	var variants []string
	f := newFlags("compare")
	f.StringVar(&dataDir, "data", "", "")
	f.StringVar(&system, "units", "us", "")
	f.Var((*stringList)(&variants), "variant", "")
	files, err := parseFlags(f, args)
	if err != nil {
		return flagProblem(e, "compare", err)
	}
	if len(files) > 1 {
		return usage(e, "compare takes one house file; its saved plans are compared")
	}
	c, err := loadCatalog(dataDir)
	if err != nil {
		return fail(e, err)
	}
	l := house.NewList(c)
	houses, err := readHouses(l, files, e)
	if err != nil {
		return fail(e, err)
	}
	h := houses[0]
	if len(variants) == 0 {
		for _, v := range h.Variants {
			variants = append(variants, v.Name)
		}
	}
	if len(variants) == 0 {
		return fail(e, fmt.Errorf("this house holds no saved plan to compare; in the screens: k at the first look keeps one"))
	}
	a := house.Answered{List: l, House: h, System: systemOf(system)}
	assessed := plan.Assess(a)
	plans := []report.Named{{Name: "now", Plan: assessed.Weigh(plan.PreferencesOf(a, nil))}}
	for _, name := range variants {
		v := h.Variant(name)
		if v == nil {
			return fail(e, fmt.Errorf("no saved plan is called %q in this house; it has: %s", name, variantNames(h)))
		}
		plans = append(plans, report.Named{Name: name, Plan: assessed.Weigh(plan.PreferencesOf(a, v)), Was: v.Was})
	}
	_, err = fmt.Fprint(e.stdout, strings.Join(report.Compare(plans, report.Options{Catalog: c, System: systemOf(system)}), "\n")+"\n")
	if err != nil {
		return fail(e, err)
	}
	return exitDone
}
