package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/report"
	"battwright/rules/units"
)

// jobFlags are the options that handover, offer and inspect share.
type jobFlags struct {
	format, dataDir, system, out string
	width                        int
	template, force              bool
}

var jobFormats = []string{"text", "markdown", "json"}

const (
	leastWidth = 30
	mostWidth  = 200
)

// check finds what is wrong with the options, empty when nothing is.
func (o jobFlags) check() string {
	switch {
	case !slices.Contains(jobFormats, o.format):
		return fmt.Sprintf("--format %q; want %s", o.format, strings.Join(jobFormats, ", "))
	case o.system != "us" && o.system != "si":
		return fmt.Sprintf("--units %q; want us or si", o.system)
	case o.width != 0 && (o.width < leastWidth || o.width > mostWidth):
		return fmt.Sprintf("--width %d; want %d to %d, usually 40 or 80", o.width, leastWidth, mostWidth)
	}
	return ""
}

func (o jobFlags) options(c *catalog.Catalog) report.Options {
	return report.Options{Catalog: c, System: systemOf(o.system), Width: o.width}
}

// print writes a result to standard output or to the file that was named.
func (o jobFlags) print(text string, e env) int {
	return output(text, planFlags{out: o.out, force: o.force}, e)
}

// jobOf plans a house as it stands.
func jobOf(l *house.QuestionList, h *house.House, s units.System) inspect.Job {
	a := house.Answered{List: l, House: h, System: s}
	assessed := plan.Assess(a)
	return inspect.NewJob(assessed, assessed.Weigh(plan.PreferencesOf(a, nil)), s)
}

func runHandover(args []string, e env) int {
	var o jobFlags
	var person, drywall string
	f := newFlags("handover")
	o.declare(f.StringVar, f.IntVar, f.BoolVar)
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
	}
	c, err := loadCatalog(o.dataDir)
	if err != nil {
		return fail(e, err)
	}
	l := house.NewList(c)
	houses, err := readHouses(l, files, e)
	if err != nil {
		return fail(e, err)
	}
	h := report.Handover{Job: jobOf(l, houses[0], systemOf(o.system)), Person: person, Drywall: day}
	text, err := handoverText(h, o, c)
	if err != nil {
		return fail(e, err)
	}
	return o.print(text, e)
}

func handoverText(h report.Handover, o jobFlags, c *catalog.Catalog) (string, error) {
	switch o.format {
	case "markdown":
		return h.Markdown(o.options(c))
	case "json":
		b, err := h.JSON(o.options(c))
		return string(b), err
	}
	return h.Text(o.options(c))
}

// declare names the shared options.
func (o *jobFlags) declare(text func(*string, string, string, string), number func(*int, string, int, string), yes func(*bool, string, bool, string)) {
	text(&o.format, "format", "text", "")
	text(&o.dataDir, "data", "", "")
	text(&o.system, "units", "us", "")
	text(&o.out, "out", "", "")
	number(&o.width, "width", 0, "")
	yes(&o.force, "force", false, "")
}

// readJob reads the catalog and the house that offers and finished work are
// held against.
func readJob(o jobFlags, path string, stdin io.Reader) (*house.QuestionList, inspect.Job, error) {
	c, err := loadCatalog(o.dataDir)
	if err != nil {
		return nil, inspect.Job{}, err
	}
	l := house.NewList(c)
	h, err := readHouse(l, path, stdin)
	if err != nil {
		return nil, inspect.Job{}, err
	}
	return l, jobOf(l, h, systemOf(o.system)), nil
}
