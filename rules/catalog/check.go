package catalog

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// checker gathers every problem of the records instead of stopping at one, and
// how well what is from each source is known, the best first.
type checker struct {
	c     *Catalog
	errs  []error
	marks map[string][]Known
	known map[string][]string // namings, once asked for
}

func (k *checker) bad(format string, args ...any) {
	k.errs = append(k.errs, fmt.Errorf("data: "+format, args...))
}

func (k *checker) ref(what string, r Ref) {
	if _, ok := k.c.sources[r.Source]; !ok {
		k.bad("%s: source %q is not in the list of sources", what, r.Source)
	}
	if !r.Known.Valid() {
		k.bad("%s: known = %q; want standard, secondary, practice, memory or invented", what, r.Known)
	}
	k.mark(r)
}

func (k *checker) mark(r Ref) {
	if !slices.Contains(k.marks[r.Source], r.Known) {
		k.marks[r.Source] = append(k.marks[r.Source], r.Known)
		slices.SortFunc(k.marks[r.Source], func(a, b Known) int { return a.weakness() - b.weakness() })
	}
}

func (k *checker) within(what, key string, v, low, high float64) {
	if math.IsNaN(v) || v < low || v > high {
		k.bad("%s: %s = %v; want %v to %v", what, key, v, low, high)
	}
}

// check reports every problem of a catalog that was read whole.
func (c *Catalog) check() error {
	k := &checker{c: c, marks: map[string][]Known{}}
	_, errClimates := c.climates()
	_, errBook := c.book()
	all := must(c.parts[trade]()) // the other parts are the same then
	for _, kind := range recordKinds {
		kind.unique(k, all)
	}
	if c.Codes != nil { // one that cannot be read has its own errors
		for _, r := range c.Codes.refs {
			k.ref(codesFile, r)
		}
	}
	k.records()
	k.traits(all)
	return errors.Join(append([]error{errClimates, errBook}, k.errs...)...)
}

// gatherMarks asks all records how well they are known.
func (c *Catalog) gatherMarks() map[string][]Known {
	k := &checker{c: c, marks: map[string][]Known{}}
	for _, r := range c.Codes.refs {
		k.mark(r)
	}
	for _, cl := range c.Climates() {
		for _, r := range cl.Refs() {
			k.mark(r)
		}
	}
	k.records()
	return k.marks
}

func (k *checker) records() {
	k.materials()
	k.products()
	k.facings()
	k.kinds()
	k.shares()
	k.clearances()
	k.criteria()
	k.goods()
	k.rest()
	k.acceptance()
	k.damp()
}

func (k *checker) materials() {
	for _, m := range k.c.Materials {
		what := "material " + m.ID
		k.ref(what, m.Ref)
		k.within(what, "density_kg_m3", m.DensityKgM3, 1, 300)
		k.within(what, "stays_in_place_c", m.StaysC, 50, 2000)
		k.within(what, "burnable_mj_kg", m.BurnableMJKg, 0, 50)
		k.within(what, "loft_share", m.LoftShare, 0.5, 1)
		k.within(what, "irritant points", m.IrritantPoints(), 0, 10)
		k.within(what, "irritant_high", m.IrritantHigh, m.IrritantPoints(), 10)
		for name, s := range map[string]Spread{"uptake_kg_m2": m.UptakeKgM2, "gain_stc_3_5": m.GainSTC35, "gain_stc_5_5": m.GainSTC55} {
			if !(0 <= s.Low && s.Rises()) {
				k.bad("%s: %s must rise from low to typical to high", what, name)
			}
		}
	}
}

func (k *checker) products() {
	for _, p := range k.c.Products {
		what := "product " + p.ID
		k.ref(what, p.Ref)
		if _, ok := k.c.Material(p.Material); !ok {
			k.bad("%s: material %q is not listed", what, p.Material)
		}
		if _, ok := k.c.prices[p.ID]; !ok {
			k.bad("%s has no price", what)
		}
		if p.Form != "batt" && p.Form != "roll" {
			k.bad("%s: form %q; want batt or roll", what, p.Form)
		}
		k.within(what, "nominal_r", p.NominalR, 1, 100)
		k.within(what, "thickness_in", p.ThicknessIn, 0.5, 30)
		// No blanket of these fibers is better than about an inch or
		// worse than; a figure outside is a slip of the pen.
		k.within(what, "R per inch", p.NominalR/math.Max(p.ThicknessIn, 0.01), 2.5, 4.6)
		if len(p.WidthsIn) == 0 || len(p.LengthsIn) == 0 || len(p.Facings) == 0 {
			k.bad("%s: widths_in, lengths_in and facings must not be empty", what)
		}
		k.within(what, "pieces_per_package", float64(p.Pieces), 1, 200)
		for _, w := range p.WidthsIn {
			k.within(what, "width", w, 6, 60)
		}
		for _, l := range p.LengthsIn {
			k.within(what, "length", l, 12, 1200)
		}
		for _, f := range p.Facings {
			if facing, ok := k.c.Facing(f); !ok || !facing.OnBlanket {
				k.bad("%s: %q is not a facing that comes on a blanket", what, f)
			}
		}
	}
}

func (k *checker) facings() {
	for _, f := range k.c.Facings {
		what := "facing " + f.ID
		k.ref(what, f.Ref)
		if f.ID != "none" && f.Damp == "" {
			k.within(what, "perm, where damp names nothing,", f.Perm, 0.001, 200)
		}
		if f.Price != "" {
			if _, ok := k.c.prices[f.Price]; !ok {
				k.bad("%s: price %q is not listed", what, f.Price)
			}
		}
	}
}

func (k *checker) shares() {
	for _, s := range k.c.Shares {
		what := "share " + s.Element + " " + s.Practice
		k.ref(what, s.Ref)
		last := 0.0
		for _, cell := range s.BySpacing {
			k.within(what, "share", cell.Share, 0, 0.6)
			if cell.SpacingIn <= last {
				k.bad("%s: spacings must rise", what)
			}
			last = cell.SpacingIn
		}
	}
	k.ref("lumber", k.c.Lumber.Ref)
	k.ref("foam", k.c.Foam.Ref)
	k.ref("foam behind", k.c.Foam.Behind.Ref)
	last := -1
	for _, row := range k.c.Foam.Behind.ByZone {
		k.within("foam behind", "r", row.R, 0, 60)
		if row.ToZone <= last {
			k.bad("foam behind: zones must rise")
		}
		last = row.ToZone
	}
}

func (k *checker) clearances() {
	for _, x := range k.c.Clearances {
		what := "clearance " + x.ID
		k.ref(what, x.Ref)
		k.within(what, "inches", x.Inches, 0.5, 60)
	}
}

func (k *checker) curve(what string, points []CurvePoint) {
	if len(points) < 2 {
		k.bad("%s: a scale needs two anchors", what)
		return
	}
	for i, p := range points {
		k.within(what, "value", p.Value, 0, 1)
		if i > 0 && p.At <= points[i-1].At {
			k.bad("%s: anchors must rise", what)
		}
	}
}

func (k *checker) criteria() {
	for _, c := range k.c.Criteria {
		what := "criterion " + c.ID
		k.ref(what, c.Ref)
		if len(c.Parts) == 0 {
			k.curve(what, c.Curve)
		}
		sum, wet := 0.0, 0.0
		for _, p := range c.Parts {
			k.curve(what+" "+p.ID, p.Curve)
			sum += p.Weight
			if p.WeightWet != nil {
				wet += *p.WeightWet
			}
		}
		if len(c.Parts) > 0 && math.Abs(sum-1) > 1e-9 {
			k.bad("%s: the weights of its parts add up to %v, want 1", what, sum)
		}
		if len(c.WetPlaces) > 0 && math.Abs(wet-1) > 1e-9 {
			k.bad("%s: the weights in wet places add up to %v, want 1", what, wet)
		}
	}
}

func (k *checker) rest() {
	k.ref("settings", k.c.Settings.Ref)
	for _, p := range must(k.c.parts[trade]()).Prices {
		what := "price of " + p.Product
		k.ref(what, p.Ref)
		if !(0 <= p.Low && p.USD().Rises()) {
			k.bad("%s: must rise from low to typical to high", what)
		}
		k.within(what, "high", p.High, 0.005, 10000) // nothing of a house is given away, or dearer
		if p.Unit != "usd_ft2" && p.Unit != "usd_each" {
			k.bad("%s: unit %q; want usd_ft2 or usd_each", what, p.Unit)
		}
	}
	for _, s := range append(append([]Sheet{}, k.c.Sheathings...), k.c.Claddings...) {
		k.ref("sheet "+s.ID, s.Ref)
	}
	for _, f := range k.c.Fuels {
		what := "fuel " + f.ID
		k.ref(what, f.Ref)
		k.within(what, "efficiency", f.Efficiency.Low, 0.1, 10)
		if !(0 < f.USD.Low && f.USD.Rises() && f.Efficiency.Rises()) {
			k.bad("%s: figures must rise from low to typical to high", what)
		}
	}
	for _, w := range k.c.Words() {
		k.ref("word "+w.Term, w.Ref)
	}
	for _, rule := range must(k.c.parts[ruleBook]()).Rules {
		k.ref("rule "+rule.ID, Ref{rule.Source, Known(rule.Known)})
	}
}
