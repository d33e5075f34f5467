package main

import (
	"errors"
	"fmt"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/order"
	"battwright/rules/plan"
	"battwright/rules/strict"
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
		text, err := readText(path, e.stdin)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", path, plainPathError(err)))
			continue
		}
		h, err := house.Read(l, path, text)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		disagree := disagreeing(house.Answered{List: l, House: h}, path, text)
		for _, line := range disagree {
			fmt.Fprintln(e.stdout, line)
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

// disagreeing are answers of a file that cannot both be true, and sizes of a place
// that do not give the area that was typed, a line each with where it is known.
func disagreeing(a house.Answered, path, text string) []string {
	var out []string
	tree, _ := strict.Parse(path, text)
	for _, x := range a.Disagreements() {
		at := path
		if x.Key != "" {
			at = tree.Problem([]any{"place", x.Place, x.Key}, "", "").Error()
		}
		out = append(out, at+": "+x.Text)
	}
	for _, p := range order.Make(plan.Make(a), a).Places {
		if p.Differ != "" {
			out = append(out, path+": SIZES DISAGREE, "+p.Label+": "+p.Differ+".")
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
