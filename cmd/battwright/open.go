package main

import (
	"errors"
	"fmt"
	"strings"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// opened is what a command that plans houses works on.
type opened struct {
	list    *house.QuestionList
	houses  []*house.House
	levels  map[string]float64 // priorities of the command line
	variant string
	system  units.System
}

// open reads the data and then the house files, or the demo house when none is
// named. Anything but exitDone was reported.
func open(o options, files []string, e env) (opened, int) {
	c, err := e.loadCatalog(o.dataDir)
	if err != nil {
		return opened{}, fail(e, err)
	}
	w := opened{list: house.NewList(c), system: systemOf(o.system)}
	if n := len(o.variants); n > 0 {
		w.variant = o.variants[n-1]
	}
	if w.levels, err = parsePriorities(w.list, o.priorities); err != nil {
		return opened{}, usage(e, "%v", err)
	}
	if w.houses, err = readHouses(w.list, files, e); err != nil {
		return opened{}, fail(e, err)
	}
	return w, exitDone
}

// readHouses reads all files and reports the problems of all of them.
func readHouses(l *house.QuestionList, files []string, e env) ([]*house.House, error) {
	if len(files) == 0 {
		h, err := demoHouse(l)
		return []*house.House{h}, err
	}
	var houses []*house.House
	var errs []error
	for _, path := range files {
		h, err := readHouse(l, path, e.stdin)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		houses = append(houses, h)
	}
	return houses, errors.Join(errs...)
}

func (w opened) options() pages.Options {
	return pages.Options{Catalog: w.list.Catalog(), System: w.system}
}

// pageOptions print in the width that was asked for.
func (w opened) pageOptions(o options) pages.Options {
	opts := w.options()
	opts.Width = o.width
	return opts
}

func (w opened) answered(h *house.House) house.Answered {
	return house.Answered{List: w.list, House: h, System: w.system}
}

// plan plans a house with the saved plan and the priorities that were asked
// for. A thorough one has what takes long to work out too: what to find out
// first, and whether other weather would change it.
func (w opened) plan(h *house.House, thorough bool) (plan.Plan, error) {
	var v *house.Variant
	if w.variant != "" {
		var err error
		if v, err = variantOf(h, w.variant); err != nil {
			return plan.Plan{}, err
		}
	}
	a := w.answered(h)
	if v != nil {
		a.House = v.Over(h)
	}
	prefs := plan.PreferencesOf(a, nil)
	for k, level := range w.levels {
		prefs.Priorities[k] = level
	}
	assessed := plan.Assess(a)
	p := assessed.Weigh(prefs)
	if thorough {
		p.Unknown, _ = assessed.FindOut(prefs, p, plan.Whole)
	}
	return p, nil
}

// job plans a house as it stands, to hold work and offers against.
func (w opened) job(h *house.House) inspect.Job {
	a := w.answered(h)
	assessed := plan.Assess(a)
	return inspect.NewJob(assessed, assessed.Weigh(plan.PreferencesOf(a, nil)), w.system)
}

// variantOf finds a saved plan of a house, or says which there are.
func variantOf(h *house.House, name string) (*house.Variant, error) {
	if v := h.Variant(name); v != nil {
		return v, nil
	}
	return nil, fmt.Errorf("no saved plan is called %q in this house; it has: %s", name, variantNames(h))
}

func variantNames(h *house.House) string {
	if len(h.Variants) == 0 {
		return "none"
	}
	names := make([]string, len(h.Variants))
	for i, v := range h.Variants {
		names[i] = v.Name
	}
	return strings.Join(names, ", ")
}

// systemOf gives the units of --units, which was checked before.
func systemOf(s string) units.System {
	if s == "si" {
		return units.SI
	}
	return units.US
}
