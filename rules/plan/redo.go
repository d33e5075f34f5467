package plan

import (
	"reflect"
	"strings"

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
	var out Assessment
	out.Answered = now
	out.Site = a.again(now, "", func(_ int, r candidate.PlaceResult, _ bool) { out.Places = append(out.Places, r) })
	return out
}

// again gives each place as Assess has it, with what the answers do not reach
// kept, and whether none of them reaches it. With an id it gives that place alone.
func (a Assessment) again(now house.Answered, placeID string, each func(i int, r candidate.PlaceResult, same bool)) candidate.Site {
	site := candidate.ResolveSite(now)
	sameSite := reflect.DeepEqual(site, a.Site)
	for i := range now.House.Places {
		p, was := &now.House.Places[i], candidate.PlaceResult{}
		if placeID != "" && p.ID != placeID {
			continue
		}
		if i < len(a.Places) {
			was = a.Places[i]
		}
		r, same := was.Again(now, p, site, sameSite)
		each(i, r, same)
	}
	return site
}
