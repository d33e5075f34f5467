package plan

import (
	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Assess works out every place of a house. Linear in places and products.
func Assess(a house.Answered) Assessment {
	out := Assessment{Answered: a, counter: bill.NewCounter(a), Site: candidate.ResolveSite(a)}
	for i := range a.House.Places {
		out.Places = append(out.Places, candidate.Assess(a, &a.House.Places[i], out.Site))
	}
	return out
}

// Update works out one place again after an answer about it changed, and
// keeps the rest. The caller passes the house as it is now.
func (a Assessment) Update(now house.Answered, placeID string) Assessment {
	if len(now.House.Places) != len(a.Places) || isOld(now) != isOld(a.Answered) {
		return Assess(now)
	}
	// The site is cheap and knows of dehumidifiers, which are asked by place.
	out := Assessment{Answered: now, counter: bill.NewCounter(now), Site: candidate.ResolveSite(now), Places: append([]candidate.PlaceResult{}, a.Places...)}
	changed := now.House.Place(placeID)
	for i := range now.House.Places {
		p := &now.House.Places[i]
		if p.ID == placeID || changed != nil && reaches(now, changed, p) {
			out.Places[i] = candidate.Assess(now, p, out.Site)
		}
	}
	return out
}

// isOld is what counts of the question about old parts: an answer about one place
// can belie it for all.
func isOld(a house.Answered) (out struct{ known, yes bool }) {
	v := a.Value(house.Top, nil, "old")
	out.known, out.yes = v.Known, v.Answer.Bool
	return out
}

// reaches reports whether an answer about one place can change what is true of
// another: what is asked of a slope hangs on the areas of all ceilings, what an
// attic holds can run down into what is below it, what a chimney is made of decides
// about the flue through others, where it stands about the board of walls and rims and
// these about the framing behind it, and whether fans blow outdoors is told once.
func reaches(a house.Answered, changed, other *house.Place) bool {
	kind, others := a.KindOf(changed), a.KindOf(other)
	return others.SlopeHoldsLess() || kind.Airway == catalog.AirwayEaves ||
		kind.BesideChimney || kind.AreaOf == catalog.AreaWalls && others.BesideChimney ||
		a.Has(changed, "bath_fan_outside") && a.Has(other, "bath_fan_outside")
}

// Make is Assess and Weigh with the preferences of the house itself.
func Make(a house.Answered) Plan {
	return Assess(a).Weigh(PreferencesOf(a, nil))
}

// OfVariant is the plan of a saved plan: by the priorities, the budget and the
// hands that it keeps, whatever those of the house are by now.
func (a Assessment) OfVariant(v house.Variant) Plan {
	now := a.Answered
	now.House = v.Over(now.House)
	hands := func(of house.Answered) string { return of.Text(house.Budget, nil, "labor") }
	if hands(now) != hands(a.Answered) {
		return Make(now)
	}
	return a.Weigh(PreferencesOf(a.Answered, &v))
}

// PreferencesOf reads priorities and budget from the house, or from a saved
// plan laid over it.
func PreferencesOf(a house.Answered, v *house.Variant) Preferences {
	if v != nil {
		a.House = v.Over(a.House)
	}
	out := Preferences{Priorities: map[string]float64{}, Places: map[string]map[string]float64{}}
	for _, k := range a.List.Catalog().Criteria {
		out.Priorities[k.ID] = a.Num(house.Priorities, nil, k.ID)
	}
	for _, p := range a.House.Places {
		for _, k := range a.List.Catalog().Criteria {
			if own := p.Answers["priorities."+k.ID]; own.State == house.Given {
				if out.Places[p.ID] == nil {
					out.Places[p.ID] = map[string]float64{}
				}
				out.Places[p.ID][k.ID] = own.Number
			}
		}
	}
	if b := a.Value(house.Budget, nil, "total_usd"); b.Source == house.FromAnswer {
		out.Budget, out.HasBudget = units.FromDollars(b.Answer.Number), true
	}
	out.Spend = out.HasBudget && a.Text(house.Budget, nil, "use") == spendIt
	out.Stakes = stakesOf(a)
	return out
}
