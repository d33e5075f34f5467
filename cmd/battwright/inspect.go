package main

import (
	"fmt"
	"slices"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/print"
)

// runInspect holds finished work against the plan of a house.
func runInspect(o options, e env) int {
	files, blank := o.files, o.template || o.form
	switch {
	case o.template && o.form:
		return usage(e, "inspect: --form is to fill in by hand, --template in an editor: one of them")
	case blank && len(files) != 1:
		return usage(e, "inspect --template and --form take one house file")
	case !blank && len(files) != 2:
		return usage(e, "inspect takes a house file and a file of finished work; battwright inspect --template house.toml makes one to fill in")
	}
	w, code := open(o, files[:1], e)
	if code != exitDone {
		return code
	}
	j, opts := w.job(w.houses[0]), w.pageOptions(o)
	found := inspect.FoundList(j.Catalog())
	switch {
	case o.template:
		return o.print(inspect.FoundTemplate(found, j), e)
	case o.form:
		return o.print(print.As(o.format, pages.FormPage(j), opts.Width), e)
	}
	text, err := readText(files[1], e.stdin)
	if err != nil {
		return fail(e, fmt.Errorf("%s: %w", files[1], plainPathError(err)))
	}
	h, notes, problems := inspect.ReadFound(found, j, files[1], text)
	r := inspect.JudgeFound(j, h, slices.Concat(problems, notes))
	printed, err := o.rendered(func() ([]byte, error) { return pages.FoundJSON(j, r) }, func() (page.Page, error) {
		return pages.FoundPage(j, r, opts), nil
	})
	if err != nil {
		return fail(e, err)
	}
	if code := o.print(printed, e); code != exitDone {
		return code
	}
	if len(problems) > 0 { // what could be read is printed all the same
		return fail(e, problems)
	}
	if !r.ReadyToClose() || len(notes) > 0 {
		fmt.Fprintln(e.stderr, "inspect: "+pages.FoundVerdict(r))
		return exitShort
	}
	return exitDone
}
