package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strconv"
	"strings"

	"battwright/rules/strict"
)

// lay reads an overlay folder and lays its records over r: a record replaces
// the whole record of its id, a new id adds, remove = true removes. Rules that
// exclude or warn of danger can be neither replaced nor removed.
func (c *Catalog) lay(r *records, overlay fs.FS, texts map[string]string) error {
	names, err := fs.Glob(overlay, "*")
	if err != nil {
		return err
	}
	slices.Sort(names)
	var problems, wrong strict.Problems
	for _, name := range names {
		if name == packedFile {
			problems = append(problems, strict.Problem{File: name, Found: "a county table of the older form", Want: countiesFile + " with the headings " + strings.Join(countyColumns, ",")})
		}
		if path.Ext(name) != ".toml" && name != countiesFile {
			continue
		}
		text, err := fs.ReadFile(overlay, name)
		if err != nil {
			return err
		}
		if name == codesFile || name == climatesFile || name == countiesFile {
			texts[name] = string(text)
			c.Overlaid = append(c.Overlaid, "all of "+name)
			continue
		}
		var o records
		tree, err := strict.Decode(name, string(text), &o)
		if errors.As(err, &wrong) {
			problems = append(problems, wrong...)
			continue
		} else if err != nil {
			return err
		}
		problems = append(problems, c.layOne(r, &o, tree)...)
	}
	if len(problems) > 0 {
		problems.Sort()
		return problems
	}
	return nil
}

func (c *Catalog) layOne(r, o *records, tree *strict.Tree) strict.Problems {
	file := tree.File
	var problems strict.Problems
	for i, rule := range o.Rules {
		at := slices.IndexFunc(r.Rules, func(b RuleRecord) bool { return b.ID == rule.ID })
		if at >= 0 && r.Rules[at].safety() {
			problems = append(problems, strict.Problem{
				File: file, Line: tree.Line("rule", i), Key: "rule." + rule.ID, Found: "a change to a rule that keeps people safe",
				Want: "another id: exclusions and cautions stay; you may add rules, not drop these",
			})
		}
	}
	for i, x := range o.Clearances {
		at := slices.IndexFunc(r.Clearances, func(b Clearance) bool { return b.ID == x.ID })
		if at >= 0 && (x.Inches < r.Clearances[at].Inches || x.Chimney != r.Clearances[at].Chimney) {
			problems = append(problems, strict.Problem{
				File: file, Line: tree.Line("clearance", i), Key: "clearance." + x.ID, Found: "less air beside a chimney than before",
				Want: fmt.Sprintf("%g in or more for %s: a clearance may grow, not shrink", r.Clearances[at].Inches, r.Clearances[at].Chimney),
			})
		}
	}
	for i, x := range o.Criteria {
		if !x.Remove && !slices.ContainsFunc(r.Criteria, func(b Criterion) bool { return b.ID == x.ID }) {
			problems = append(problems, strict.Problem{
				File: file, Line: tree.Line("criterion", i), Key: "criterion." + x.ID, Found: "a priority of your own",
				Want: "the id of one of ours: what a priority measures is worked out by the program, so none can be added",
			})
		}
	}
	if len(problems) > 0 {
		return problems
	}
	say := func(what, id string, removed bool) {
		verb := "changed or added"
		if removed {
			verb = "removed"
		}
		c.Overlaid = append(c.Overlaid, fmt.Sprintf("%s %s %s (%s)", what, id, verb, file))
	}
	r.Materials = overlayInto(r.Materials, o.Materials, func(x Material) (string, bool) { return x.ID, x.Remove }, "material", say)
	r.Products = overlayInto(r.Products, o.Products, func(x Product) (string, bool) { return x.ID, x.Remove }, "product", say)
	r.Prices = overlayInto(r.Prices, o.Prices, func(x Price) (string, bool) { return x.Product, x.Remove }, "price", say)
	r.Facings = overlayInto(r.Facings, o.Facings, func(x Facing) (string, bool) { return x.ID, x.Remove }, "facing", say)
	r.Kinds = overlayInto(r.Kinds, o.Kinds, func(x PlaceKind) (string, bool) { return x.ID, x.Remove }, "place", say)
	r.Sheathings = overlayInto(r.Sheathings, o.Sheathings, func(x Sheet) (string, bool) { return x.ID, x.Remove }, "sheathing", say)
	r.Claddings = overlayInto(r.Claddings, o.Claddings, func(x Sheet) (string, bool) { return x.ID, x.Remove }, "cladding", say)
	r.Sizes = overlayInto(r.Sizes, o.Sizes, func(x Size) (string, bool) { return x.ID, x.Remove }, "size", say)
	r.Shares = overlayInto(r.Shares, o.Shares, func(x Share) (string, bool) { return x.Element + "/" + x.Practice, false }, "share", say)
	r.Clearances = overlayInto(r.Clearances, o.Clearances, func(x Clearance) (string, bool) { return x.ID, false }, "clearance", say)
	r.Criteria = overlayInto(r.Criteria, o.Criteria, func(x Criterion) (string, bool) { return x.ID, x.Remove }, "criterion", say)
	r.Sources = overlayInto(r.Sources, o.Sources, func(x Source) (string, bool) { return x.ID, x.Remove }, "source", say)
	r.Words = overlayInto(r.Words, o.Words, func(x Word) (string, bool) { return x.Term, x.Remove }, "word", say)
	r.Helps = overlayInto(r.Helps, o.Helps, func(x Help) (string, bool) { return x.Key, x.Remove }, "help", say)
	r.Fuels = overlayInto(r.Fuels, o.Fuels, func(x Fuel) (string, bool) { return x.ID, x.Remove }, "fuel", say)
	r.Facts = overlayInto(r.Facts, o.Facts, func(x FactRecord) (string, bool) { return x.Name, false }, "fact", say)
	r.Rules = overlayInto(r.Rules, o.Rules, func(x RuleRecord) (string, bool) { return x.ID, x.Remove }, "rule", say)
	r.Figures = overlayInto(r.Figures, o.Figures, func(x Figure) (string, bool) { return x.ID, x.Remove }, "figure", say)
	r.Studs = overlayInto(r.Studs, o.Studs, func(x Stud) (string, bool) { return strconv.FormatFloat(x.WallFt, 'g', -1, 64), x.Remove }, "stud", say)
	r.Gear = overlayInto(r.Gear, o.Gear, func(x Gear) (string, bool) { return x.ID, x.Remove }, "gear", say)
	r.layAcceptance(o.AcceptanceRecords, say)
	one := &records{Lumber: o.Lumber, Foam: o.Foam, Settings: o.Settings}
	r.add(one)
	for _, s := range []struct {
		set  bool
		name string
	}{{o.Lumber != nil, "lumber"}, {o.Foam != nil, "foam"}, {o.Settings != nil, "settings"}} {
		if s.set {
			say("table", s.name, false)
		}
	}
	return nil
}

func overlayInto[T any](base, over []T, key func(T) (string, bool), what string, say func(what, id string, removed bool)) []T {
	out := slices.Clone(base)
	for _, x := range over {
		id, remove := key(x)
		at := slices.IndexFunc(out, func(b T) bool { k, _ := key(b); return k == id })
		switch {
		case remove && at >= 0:
			out = slices.Delete(out, at, at+1)
		case remove:
			continue
		case at >= 0:
			out[at] = x
		default:
			out = append(out, x)
		}
		say(what, id, remove)
	}
	return out
}
