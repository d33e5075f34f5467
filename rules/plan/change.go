package plan

import (
	"slices"

	"battwright/rules/units"
)

// Change is what differs at one place between two plans of the same house.
type Change struct {
	Place    string // id
	Label    string
	From, To string // materials by name; empty means no blanket
	Product  bool   // same material, another blanket
	Cost     units.Cents
	Board    [2]float64 // R of the board to buy, before and after
	First    Waiting    // what comes before the work there, against what did
	Added    bool       // the place is new
	Removed  bool
	price    bool // the price of a square foot, or how many there are, is another
}

// OfWork reports whether the blanket, its face or its cost changed, not only what
// comes before the work.
func (c Change) OfWork() bool { return c.From != c.To || c.Product || c.price }

// Waiting is how what stops a place, or must be found out or settled first there,
// differs between two plans.
type Waiting int

// The ways it can differ.
const (
	WaitsAlike Waiting = iota
	WaitsLess
	WaitsOtherwise // other things, or more of them
	Halts          // nothing stopped the place before
)

// waiting compares what comes first at a place in two plans.
func waiting(was, now Place) Waiting {
	a, b := was.firstRules(), now.firstRules()
	switch {
	case now.Stopped() && !was.Stopped():
		return Halts
	case slices.ContainsFunc(b, func(x string) bool { return !slices.Contains(a, x) }):
		return WaitsOtherwise
	case len(b) < len(a):
		return WaitsLess
	}
	return WaitsAlike
}

// firstRules are the rules behind Heads; one that asks differs from one that is
// known to hold.
func (p Place) firstRules() []string {
	var out []string
	for _, s := range p.Stops {
		out = append(out, s.Danger)
	}
	for _, s := range p.Also {
		out = append(out, s.Danger+"?")
	}
	for _, h := range slices.Concat(p.Asks(), p.Settles()) {
		id := h.Rule.ID
		if len(h.Unknown) > 0 {
			id += "?"
		}
		out = append(out, id)
	}
	return out
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
		c.price = was.rough() != p.rough()
		c.First, c.Board = waiting(was, p), [2]float64{was.boardToBuy(), p.boardToBuy()}
		if c.OfWork() || c.Board[0] != c.Board[1] || c.First != WaitsAlike {
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

// boardToBuy is the R of the board that goes with the choice, 0 without one.
func (p Place) boardToBuy() float64 {
	if p.Choice == nil {
		return 0
	}
	return p.Target.AddR
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
	return p.Cost.Total.Typical
}

// rough is the area times the price of a square foot, which no other place changes.
func (p Place) rough() units.Cents {
	if p.Choice == nil {
		return 0
	}
	return units.CentsOver(p.Choice.Money.PerFt2, p.Surface.AreaFt2).Typical
}

func (e *Entry) productKey() string {
	key := e.Facing.OnBlanket + "/" + e.Facing.Sheet
	for _, l := range e.Layers {
		key += "/" + l.Product.ID
	}
	return key
}
