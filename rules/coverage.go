package rules

import "slices"

// Names of the two facts that Coverage goes by.
const (
	placeFact    = "place"
	materialFact = "material"
)

// Coverage proves, for each place and material given (values of the enum facts
// "place" and "material"), that something is said for it and something against
// it. A pair that is always excluded needs nothing for it, and a pair that does
// not occur needs nothing.
//
// It also proves that a place never loses all its materials silently: wherever
// every choice is excluded, something must say so: a safety rule that stops the
// plan, a safety rule that fires in that place only where nothing is left, or a
// require of NeedNoOption. A choice is a material with the facts declared as
// FromMaterial and those named in chosen (the facing, say); all other facts are
// taken as given. Profile options tell which facts go with which material.
func (b *Book) Coverage(places, materials []string, chosen ...string) []Finding {
	p, m, bad := b.placeAndMaterial(places, materials)
	for _, name := range chosen {
		if _, ok := b.index[name]; !ok {
			bad = append(bad, found("", BadQuestion, "no fact named %q", name))
		}
	}
	if len(bad) > 0 {
		return bad
	}
	r := b.reach()
	c := &coverage{
		reach: r, material: m, chosen: make([]bool, len(b.facts)),
		excludes: r.of(func(x *Rule) bool { return x.Effect.Kind == Exclude }),
	}
	for i, f := range b.facts {
		c.chosen[i] = i == m || f.From == FromMaterial || slices.Contains(chosen, f.Name)
	}
	var out []Finding
	for _, place := range places {
		region := r.only(r.full, p, slices.Index(b.facts[p].Values, place))
		for _, material := range materials {
			cell := r.only(region, m, slices.Index(b.facts[m].Values, material))
			out = append(out, c.reasons(place+" / "+material, cell)...)
		}
		out = append(out, c.keepsOne(place, region, materials)...)
	}
	return out
}

// placeAndMaterial finds the two facts and checks the names asked for.
func (b *Book) placeAndMaterial(places, materials []string) (p, m int, bad []Finding) {
	index := func(name string, values []string) int {
		i, ok := b.index[name]
		if !ok || b.facts[i].Type != Enum {
			bad = append(bad, found("", BadQuestion, "no enum fact named %q", name))
			return 0
		}
		for _, v := range values {
			if !slices.Contains(b.facts[i].Values, v) {
				bad = append(bad, found("", BadQuestion, "%s has no value %q", name, v))
			}
		}
		return i
	}
	if len(places) == 0 || len(materials) == 0 {
		bad = append(bad, found("", BadQuestion, "%d places and %d materials given; want some of both", len(places), len(materials)))
	}
	p = index(placeFact, places)
	m = index(materialFact, materials)
	return p, m, bad
}

type coverage struct {
	*reach
	material int
	chosen   []bool // facts that come with the choice, the material among them
	excludes []box
}

// reasons asks for a word for and a word against in one cell.
func (c *coverage) reasons(name string, cell box) []Finding {
	if _, a := c.uncovered(cell, c.impossible); a == covered {
		return nil
	}
	var out []Finding
	against := func(e Effect) bool {
		return e.Kind == Exclude || e.Kind == Against || e.Kind == Adjust && e.Delta < 0
	}
	out = append(out, c.says(name, cell, "against", against)...)
	switch _, a := c.uncovered(cell, slices.Concat(c.impossible, c.excludes)); a {
	case covered:
		return out
	case tooHard:
		return append(out, hard("", name+": whether it is always excluded"))
	}
	return append(out, c.says(name, cell, "for", func(e Effect) bool {
		return e.Kind == For || e.Kind == Adjust && e.Delta > 0
	})...)
}

// says reports a finding unless a rule with such an effect is heard in the cell.
func (c *coverage) says(name string, cell box, side string, counts func(Effect) bool) []Finding {
	unsure := false
	for i := range c.book.rules {
		if !counts(c.book.rules[i].Effect) {
			continue
		}
		switch _, a := c.uncovered(meet(cell, c.rule[i]), c.quiet(i)); a {
		case open:
			return nil
		case tooHard:
			unsure = true
		}
	}
	if unsure {
		return []Finding{hard("", name+": whether there is a reason "+side)}
	}
	return []Finding{found("", NoReason, "%s: no reason %s", name, side)}
}

// keepsOne looks for given facts under which every choice is excluded and
// nothing says so.
func (c *coverage) keepsOne(place string, region box, materials []string) []Finding {
	lost, ok := c.allExcluded(region, materials)
	if !ok {
		return []Finding{hard("", place+": whether a material is left")}
	}
	speaks, ok := c.saysNone(c.amongst(region, materials), lost)
	if !ok {
		return []Finding{hard("", place+": where something says that no material is left")}
	}
	for _, piece := range lost {
		point, a := c.uncovered(piece, speaks)
		switch a {
		case open:
			return []Finding{found("", NoOption, "%s: every material is excluded and nothing says so at %s", place, c.witness(point))}
		case tooHard:
			return []Finding{hard("", place+": whether something says that no material is left")}
		}
	}
	return nil
}

// saysNone lists where something tells that no material is left. A caution
// that fires elsewhere in the place too is about something else.
func (c *coverage) saysNone(region box, lost []box) ([]box, bool) {
	out := slices.Clone(c.impossible)
	only := slices.Concat(lost, c.impossible)
	for i := range c.book.rules {
		e := c.book.rules[i].Effect
		switch {
		case e.Need == NeedNoOption:
			heard, ok := c.heard(i, region)
			if !ok {
				return nil, false
			}
			out = append(out, heard...)
		case e.Kind == Safety && e.Stops:
			out = append(out, c.rule[i])
		case e.Kind == Safety:
			if _, a := c.uncovered(meet(region, c.rule[i]), only); a == covered {
				out = append(out, c.rule[i])
			}
		}
	}
	return out, true
}

// allExcluded returns the part of the region, with the facts of the choice
// left open, in which every choice is excluded or does not occur.
func (c *coverage) allExcluded(region box, materials []string) ([]box, bool) {
	var limits []box
	for _, x := range slices.Concat(c.excludes, c.impossible) {
		if c.overlap(x, region) {
			limits = append(limits, x)
		}
	}
	w := &choices{coverage: c, limits: limits, left: []box{c.amongst(region, materials)}}
	for _, m := range materials {
		start := c.only(region, c.material, slices.Index(c.book.facts[c.material].Values, m))
		if !w.visit(start, c.material, 0) {
			return nil, false
		}
	}
	return w.left, true
}

// amongst narrows a region to the materials asked about.
func (c *coverage) amongst(region box, materials []string) box {
	out := slices.Clone(region)
	d := c.dims[c.material] // an enum is one word
	out[d.off] = 0
	for _, m := range materials {
		out[d.off] |= 1 << slices.Index(c.book.facts[c.material].Values, m)
	}
	return out
}

// choices walks over the cells of the facts that come with a choice and keeps
// what is lost under every one of them.
type choices struct {
	*coverage
	limits []box
	left   []box
	seen   int
}

// visit fixes the next fact of the choice; skip is the one already fixed. It
// returns false when there are too many cases.
func (w *choices) visit(x box, skip, fact int) bool {
	if len(w.left) == 0 {
		return true
	}
	for _, no := range w.impossible {
		if inside(x, no) {
			return true // this choice does not occur
		}
	}
	for fact < len(w.dims) && (!w.chosen[fact] || fact == skip || !w.matters(x, fact)) {
		fact++
	}
	if fact == len(w.dims) {
		return w.narrow(x)
	}
	for _, cell := range w.cellsOf(x, fact) {
		if !w.visit(w.only(x, fact, cell), skip, fact+1) {
			return false
		}
	}
	return true
}

// matters reports whether a limit that touches x tells the values of a fact apart.
func (w *choices) matters(x box, fact int) bool {
	d := w.dims[fact]
	for _, l := range w.limits {
		if w.overlap(l, x) && !inside(x[d.off:d.off+d.words()], l[d.off:d.off+d.words()]) {
			return true
		}
	}
	return false
}

// narrow keeps what is lost under one more choice.
func (w *choices) narrow(x box) bool {
	if w.seen++; w.seen > w.book.maxSteps {
		return false
	}
	var lost []box
	for _, l := range w.limits {
		if w.overlap(l, x) {
			lost = append(lost, w.widen(l, w.chosen))
		}
	}
	var ok bool
	w.left, ok = w.both(w.left, lost)
	return ok
}
