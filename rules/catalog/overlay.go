package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
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
		if name == countiesFile {
			texts[name] = string(text)
			c.Overlaid = append(c.Overlaid, "all of "+name)
			continue
		}
		form := formOf(name)
		tree, err := strict.Decode(name, string(text), form)
		if errors.As(err, &wrong) {
			problems = append(problems, earlier(tree, wrong)...)
			continue
		} else if err != nil {
			return err
		}
		if o, ok := form.(*records); ok {
			o.from(func() *strict.Tree { return tree })
			problems = append(problems, c.layOne(r, o, tree)...)
			continue
		}
		texts[name] = string(text)
		c.Overlaid = append(c.Overlaid, "all of "+name)
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
		if at >= 0 && r.Rules[at].stays(rule) {
			problems = append(problems, strict.Problem{
				File: file, Line: tree.Line("rule", i), Key: "rule." + rule.ID, Found: "a change to a rule that keeps people safe",
				Want: "another id: exclusions, cautions, what must be there and how it goes in stay; you may add rules, not drop these",
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
	if problems = append(problems, keepTraits(r, o, tree)...); len(problems) > 0 {
		return problems
	}
	say := func(what, id string, removed bool) {
		verb := "changed or added"
		if removed {
			verb = "removed"
		}
		c.Overlaid = append(c.Overlaid, fmt.Sprintf("%s %s %s (%s)", what, id, verb, file))
	}
	// A point of acceptance that stops the work stays: it keeps people safe.
	o.Points = slices.DeleteFunc(o.Points, func(p AcceptancePoint) bool {
		return slices.ContainsFunc(r.Points, func(b AcceptancePoint) bool { return b.ID == p.ID && b.Result == ResultStop })
	})
	for _, kind := range recordKinds {
		kind.lay(r, o, say)
	}
	return nil
}
