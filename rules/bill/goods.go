package bill

import (
	"cmp"
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// goods adds up the extras of all places and rounds each once.
func (m *maker) goods() {
	at := map[string]int{}
	for i, p := range m.out.Places {
		for _, x := range p.Extras {
			n, ok := at[x.ID]
			if !ok {
				n = len(m.out.Goods)
				at[x.ID] = n
				g := Goods{Extra: x, byPlace: make([]float64, len(m.out.Places))}
				g.Qty, g.Ft2 = 0, 0
				m.out.Goods = append(m.out.Goods, g)
			}
			g := &m.out.Goods[n]
			g.Qty += x.Qty
			g.Ft2 += x.Ft2
			g.byPlace[i] += x.Qty
			if g.Note != x.Note {
				g.Note = cmp.Or(min(g.Note, x.Note), max(g.Note, x.Note)) // one of them, whatever the order of places
			}
			if !slices.Contains(g.Places, p.Label) {
				g.Places = append(g.Places, p.Label)
			}
		}
	}
	for i := range m.out.Goods {
		m.finish(&m.out.Goods[i])
	}
	slices.SortFunc(m.out.Goods, func(a, b Goods) int {
		return cmp.Or(cmp.Compare(goodsOrder(a), goodsOrder(b)), cmp.Compare(a.ID, b.ID))
	})
}

// goodsOrder puts what must be settled first on top: boards and shields want a
// quote, sealing comes before blankets.
func goodsOrder(g Goods) int {
	switch {
	case g.Quote:
		return 0
	case g.ID == "sealant":
		return 1
	}
	return 2
}

// finish rounds to what is sold and prices it.
func (m *maker) finish(g *Goods) {
	slices.Sort(g.Places)
	g.Count = ceil(g.Qty / m.holds(g.Unit))
	p, ok := m.c.Price(g.Price)
	if !ok || g.Quote {
		return
	}
	g.Priced, g.Year, g.Ref = true, p.Year, p.Ref
	if p.Unit == "usd_each" {
		g.Cost = units.CentsOver(p.USD(), float64(g.Count))
		return
	}
	g.Cost = units.CentsOver(p.USD(), g.Ft2)
}

// holds is how much of an extra is in what is sold of it.
func (m *maker) holds(unit string) float64 {
	id := map[string]string{"tube": "sealant-tube", "board": "board-sheet", "paint": "paint-cover"}[unit]
	if id == "" {
		return 1
	}
	return max(m.c.Figure(id).Value, 1e-9)
}

// ceil rounds up, but not for the last bits of a sum, and not beyond an int.
func ceil(v float64) int {
	const most = 1e9
	if math.IsNaN(v) {
		return 0
	}
	return int(math.Ceil(min(most, max(0, v)) - 1e-9))
}

// hours are the hours of one place, a person's: the builders' own, or an
// installer's.
func (m *maker) hours(it *Item) units.Range[float64] {
	area := it.Place.Surface.AreaFt2 * float64(len(it.Choice.Layers))
	if it.Place.Surface.Labour == "self" {
		return times(it.Place.Surface.Kind.Hours(area), catalog.EffortPeople)
	}
	h := times(m.c.Figure("hours-crew").Range(), area)
	if it.Place.Surface.Kind.Labour == "labor-crawl" {
		h = times(h, m.c.Figure("hours-crawl").Value)
	}
	return h
}

// gear is for those who do it themselves; an installer brings his own.
func (m *maker) gear() {
	own := 0.0
	weights := make([]float64, len(m.out.Places))
	for i, p := range m.out.Places {
		if p.Self {
			own += p.Hours.Typical
			weights[i] = p.Hours.Typical
		}
	}
	if own <= 0 {
		return
	}
	m.out.People = max(1, ceil(m.c.Figure("people").Value))
	m.out.Days = max(1, ceil(own/float64(m.out.People)/max(m.c.Figure("hours-day").Value, 1)))
	masks := 0
	for _, g := range m.c.GearList() {
		n := 1
		switch g.Each {
		case "person":
			n = m.out.People
		case "day":
			n = m.out.People * m.out.Days
			masks = n
		}
		m.out.Gear = append(m.out.Gear, Goods{Extra: Extra{ID: g.ID, Name: g.Name, Unit: "each", Qty: float64(n)}, Count: n, Ref: g.Ref})
	}
	// One price for the set of a person, the first mask in it.
	set := Goods{Extra: Extra{ID: "gear-set", Name: "gear", Unit: "each", Qty: float64(m.out.People), Price: "gear-set"}, Count: m.out.People, byPlace: weights}
	if p, ok := m.c.Price("gear-set"); ok {
		set.Priced, set.Year, set.Ref = true, p.Year, p.Ref
		set.Cost = units.CentsOver(p.USD(), float64(m.out.People))
		set.Cost = set.Cost.Plus(units.CentsOver(m.c.UnitPrice("mask"), float64(max(0, masks-m.out.People))))
	}
	for i := range m.out.Gear {
		m.out.Gear[i].Priced = false
	}
	m.out.Gear = append(m.out.Gear, set)
}
