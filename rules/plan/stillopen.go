package plan

import (
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// Open is one thing that can still be changed before the place is framed, and
// what the plan of the place would be with it.
type Open struct {
	What  string // "2x8 instead of 2x6"
	Until string // last moment to decide
	Place Place
	Now   bool // as it is
}

// openChange is one answer that can still be given otherwise; what to try stands
// with the kind of the place.
type openChange struct{ key, until, after string }

func (o openChange) words(q house.Question, a house.Answered, v house.Answer) string {
	return q.Show(v, a.System) + o.after
}

// openChanges are the usual choices of the framing stage.
var openChanges = []openChange{
	{"framing.size", "before framing", ""},
	{"framing.spacing_in", "before framing", " from middle to middle"},
	{"ci_r", "before the siding", " board outside the studs"},
	{"heel_in", "before the trusses are ordered", " of room above the outside wall"},
	{"foam_r", "before the studs go up", " foam board behind"},
}

// tries are the answers to compare: the numbers of the kind, or its sizes of lumber.
func tries(kind catalog.PlaceKind, q house.Question) []house.Answer {
	var out []house.Answer
	if q.Kind == house.Choice {
		for _, s := range kind.Sizes {
			out = append(out, house.Text(s))
		}
	}
	for _, v := range kind.StillOpen[q.Key] {
		out = append(out, house.Number(v))
	}
	return out
}

// StillOpen compares what can still be changed about a place: each usual
// answer in turn, the others as they are. Empty once the house is framed.
func (a Assessment) StillOpen(prefs Preferences, placeID string) []Open {
	ans := a.Answered
	if ans.Text(house.Top, nil, "stage") != "not-framed" {
		return nil
	}
	p := ans.House.Place(placeID)
	if p == nil {
		return nil
	}
	var out []Open
	kind, _ := ans.List.Catalog().Kind(p.Kind)
	for _, c := range openChanges {
		q, ok := ans.List.Find("place." + c.key)
		if _, open := kind.StillOpen[c.key]; !ok || !open || !q.For(p.Kind) || !ans.Asked(q, p) {
			continue
		}
		now := ans.ValueOf(q, p).Answer
		for _, v := range tries(kind, q) {
			placed, ok := a.with(prefs, q, placeID, v)
			if !ok {
				continue
			}
			out = append(out, Open{What: c.words(q, ans, v), Until: c.until, Place: placed, Now: v.Equal(now)})
		}
	}
	return out
}

// with is the plan of one place with one answer changed and no budget.
func (a Assessment) with(prefs Preferences, q house.Question, placeID string, v house.Answer) (Place, bool) {
	h := a.Answered.House.Clone()
	now := house.Answered{List: a.Answered.List, House: h, System: a.Answered.System}
	now.Store(q, h.Place(placeID), v)
	prefs.HasBudget = false
	for _, p := range a.Update(now, placeID).weighed(prefs).Places {
		if p.Surface.ID == placeID {
			return p, true
		}
	}
	return Place{}, false
}
