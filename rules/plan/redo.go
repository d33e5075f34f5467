package plan

import (
	"strings"

	"battwright/rules/bill"
	"battwright/rules/candidate"
	"battwright/rules/house"
)

// Reach is how far an answer reaches: what must be worked out again after it.
type Reach int

// The reaches, from the least work to the most.
const (
	WeightsOnly Reach = iota // priorities and budget: all stays, it is weighed again
	OnePlace                 // what is worked out about one place
	WholeHouse
)

// ReachOf tells how far an answer to a question reaches, for every way of
// asking it. The place is the one asked about, nil outside places.
func ReachOf(q house.Question, p *house.Place) Reach {
	switch {
	case q.Scope == house.Priorities, q.Scope == house.Budget && q.Key == "total_usd":
		return WeightsOnly
	case q.Scope != house.PlaceScope || p == nil:
		return WholeHouse
	case strings.HasPrefix(q.Key, "priorities."):
		return WeightsOnly
	case q.GivesArea(), q.TellsOthers(): // places of a kind share what the shape gives
		return WholeHouse
	}
	return OnePlace
}

// Redo works out again what an answer reached and keeps the rest. The caller
// passes the house as it is now, and the place for OnePlace.
func (a Assessment) Redo(now house.Answered, reach Reach, placeID string) Assessment {
	switch reach {
	case WeightsOnly:
		a.Answered = now
		return a
	case OnePlace:
		return a.Update(now, placeID)
	}
	site, kept := a.Site.After(now, false)
	out := Assessment{Answered: now, counter: bill.NewCounter(now), Site: site}
	for i := range now.House.Places {
		out.Places = append(out.Places, a.revise(now, i, &site, kept).Finish())
	}
	return out
}

// revise begins a place again, with what the answers do not reach kept.
func (a Assessment) revise(now house.Answered, i int, site *candidate.Site, kept candidate.Kept) candidate.Begun {
	var was candidate.PlaceResult
	if i < len(a.Places) {
		was = a.Places[i]
	}
	return was.Revise(now, &now.House.Places[i], site, kept)
}
