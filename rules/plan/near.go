package plan

import (
	"fmt"
	"strings"

	"battwright/rules/house"
)

// NearClimates says whether the weather of another listed place of the same
// zone would change the plan. Empty when no other place serves.
func (a Assessment) NearClimates(p Preferences, base Plan) string {
	if len(a.Site.Near) == 0 {
		return ""
	}
	q, ok := a.Answered.List.Find("site.climate")
	if !ok {
		return ""
	}
	var changed, same []string
	for _, near := range a.Site.Near {
		h := a.Answered.House.Clone()
		now := house.Answered{List: a.Answered.List, House: h, System: a.Answered.System}
		now.Store(q, nil, house.Text(near.ID))
		other := Assess(now).Weigh(p)
		if other.Site.Zone != base.Site.Zone {
			continue // another zone is another question
		}
		if len(materialChanges(Changes(base, other))) > 0 {
			changed = append(changed, near.Name)
		} else {
			same = append(same, near.Name)
		}
	}
	switch {
	case len(changed) > 0:
		return fmt.Sprintf("with the weather of %s the plan would change", strings.Join(changed, " or "))
	case len(same) > 0:
		return fmt.Sprintf("with the weather of %s the plan would be the same", strings.Join(same, " or "))
	}
	return ""
}

func materialChanges(changes []Change) []Change {
	var out []Change
	for _, c := range changes {
		if c.From != c.To || c.Product {
			out = append(out, c)
		}
	}
	return out
}
