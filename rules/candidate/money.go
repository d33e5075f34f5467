package candidate

import (
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Money is what a square foot of a place costs with one stack of blankets, to rank
// it by. What a plan takes in whole packages, and what that costs, is a bill.
type Money struct {
	PerFt2 units.Range[float64] // dollars: blankets, facing, retarder, supports, gear, an installer's work
	Quoted int                  // how many of the layers the builder has typed a price for
	From   []catalog.Ref
}

// AllQuoted reports whether every blanket is at the builder's own price.
func (m Money) AllQuoted(layers int) bool { return layers > 0 && m.Quoted == layers }

func moneyOf(s Surface, c *catalog.Catalog, b Blankets, f Facing) Money {
	var per units.Range[float64]
	var m Money
	add := func(id string) {
		if p, ok := c.Price(id); ok && p.Unit == "usd_ft2" {
			per = per.Plus(p.USD())
			m.From = append(m.From, p.Ref)
		}
	}
	faceIn := false // a store's price is for the blanket as sold, face and all
	for i, l := range b.Layers {
		facing := "none"
		if i == 0 {
			facing = f.OnBlanket
		}
		if usd, ok := s.quotedUSD(l.Product.ID, facing); ok {
			per = per.Plus(units.Same(usd))
			m.Quoted++
			faceIn = faceIn || i == 0
			continue
		}
		add(l.Product.ID)
	}
	for _, id := range []string{f.OnBlanket, f.Sheet} {
		if id == f.OnBlanket && faceIn {
			continue
		}
		if record, ok := c.Facing(id); ok && record.Price != "" {
			add(record.Price)
		}
	}
	if s.Kind.Supports != "" && s.Kind.Supports != "none" {
		add(s.Kind.Supports)
	} else if f.OnBlanket != "none" || f.Sheet != "" {
		add("staples")
	}
	m.PerFt2 = per.Plus(units.Same(b.Material.GearUSDPerFt2))
	if p, ok := c.Price(s.Kind.Labour); ok && s.Labour != "self" {
		m.PerFt2 = m.PerFt2.Plus(c.UnitPrice(s.Kind.Labour))
		m.From = append(m.From, p.Ref)
	}
	m.From = uniqueRefs(m.From)
	return m
}

// quotedUSD is the builder's own price per square foot of a product, the face
// included; ok is false when there is none.
func (s Surface) quotedUSD(product, facing string) (usd float64, ok bool) {
	q, found := house.FindQuote(s.Quotes, product, facing)
	if !found {
		return 0, false
	}
	return q.USDPerFt2()
}

// typicalUSD is what a product costs for choosing between stacks: the builder's price
// where there is one, the lowest where its face is open yet.
func (s Surface) typicalUSD(p *catalog.Product, faces []string, c *catalog.Catalog) float64 {
	least := math.Inf(1)
	for _, face := range faces {
		usd := c.UnitPrice(p.ID).Typical
		if q, ok := house.FindQuote(s.Quotes, p.ID, face); ok {
			if own, priced := q.USDPerFt2(); priced {
				usd = own
			}
		}
		least = min(least, usd)
	}
	return least
}

// there reports whether packages of a product are there already.
func (s Surface) there(p *catalog.Product) bool {
	return slices.ContainsFunc(s.Quotes, func(q house.Quote) bool { return q.Product == p.ID && q.Have > 0 })
}

func uniqueRefs(refs []catalog.Ref) []catalog.Ref {
	out := make([]catalog.Ref, 0, len(refs))
	for _, r := range refs {
		if r.Source != "" && !slices.Contains(out, r) { // a dozen at most
			out = append(out, r)
		}
	}
	return out
}
