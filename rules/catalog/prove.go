package catalog

import "battwright/rules"

// Prove runs every proof over the rule book: dead and contradicting rules,
// examples, coverage of places and materials, and the obligations.
func (c *Catalog) Prove() []rules.Finding {
	var kinds, materials []string
	for _, k := range c.Kinds {
		kinds = append(kinds, k.ID)
	}
	for _, m := range c.Materials {
		materials = append(materials, m.ID)
	}
	out := c.Book().Prove()
	out = append(out, c.Book().Coverage(kinds, materials, "facing")...)
	return append(out, c.Book().CheckObligations(c.Obligations())...)
}

// FactCount and RuleCount size the book for the check command.
func (c *Catalog) FactCount() int { return len(c.Book().Facts()) }

// RuleCount is the number of rules in the book.
func (c *Catalog) RuleCount() int { return len(c.Book().Rules()) }
