package main

import (
	"errors"
	"fmt"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/plan"
)

func runCheck(o options, e env) int {
	c, err := e.loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	code := exitDone
	if o.rules {
		code = checkRules(c, e)
	}
	l := house.NewList(c)
	var errs []error
	for _, path := range o.files {
		h, err := readHouse(l, path, e.stdin)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		disagree := disagreeing(house.Answered{List: l, House: h})
		for _, text := range disagree {
			fmt.Fprintf(e.stdout, "%s: %s\n", path, text)
			code = exitShort
		}
		if len(disagree) == 0 {
			fmt.Fprintf(e.stdout, "%s: good\n", path)
		}
	}
	if err := errors.Join(errs...); err != nil {
		return fail(e, err)
	}
	if len(o.files) == 0 && !o.rules {
		fmt.Fprintln(e.stdout, "data: good. Name house files to check them too, or add --rules.")
	}
	return code
}

// disagreeing are answers that cannot both be true, and sizes of a place that do
// not give the area that was typed.
func disagreeing(a house.Answered) []string {
	out := a.Disagree()
	for _, p := range order.Make(plan.Make(a), a).Places {
		if p.Differ != "" {
			out = append(out, "SIZES DISAGREE, "+p.Label+": "+p.Differ+".")
		}
	}
	return out
}

// checkRules reads the data files as strictly as a builder's own and proves
// the rule book.
func checkRules(c *catalog.Catalog, e env) int {
	if err := catalog.CheckStrict(data.Files); err != nil {
		return fail(e, err)
	}
	findings := c.Prove()
	for _, f := range findings {
		fmt.Fprintln(e.stdout, f)
	}
	untried := c.Book().Untried()
	tried := c.RuleCount()
	for i, x := range untried {
		if i == 0 || x.Rule != untried[i-1].Rule {
			tried--
		}
	}
	fmt.Fprintf(e.stdout, "examples try every condition of %d rules alone; %d single conditions are not tried alone\n", tried, len(untried))
	fmt.Fprintf(e.stdout, "%d rules over %d facts; %d obligations; %d findings\n", c.RuleCount(), c.FactCount(), len(c.Obligations()), len(findings))
	if len(findings) > 0 {
		return exitShort
	}
	return exitDone
}
