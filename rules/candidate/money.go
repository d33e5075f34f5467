package candidate

import (
	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Money is what a place costs with one stack of blankets.
type Money struct {
	PerFt2   units.Range[float64]     // dollars per square foot, everything that counts for the cost priority
	Material units.Range[units.Cents] // blankets, facing, retarder, supports, staples
	Gear     units.Range[units.Cents] // masks, gloves and the like, this place's part
	Labour   units.Range[units.Cents] // nothing where the builder does it
	Total    units.Range[units.Cents]
	From     []catalog.Ref
}

func moneyOf(s Surface, c *catalog.Catalog, b Blankets, f Facing) Money {
	var per units.Range[float64]
	var m Money
	add := func(id string) {
		if p, ok := c.Price(id); ok && p.Unit == "usd_ft2" {
			per = per.Plus(p.USD())
			m.From = append(m.From, p.Ref)
		}
	}
	for _, l := range b.Layers {
		add(l.Product.ID)
	}
	for _, id := range []string{f.OnBlanket, f.Sheet} {
		if record, ok := c.Facing(id); ok && record.Price != "" {
			add(record.Price)
		}
	}
	if s.Kind.Supports != "" && s.Kind.Supports != "none" {
		add(s.Kind.Supports)
	} else if f.OnBlanket != "none" || f.Sheet != "" {
		add("staples")
	}
	m.Material = units.CentsOver(per, s.AreaFt2)
	gear := units.Same(b.Material.GearUSDPerFt2)
	m.Gear = units.CentsOver(gear, s.AreaFt2)
	m.PerFt2 = per.Plus(gear)
	if s.Labour != "self" {
		wage := c.UnitPrice(s.Kind.Labour)
		m.Labour = units.CentsOver(wage, s.AreaFt2)
		m.PerFt2 = m.PerFt2.Plus(wage)
		if p, ok := c.Price(s.Kind.Labour); ok {
			m.From = append(m.From, p.Ref)
		}
	}
	m.Total = m.Material.Plus(m.Gear).Plus(m.Labour)
	m.From = uniqueRefs(m.From)
	return m
}

func uniqueRefs(refs []catalog.Ref) []catalog.Ref {
	var out []catalog.Ref
	seen := map[catalog.Ref]bool{}
	for _, r := range refs {
		if r.Source != "" && !seen[r] {
			seen[r] = true
			out = append(out, r)
		}
	}
	return out
}
