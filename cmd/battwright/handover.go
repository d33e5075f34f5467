package main

import (
	"flag"
	"fmt"
	"slices"
	"strings"
	"time"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/print"
)

// jobFlags are the options that handover, offer and inspect share.
type jobFlags struct {
	openFlags
	outFlags
	format   string
	width    int
	template bool
}

var jobFormats = []string{"text", "markdown", "json"}

const (
	leastWidth = 30
	mostWidth  = 200
)

// check finds what is wrong with the options, empty when nothing is.
func (o jobFlags) check() string {
	switch units := o.wrongUnits(); {
	case !slices.Contains(jobFormats, o.format):
		return fmt.Sprintf("--format %q; want %s", o.format, strings.Join(jobFormats, ", "))
	case units != "":
		return units
	case o.width != 0 && (o.width < leastWidth || o.width > mostWidth):
		return fmt.Sprintf("--width %d; want %d to %d, usually 40 or 80", o.width, leastWidth, mostWidth)
	}
	return ""
}

// options print the work on a job in the width that was asked for.
func (o jobFlags) options(w opened) pages.Options {
	opts := w.options()
	opts.Width = o.width
	return opts
}

func (o *jobFlags) declare(f *flag.FlagSet) {
	o.openFlags.declare(f)
	o.outFlags.declare(f)
	f.StringVar(&o.format, "format", "text", "")
	f.IntVar(&o.width, "width", 0, "")
}

func runHandover(args []string, e env) int {
	var o jobFlags
	var person, drywall string
	f := newFlags("handover")
	o.declare(f)
	f.StringVar(&person, "page", "", "")
	f.StringVar(&drywall, "drywall", "", "")
	files, err := parseFlags(f, args)
	if err != nil {
		return flagProblem(e, "handover", err)
	}
	if problem := o.check(); problem != "" {
		return usage(e, "%s", problem)
	}
	if person != "" && !slices.Contains(catalog.Persons, person) {
		return usage(e, "--page %q; want %s", person, strings.Join(catalog.Persons, ", "))
	}
	if len(files) > 1 {
		return usage(e, "handover takes one house file")
	}
	var day time.Time
	if drywall != "" {
		if day, err = inspect.ParseDay(drywall); err != nil {
			return usage(e, "--drywall: %v", err)
		}
		if day.Before(e.today()) {
			return usage(e, "--drywall %s is past; want the day the drywall starts, today or later", drywall)
		}
	}
	o.madeFrom(files, o.dataDir)
	w, code := open(o.openFlags, files, e)
	if code != exitDone {
		return code
	}
	h := pages.Handover{Job: w.job(w.houses[0]), Person: person, Drywall: day, Today: e.today()}
	text, err := handoverText(h, o.format, o.options(w))
	if err != nil {
		return fail(e, err)
	}
	return o.print(text, e)
}

func handoverText(h pages.Handover, format string, opts pages.Options) (string, error) {
	if format == "json" {
		b, err := h.JSON(opts)
		return string(b), err
	}
	d, err := h.Page(opts)
	return print.As(format, d, opts.Width), err
}
