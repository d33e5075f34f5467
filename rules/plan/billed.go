package plan

import (
	"slices"

	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/house"
	"battwright/rules/units"
)

// BillOf is what the plan takes and costs, by the answers as they are now.
func (p Plan) BillOf(a house.Answered) bill.Bill { return p.billBy(bill.NewCounter(a)) }

func (p Plan) billBy(counter *bill.Counter) bill.Bill {
	out := counter.Bill(itemsOf(p.Places))
	if p.Bill.Money.HasBudget {
		out.Money.Within(p.Bill.Money.Budget)
	}
	return out
}

// itemsOf are the places as they are counted.
func itemsOf(places []Place) []bill.Item {
	items := make([]bill.Item, len(places))
	for i := range places {
		items[i] = places[i].item()
	}
	return items
}

// item is the place as it is counted. Where nobody may begin nothing is; where
// no blanket goes in, what it calls for all the same.
func (p *Place) item() bill.Item {
	it := bill.Item{Place: &p.PlaceResult, Calls: p.Calls, Closed: p.Stopped() || p.Surface.Held() != ""}
	if p.Choice != nil {
		it.Choice = &p.Choice.Assessed
	}
	return it
}

// itemWith is the place with a build-up in it.
func itemWith(p *Place, a *candidate.Assessed) bill.Item {
	return bill.Item{Place: &p.PlaceResult, Choice: a, Calls: candidate.CallsOf(a.Verdict)}
}

// shop prices what a place might have instead, each once: a first look asks for all of
// them at every key.
type shop struct {
	counter *bill.Counter
	items   []bill.Item
	at      int

	total units.Cents // of the plan, typical

	asked bill.Asked[instead]
}

// instead is the bill of the plan with another build-up in one place.
type instead struct {
	share bill.PlaceMoney
	total units.Cents
}

// charge makes the bill, and gives every place its share.
func (p *Plan) charge(counter *bill.Counter) {
	p.Bill = p.billBy(counter)
	items := itemsOf(p.Places)
	for i := range p.Places {
		p.Places[i].Cost = p.Bill.Places[i].Money
		p.Places[i].shop = &shop{counter: counter, items: items, at: i, total: p.Bill.Money.Total.Typical}
	}
}

// CostOf is what the place costs in the plan with a build-up of its own: the one
// chosen, or another in its stead.
func (p Place) CostOf(a *candidate.Assessed) bill.PlaceMoney {
	switch {
	case p.Choice != nil && same(p.Choice.Assessed, *a):
		return p.Cost
	case p.shop == nil || p.Stopped() || p.Surface.Held() != "":
		return bill.PlaceMoney{}
	}
	return p.with(a).share
}

// More is what the plan costs more with another build-up in the place, typically; below
// 0: less. Packages are counted anew over all places.
func (p Place) More(a *candidate.Assessed) units.Cents {
	if p.shop == nil || p.Stopped() || p.Surface.Held() != "" || p.Choice != nil && same(p.Choice.Assessed, *a) {
		return 0
	}
	return p.with(a).total - p.shop.total
}

func (p Place) with(a *candidate.Assessed) instead {
	x := p.shop
	return x.asked.Of(stackID(*a)+"/"+a.Facing.Sheet, func() instead {
		items := slices.Clone(x.items)
		items[x.at] = itemWith(&p, a)
		made := x.counter.Bill(items)
		return instead{made.Places[x.at].Money, made.Money.Total.Typical}
	})
}

func same(a, b candidate.Assessed) bool {
	return stackID(a) == stackID(b) && a.Facing.Sheet == b.Facing.Sheet
}

// Over is by how much the bill is above the budget, 0 when within.
func (p Plan) Over() units.Cents {
	if m := p.Bill.Money; m.HasBudget {
		return max(0, m.Total.Typical-m.Budget)
	}
	return 0
}

// useUp lets a place have another stack of its material, of the same standing and no
// more layers, where packages of that are there already and the bill is less for it.
func (p *Plan) useUp(counter *bill.Counter) {
	for i := range p.Places {
		place := &p.Places[i]
		if place.Choice == nil {
			continue
		}
		for j := range place.Candidates {
			v := &place.Candidates[j]
			if v.There && v.Material.ID == place.Choice.MaterialID && len(v.Layers) <= len(place.Choice.Layers) && place.standsLikeChoice(v) && place.More(v) < 0 {
				if place.dampen(j); place.standsLikeChoice(v) {
					best := place.Best // no budget had a say
					p.put(i, *v)
					place.Best = best
					p.charge(counter)
					break
				}
			}
		}
	}
}

func (p *Place) standsLikeChoice(v *candidate.Assessed) bool {
	return !v.Excluded() && standingOf(v, p.Surface.Waived).compare(standingOf(&p.Choice.Assessed, p.Surface.Waived)) == 0
}
