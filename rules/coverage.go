package rules

import "slices"

// Names of the two facts that Coverage goes by.
const (
	placeFact    = "place"
	materialFact = "material"
)

// Coverage proves, for each place and material given (values of the enum facts
// "place" and "material"), that something is said for that material in that
// place and something against it. A pair that is always excluded needs nothing for it, and a pair that does
// not occur needs nothing.
//
// It also proves that a place never loses all its materials silently: wherever
// every choice is excluded, something must say so: a safety rule that stops the
// plan, or one that fires in that place only where nothing is left. A choice is
// a material with the facts declared as FromMaterial and those named in chosen
// (the facing, say), none of them a number; all other facts are taken as given.
// What is impossible tells which facts go with which material.
func (b *Book) Coverage(places, materials []string, chosen ...string) []Finding {
	c := &coverage{prover: b.prover(), chosen: make([]bool, len(b.facts)), steps: b.maxSteps}
	in, of := c.tests(placeFact, places), c.tests(materialFact, materials)
	for _, name := range append(chosen, materialFact) {
		c.choose(name)
	}
	if len(c.found) > 0 {
		return c.found
	}
	for i, f := range b.facts {
		c.chosen[i] = c.chosen[i] || f.From == FromMaterial && f.Type != Numeric
	}
	for i, place := range places {
		region := b.box([]test{in[i]})
		for k, material := range materials {
			c.reasons(place+" / "+material, b.box([]test{in[i], of[k]}))
		}
		any := of[0]
		for _, t := range of {
			any.bits |= t.bits
		}
		region[any.fact] = any.span
		c.keepsOne(place, region)
	}
	return c.found
}

// coverage is a prover that knows which facts come with the choice, the
// material among them.
type coverage struct {
	*prover
	chosen []bool
	steps  int // left before it gives up
}

// tests asks a fact for each of some values.
func (c *coverage) tests(fact string, values []string) []test {
	var out []test
	for _, v := range values {
		tests, problems := c.Book.tests(Where{fact: v})
		for _, x := range problems {
			c.add("", BadQuestion, "%v", x)
		}
		out = append(out, tests...)
	}
	if len(out) == 0 {
		c.add("", BadQuestion, "no value of %s to ask about", fact)
	}
	return out
}

// choose makes a fact, whose values can be counted, one of the choice.
func (c *coverage) choose(name string) {
	i, ok := c.index[name]
	if !ok || c.facts[i].Type == Numeric {
		c.add("", BadQuestion, "no fact named %q with values to choose from", name)
		return
	}
	c.chosen[i] = true
}

// reasons asks for a word for and a word against in one cell.
func (c *coverage) reasons(name string, cell box) {
	if c.covered("", cell) {
		return
	}
	c.says(name, cell, "against", func(e Effect) bool { return e.Kind == Exclude || e.Kind == Against || e.Delta < 0 })
	if !c.covered("", cell, c.of(Exclude)...) {
		c.says(name, cell, "for", func(e Effect) bool { return e.Kind == For || e.Delta > 0 })
	}
}

// says asks for a rule with such an effect that is heard in the cell.
func (c *coverage) says(name string, cell box, side string, counts func(Effect) bool) {
	before := len(c.found)
	for i := range c.rules {
		if !counts(c.rules[i].Effect) {
			continue
		}
		if _, heard := c.hole(c.rules[i].ID, cell.meet(c.boxes[i])); heard {
			return
		}
	}
	if len(c.found) == before { // else it is not known
		c.add("", NoReason, "%s: no reason %s", name, side)
	}
}

// keepsOne looks for given facts under which every choice is excluded and
// nothing says so.
func (c *coverage) keepsOne(place string, region box) {
	out := append(c.of(Exclude), c.impossible...)
	lost := c.lost(region, 0, out, []box{region})
	var speaks []box
	for i := range c.rules {
		if e := c.rules[i].Effect; e.Kind == Safety && (e.Stops || c.covered(c.rules[i].ID, region.meet(c.boxes[i]), lost...)) {
			speaks = append(speaks, c.boxes[i])
		}
	}
	for _, piece := range lost {
		if at, ok := c.hole("", piece, speaks...); ok {
			c.add("", NoOption, "%s: every material is excluded and nothing says so at %s", place, at)
			return
		}
	}
}

// lost narrows what is left, with the facts of the choice open, to where every
// choice in x is excluded or does not occur. It fixes the facts of the choice
// one after another, from the one given on.
func (c *coverage) lost(x box, fact int, out, left []box) []box {
	if len(left) == 0 || slices.ContainsFunc(c.impossible, x.inside) {
		return left
	}
	for fact < len(x) && !c.chosen[fact] {
		fact++
	}
	if fact == len(x) {
		var under []box
		for _, y := range out {
			if y.overlaps(x) {
				under = append(under, c.widen(y))
			}
		}
		if c.steps -= 1 + len(left)*len(under); c.steps < 0 {
			c.add("", NotProved, "too many cases to decide whether a material is left")
			return nil
		}
		return common(left, under)
	}
	for bits := x[fact].bits; bits != 0; bits &= bits - 1 {
		one := slices.Clone(x)
		one[fact].bits = bits & -bits
		left = c.lost(one, fact+1, out, left)
	}
	return left
}

// widen opens the facts of the choice.
func (c *coverage) widen(x box) box {
	out := slices.Clone(x)
	for i, f := range c.facts {
		if c.chosen[i] {
			out[i] = f.all()
		}
	}
	return out
}
