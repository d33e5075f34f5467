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
	out, _ := a.again(now, "")
	return out
}

// again is Assess with what the answers do not reach kept, and which places they
// reach. With an id nothing but that place is looked at.
func (a Assessment) again(now house.Answered, placeID string) (out Assessment, reached []int) {
	out = Assessment{Answered: now, Site: candidate.ResolveSite(now), Places: make([]candidate.PlaceResult, 0, len(now.House.Places))}
	sameSite := reflect.DeepEqual(out.Site, a.Site)
	for i := range now.House.Places {
		was := candidate.PlaceResult{}
		if i < len(a.Places) {
			was = a.Places[i]
		}
		same := placeID != "" && now.House.Places[i].ID != placeID
		if !same {
			was, same = was.Again(now, &now.House.Places[i], out.Site, sameSite)
		}
		if !same {
			reached = append(reached, i)
		}
		out.Places = append(out.Places, was)
	}
	return out, reached
}
