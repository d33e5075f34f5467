package plan

import (
	"slices"

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

// openChange is one answer that can still be given otherwise.
type openChange struct {
	key, until string
	kinds      []string
	answers    func(a house.Answered, p *house.Place) []house.Answer
	words      func(q house.Question, a house.Answered, v house.Answer) string
}

func numbers(list ...float64) func(house.Answered, *house.Place) []house.Answer {
	return func(house.Answered, *house.Place) []house.Answer {
		var out []house.Answer
		for _, v := range list {
			out = append(out, house.Number(v))
		}
		return out
	}
}

func asShown(prefix, suffix string) func(house.Question, house.Answered, house.Answer) string {
	return func(q house.Question, a house.Answered, v house.Answer) string {
		return prefix + q.Show(v, a.System) + suffix
	}
}

// openChanges are the usual choices of the framing stage: the sizes and
// spacings that lumber comes in, a board outside, a higher heel.
func openChanges() []openChange {
	framed := []string{"exterior-wall", "attic", "crawl-space", "sloped-ceiling", "basement-wall"}
	return []openChange{
		{"framing.size", "before framing", framed, sizesOf, asShown("", "")},
		{"framing.spacing_in", "before framing", framed, numbers(16, 24), asShown("", " from middle to middle")},
		{"ci_r", "before the siding", []string{"exterior-wall"}, numbers(0, 5, 10), asShown("", " board outside the studs")},
		{"heel_in", "before the trusses are ordered", []string{"attic"}, numbers(5.5, 12, 20), asShown("", " of room above the outside wall")},
		{"foam_r", "before the studs go up", []string{"basement-wall"}, numbers(5, 10, 15), asShown("", " foam board behind")},
	}
}

func sizesOf(a house.Answered, p *house.Place) []house.Answer {
	kind, _ := a.List.Catalog().Kind(p.Kind)
	var out []house.Answer
	for _, s := range kind.Sizes {
		out = append(out, house.Text(s))
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
	for _, c := range openChanges() {
		q, ok := ans.List.Find("place." + c.key)
		if !ok || !q.For(p.Kind) || !slices.Contains(c.kinds, p.Kind) || !ans.Asked(q, p) {
			continue
		}
		now := ans.ValueOf(q, p).Answer
		for _, v := range c.answers(ans, p) {
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
	for _, p := range a.Update(now, placeID).Weigh(prefs).Places {
		if p.Surface.ID == placeID {
			return p, true
		}
	}
	return Place{}, false
}
