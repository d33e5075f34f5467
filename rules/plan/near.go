package plan

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// NearClimates says whether the weather of another listed place of the same
// zone would change the plan: what is bought, or what the damp check finds.
// Empty when no other place serves. A place of another moisture letter is
// another question.
func (a Assessment) NearClimates(p Preferences, base Plan) string {
	q, ok := a.Answered.List.Find("site.climate")
	if !ok {
		return ""
	}
	var changed, damp, same []string
	for _, near := range a.Site.Near {
		if zone := near.Zone2021; len(zone) != len(base.Site.Zone) || !strings.HasSuffix(zone, base.Site.Letter) {
			continue
		}
		now := answering(a.Answered, q, "", house.Text(near.ID))
		site := candidate.ResolveSite(now)
		if site.Zone != base.Site.Zone {
			continue // another zone is another question
		}
		other := a.under(site, now).weighed(p)
		name := a.stationName(near.Climate)
		switch {
		case len(materialChanges(Changes(base, other))) > 0:
			changed = append(changed, name)
		case !sameDamp(base, other):
			damp = append(damp, name)
		default:
			same = append(same, name)
		}
	}
	var parts []string
	add := func(names []string, what string) {
		if len(names) > 0 {
			parts = append(parts, fmt.Sprintf("with the weather of %s %s", strings.Join(names, " or "), what))
		}
	}
	add(changed, "the plan would change")
	add(damp, "the blankets would be the same, but the damp check would find something else")
	if len(parts) == 0 {
		add(same, "the plan would be the same")
	}
	return strings.Join(parts, "; ")
}

// under is the house under another sky of the same zone. Of what chooses, only
// the damp check looks at the weather.
func (a Assessment) under(site candidate.Site, now house.Answered) Assessment {
	out := Assessment{Answered: now, Site: site, Places: slices.Clone(a.Places)}
	for i := range out.Places {
		if slices.ContainsFunc(out.Places[i].Candidates, func(c candidate.Assessed) bool { return c.Damp.Checked }) {
			out.Places[i] = candidate.Assess(now, &now.House.Places[i], site)
		}
	}
	return out
}

// stationName tells two listed places of one name apart by their state.
func (a Assessment) stationName(c catalog.Climate) string {
	for _, other := range a.Answered.List.Catalog().Climates() {
		if other.ID != c.ID && other.Name == c.Name && c.State != "" {
			return c.Name + ", " + c.State
		}
	}
	return c.Name
}

// sameDamp reports whether the damp check finds the same in every place.
func sameDamp(a, b Plan) bool {
	for i := range a.Places {
		x, y := a.Places[i].Choice, b.Places[i].Choice
		if x != nil && y != nil && x.Damp.Verdict != y.Damp.Verdict {
			return false
		}
	}
	return true
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
