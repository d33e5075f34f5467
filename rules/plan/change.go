package plan

import "battwright/rules/units"

// Change is what differs at one place between two plans of the same house.
type Change struct {
	Place    string // id
	Label    string
	From, To string // materials by name; empty means no blanket
	Product  bool   // same material, another blanket
	Cost     units.Cents
	Added    bool // the place is new
	Removed  bool
}

// Changes lists what differs between two plans, in the order of the places.
func Changes(before, after Plan) []Change {
	var out []Change
	old := map[string]Place{}
	for _, p := range before.Places {
		old[p.Surface.ID] = p
	}
	seen := map[string]bool{}
	for _, p := range after.Places {
		seen[p.Surface.ID] = true
		was, ok := old[p.Surface.ID]
		if !ok {
			out = append(out, Change{Place: p.Surface.ID, Label: p.Surface.Label, To: p.chosen(), Cost: p.cost(), Added: true})
			continue
		}
		c := Change{Place: p.Surface.ID, Label: p.Surface.Label, From: was.chosen(), To: p.chosen(), Cost: p.cost() - was.cost()}
		c.Product = c.From == c.To && c.From != "" && was.Choice.productKey() != p.Choice.productKey()
		if c.From != c.To || c.Product || c.Cost != 0 {
			out = append(out, c)
		}
	}
	for _, p := range before.Places {
		if !seen[p.Surface.ID] {
			out = append(out, Change{Place: p.Surface.ID, Label: p.Surface.Label, From: p.chosen(), Cost: -p.cost(), Removed: true})
		}
	}
	return out
}

func (p Place) chosen() string {
	if p.Choice == nil {
		return ""
	}
	return p.Choice.Name
}

func (p Place) cost() units.Cents {
	if p.Choice == nil {
		return 0
	}
	return p.Choice.Money.Total.Typical
}

func (e *Entry) productKey() string {
	key := e.Facing.OnBlanket + "/" + e.Facing.Sheet
	for _, l := range e.Layers {
		key += "/" + l.Product.ID
	}
	return key
}
