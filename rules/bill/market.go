package bill

import (
	"battwright/rules/budget"
	"battwright/rules/units"
)

// Take is what a build-up takes of a bill, at typical prices.
type Take struct {
	Own     units.Cents // what is measured out for the place alone, and an installer's work
	Counted bool
	Uses    []budget.Use // out of packages, tubes and the like
}

// Market is what the build-ups of each place take, and what that is bought in. Pieces
// of each place are cut by themselves, and gear is left out: a bill of the set is at
// most some offcuts less, and the gear more.
func (k *Counter) Market(options [][]Item) (takes [][]Take, packs []budget.Pack) {
	k.mu.Lock()
	defer k.mu.Unlock()
	x := market{maker: &maker{a: k.a, c: k.c, kept: k}, at: map[any]int{}, had: map[string]bool{}}
	for _, items := range options {
		list := make([]Take, len(items))
		for i := range items {
			list[i] = x.take(&items[i])
		}
		takes = append(takes, list)
	}
	return takes, x.packs
}

type market struct {
	*maker
	at    map[any]int     // by blanket, or by id of an extra
	had   map[string]bool // labels whose packages that are there are counted
	packs []budget.Pack
}

func (x *market) take(it *Item) (out Take) {
	p := x.place(it)
	out.Counted = p.Counted
	for i := range p.Layers {
		l := &p.Layers[i]
		at := x.pack(l.key, func() budget.Pack {
			line, label := x.sold(l)
			pack := budget.Pack{Holds: float64(line.PerPackage), Cost: units.FromDollars(line.PerPack.Typical)}
			if !x.had[label.of] { // they are taken off once for a label
				pack.Have, x.had[label.of] = label.have, true
			}
			return pack
		})
		out.Uses = append(out.Uses, budget.Use{Pack: at, Qty: float64(l.Stock) * (1 + l.spare)})
	}
	for _, e := range p.Extras {
		price, ok := x.c.Price(e.Price)
		switch {
		case !ok || e.Quote:
		case price.Unit == "usd_each":
			at := x.pack(e.ID, func() budget.Pack {
				return budget.Pack{Holds: x.holds(e.Unit), Cost: units.FromDollars(price.Typical)}
			})
			out.Uses = append(out.Uses, budget.Use{Pack: at, Qty: e.Qty})
		default:
			out.Own += units.CentsOver(price.USD(), e.Ft2).Typical
		}
	}
	if price, ok := x.c.Price(it.Place.Surface.Kind.Labour); ok && !p.Self && p.Counted {
		out.Own += units.CentsOver(price.USD(), p.AreaFt2).Typical
	}
	return out
}

// pack is the number of what something is bought in.
func (x *market) pack(key any, of func() budget.Pack) int {
	at, ok := x.at[key]
	if !ok {
		at = len(x.packs)
		x.at[key] = at
		x.packs = append(x.packs, of())
	}
	return at
}
