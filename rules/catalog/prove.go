package catalog

import (
	"maps"
	"slices"

	"battwright/rules"
)

// Prove runs every proof over the rule book: dead and contradicting rules,
// examples, coverage of places and materials, and the obligations.
func (c *Catalog) Prove() []rules.Finding {
	of := valuesOf(c.Kinds, c.Materials)
	out := c.Book().Prove()
	out = append(out, c.Book().Coverage(of["place"], of["material"], "facing")...)
	return append(out, c.Book().CheckObligations(slices.Concat(c.Obligations(), c.warned()))...)
}

// warned asks of each danger that a caution of its own fires in every kind of
// place where it may be.
func (c *Catalog) warned() []rules.Obligation {
	var out []rules.Obligation
	warnsOf := must(c.book()).warnsOf
	for _, d := range c.Dangers {
		for _, kind := range c.kindsWith(d.ID) {
			where := maps.Clone(d.Where)
			where["place"] = kind
			out = append(out, rules.Obligation{ID: "danger " + d.ID + " in " + kind, Where: where, Effect: rules.Safety, Rules: append([]string{}, warnsOf[d.ID]...)})
		}
	}
	return out
}

// FactCount and RuleCount size the book for the check command.
func (c *Catalog) FactCount() int { return len(c.Book().Facts()) }

// RuleCount is the number of rules in the book.
func (c *Catalog) RuleCount() int { return len(c.Book().Rules()) }
