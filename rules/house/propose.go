package house

import (
	"fmt"
	"slices"
	"strconv"

	"battwright/rules/catalog"
)

// proposal is when a place of a kind is called for.
type proposal struct {
	catalog.Proposal
	kind string
}

// Propose makes the places that the shape of the house calls for. Places that
// are already there are kept: only kinds that are missing are added, up to MaxPlaces. It
// returns the ids of the places it added.
func Propose(l *QuestionList, h *House) []string {
	a := Answered{List: l, House: h}
	have := map[string]bool{}
	for _, p := range h.Places {
		have[p.Kind] = true
	}
	var added []string
	add := func(x proposal) {
		if have[x.kind] || len(h.Places) >= MaxPlaces {
			return
		}
		have[x.kind] = true
		p := h.Add(x.kind)
		if x.Label != "" {
			p.Answers.Set("label", Text(x.Label))
		}
		for key, v := range x.Set {
			p.Answers.Set(key, answerOf(v))
		}
		added = append(added, p.ID)
	}
	for _, x := range proposals(l.catalog) {
		if x.Calls(a.shapeText(x.Of)) {
			add(x)
		}
	}
	return added
}

// proposals of all kinds, in their order.
func proposals(c *catalog.Catalog) []proposal {
	var out []proposal
	for _, k := range c.Kinds {
		for _, x := range k.Proposed {
			out = append(out, proposal{x, k.ID})
		}
	}
	slices.SortStableFunc(out, func(x, y proposal) int { return x.Order - y.Order })
	return out
}

func (a Answered) shapeText(key string) string {
	if key == "" {
		return ""
	}
	if v := a.Value(Shape, nil, key); v.Answer.Text == "" && v.Answer.Number != 0 {
		return strconv.Itoa(int(v.Answer.Number))
	}
	return a.Text(Shape, nil, key)
}

// answerOf is an answer as data write it.
func answerOf(v any) Answer {
	if yes, ok := v.(bool); ok {
		return YesNo(yes)
	}
	return Text(fmt.Sprint(v))
}
