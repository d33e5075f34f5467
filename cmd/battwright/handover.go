package main

import (
	"slices"
	"strings"
	"time"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
)

func runHandover(o options, e env) int {
	if o.page != "" && !slices.Contains(catalog.Persons, o.page) {
		return usage(e, "--page %q; want %s", o.page, strings.Join(catalog.Persons, ", "))
	}
	if len(o.files) > 1 {
		return usage(e, "handover takes one house file")
	}
	var day time.Time
	if o.drywall != "" {
		var err error
		if day, err = inspect.ParseDay(o.drywall); err != nil {
			return usage(e, "--drywall: %v", err)
		}
		if day.Before(e.today()) {
			return usage(e, "--drywall %s is past; want the day the drywall starts, today or later", o.drywall)
		}
	}
	w, code := open(o, o.files, e)
	if code != exitDone {
		return code
	}
	h := pages.Handover{Job: w.job(w.houses[0]), Person: o.page, Drywall: day, Today: e.today()}
	opts := w.pageOptions(o)
	text, err := o.rendered(func() ([]byte, error) { return h.JSON(opts) }, func() (page.Page, error) { return h.Page(opts) })
	if err != nil {
		return fail(e, err)
	}
	return o.print(text, e)
}
