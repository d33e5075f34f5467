package candidate

import (
	"cmp"
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
	add := func(id string, there float64) {
		if p, ok := c.Price(id); ok && p.Unit == "usd_ft2" {
			per = per.Plus(lessThere(p.USD(), there))
			m.From = append(m.From, p.Ref)
		}
	}
	faceIn := false // a store's price is for the blanket as sold, face and all
	for i, l := range b.Layers {
		facing := "none"
		if i == 0 {
			facing = f.OnBlanket
		}
		there := 0.0
		if q, ok := house.FindQuote(s.Quotes, l.Product.ID, facing); ok {
			there = s.thereShare(l.Product, q)
		}
		if usd, ok := s.quotedUSD(l.Product.ID, facing); ok {
			per = per.Plus(lessThere(units.Same(usd), there))
			m.Quoted++
			faceIn = faceIn || i == 0
			continue
		}
		add(l.Product.ID, there)
	}
	for _, id := range []string{f.OnBlanket, f.Sheet} {
		if id == f.OnBlanket && faceIn {
			continue
		}
		if record, ok := c.Facing(id); ok && record.Price != "" {
			add(record.Price, 0)
		}
	}
	if s.Kind.Supports != "" && s.Kind.Supports != "none" {
		add(s.Kind.Supports, 0)
	} else if f.OnBlanket != "none" || f.Sheet != "" {
		add("staples", 0)
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

// typicalUSD is what a product costs for choosing between stacks: the lowest price of
// its kinds, for which face it will have is open yet, less what is there already.
func (s Surface) typicalUSD(p *catalog.Product, c *catalog.Catalog) float64 {
	usd, there := c.UnitPrice(p.ID).Typical, 0.0
	for _, q := range s.Quotes {
		if q.Product == p.ID {
			there = max(there, s.thereShare(p, q))
			if own, ok := q.USDPerFt2(); ok {
				usd = min(usd, own)
			}
		}
	}
	return usd * (1 - there)
}

// thereShare is the part of the place that packages of a quote cover which are there
// already and need not be bought. Other places may want them too: only a bill counts
// them once.
func (s Surface) thereShare(p *catalog.Product, q house.Quote) float64 {
	ft2 := q.CoverageFt2
	if ft2 <= 0 {
		width, length, pieces := cmp.Or(q.WidthIn, p.WidthsIn[0]), cmp.Or(q.LengthIn, p.LengthsIn[0]), cmp.Or(q.Pieces, p.Pieces, 1)
		ft2 = width * length / (units.InchPerFoot * units.InchPerFoot) * float64(pieces)
	}
	return min(1, float64(q.Have)*ft2/max(s.AreaFt2, 1))
}

func lessThere(r units.Range[float64], there float64) units.Range[float64] {
	return units.Range[float64]{Low: r.Low * (1 - there), Typical: r.Typical * (1 - there), High: r.High * (1 - there)}
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
