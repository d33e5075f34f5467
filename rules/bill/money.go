package bill

import (
	"battwright/rules/budget"
	"battwright/rules/units"
)

// biggerHalf: odds are given only when the builder's own prices make up more
// than half of the money. Odds from guesses would be guesses with decimals.
const biggerHalf = 0.5

// How a budget sits with the order.
const (
	Holds       = "holds"
	MayHold     = "may-hold"
	DoesNotHold = "does-not-hold"
)

// Word is how the budget sits with the sum of the order: it holds at the high
// prices with nothing left without a price, it does not at the typical ones, or
// it may. Empty without a budget or where nothing is counted.
func (m Money) Word() string {
	switch {
	case !m.HasBudget || m.Priced == 0:
		return ""
	case m.Budget < m.Total.Typical:
		return DoesNotHold
	case m.Budget >= m.Total.High && len(m.Without) == 0:
		return Holds
	}
	return MayHold
}

// money prices the whole order and deals it out to the places.
func (m *maker) money() {
	var sum []units.Range[units.Cents]
	out := &m.out.Money
	quoted := units.Cents(0)
	for i := range m.out.Lines {
		l := &m.out.Lines[i]
		sum = append(sum, l.Cost)
		if l.Quoted {
			quoted += l.Cost.Typical
		} else {
			out.Year, out.Known = worst(out.Year, out.Known, l.Year, l.Ref.Known)
		}
		m.dealRange(l.Cost, l.byPlace, func(i int, c units.Range[units.Cents]) {
			m.out.Places[i].Money.Blankets = m.out.Places[i].Money.Blankets.Plus(c)
		})
	}
	add := func(list []Goods, to func(*PlaceMoney) *units.Range[units.Cents]) {
		for _, g := range list {
			if !g.Priced {
				continue
			}
			sum = append(sum, g.Cost)
			out.Year, out.Known = worst(out.Year, out.Known, g.Year, g.Ref.Known)
			m.dealRange(g.Cost, g.byPlace, func(i int, c units.Range[units.Cents]) {
				share := to(&m.out.Places[i].Money)
				*share = share.Plus(c)
			})
		}
	}
	add(m.out.Goods, func(p *PlaceMoney) *units.Range[units.Cents] { return &p.Extras })
	add(m.out.Gear, func(p *PlaceMoney) *units.Range[units.Cents] { return &p.Gear })
	for _, g := range m.out.Goods {
		if !g.Priced {
			out.Without = append(out.Without, g.Name)
		}
	}
	for _, p := range m.out.Places {
		if p.Problem != "" {
			out.Without = append(out.Without, p.Label+", which could not be counted")
		}
	}
	sum = append(sum, m.labor()...)
	m.add()
	if t := out.Total.Typical; t > 0 {
		out.QuotedShare = float64(quoted) / float64(t)
	}
	out.sum = sum
	out.odds()
}

// labor is what an installer asks for the work, where one does it.
func (m *maker) labor() []units.Range[units.Cents] {
	var sum []units.Range[units.Cents]
	for i := range m.out.Places {
		p := &m.out.Places[i]
		if p.Self || !p.Counted {
			continue
		}
		price, ok := m.c.Price(m.items[i].Place.Surface.Kind.Labour)
		if !ok {
			continue
		}
		p.Money.Labour = units.CentsOver(price.USD(), p.AreaFt2)
		m.out.Money.Year, m.out.Money.Known = worst(m.out.Money.Year, m.out.Money.Known, price.Year, price.Ref.Known)
		sum = append(sum, p.Money.Labour)
	}
	return sum
}

func (m *maker) add() {
	all := &m.out.Money
	for i := range m.out.Places {
		p := &m.out.Places[i]
		p.Money.Total = p.Money.Blankets.Plus(p.Money.Extras).Plus(p.Money.Gear).Plus(p.Money.Labour)
		all.Blankets = all.Blankets.Plus(p.Money.Blankets)
		all.Extras = all.Extras.Plus(p.Money.Extras)
		all.Gear = all.Gear.Plus(p.Money.Gear)
		all.Labour = all.Labour.Plus(p.Money.Labour)
		all.Total = all.Total.Plus(p.Money.Total)
		if p.Counted {
			all.Priced++
			switch {
			case p.Quoted > 0 && p.Quoted == len(p.Layers):
				all.Quoted++
			case p.Quoted > 0:
				all.PartQuoted++
			}
		}
	}
}

// Within holds a bill against a budget.
func (m *Money) Within(limit units.Cents) {
	m.Budget, m.HasBudget = limit, true
	m.odds()
}

// odds are worked out once the builder's own prices carry the bigger half.
func (m *Money) odds() {
	if m.QuotedShare <= biggerHalf || len(m.sum) == 0 {
		return
	}
	total, err := budget.Sum(m.sum)
	if err != nil {
		return // prices beyond what can be summed: the range stands without odds
	}
	if m.HasBudget {
		odds := total.Within(m.Budget)
		m.Odds = &odds
	}
	if enough, err := total.Percentile(0.9); err == nil {
		m.Enough = &enough
	}
}
