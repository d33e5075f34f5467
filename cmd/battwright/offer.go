package main

import (
	"errors"
	"fmt"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/strict"
)

// runOffer lays one to three offers beside the plan of a house.
func runOffer(o options, e env) int {
	files := o.files
	switch {
	case o.template && len(files) != 1:
		return usage(e, "offer --template takes one house file")
	case !o.template && (len(files) < 2 || len(files) > 1+pages.MaxOffers):
		return usage(e, "offer takes a house file and one to %d offer files; battwright offer --template house.toml makes one to fill in", pages.MaxOffers)
	}
	w, code := open(o, files[:1], e)
	if code != exitDone {
		return code
	}
	j := w.job(w.houses[0])
	if o.template {
		return o.print(inspect.OfferTemplate(j), e)
	}
	offers, problems, err := readOffers(j, files[1:], e)
	if err != nil {
		return fail(e, err)
	}
	text, err := o.rendered(func() ([]byte, error) { return pages.OffersJSON(j, offers) }, func() (page.Page, error) {
		return pages.OffersPage(j, offers, nil, w.pageOptions(o)), nil
	})
	if err != nil {
		return fail(e, err)
	}
	if code := o.print(text, e); code != exitDone {
		return code
	}
	if len(problems) > 0 { // what could be read is printed all the same
		return fail(e, problems)
	}
	for _, r := range offers {
		if r.FallsShort() {
			return exitShort
		}
	}
	return exitDone
}

// readOffers reads each file as far as possible. The error is of a file that
// could not be opened at all.
func readOffers(j inspect.Job, files []string, e env) ([]inspect.OfferResult, strict.Problems, error) {
	var out []inspect.OfferResult
	var problems strict.Problems
	var errs []error
	for _, path := range files {
		text, err := readText(path, e.stdin)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", path, plainPathError(err)))
			continue
		}
		r, ps := inspect.OpenOffer{Path: path, Text: text}.Judge(j)
		problems = append(problems, ps...)
		out = append(out, r)
	}
	return out, problems, errors.Join(errs...)
}
