package plan

import (
	"fmt"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// NearClimates says whether the weather of the next listed place of the same zone
// would change what the damp check finds of the plan. One is asked, as a year takes
// its time.
// Empty when no other place serves. A place of another moisture letter is
// another question.
func (a Assessment) NearClimates(base Plan) string {
	q, ok := a.Answered.List.Find("site.climate")
	if !ok {
		return ""
	}
	for _, near := range a.Site.Near {
		if zone := near.Zone2021; len(zone) != len(base.Site.Zone) || !strings.HasSuffix(zone, base.Site.Letter) {
			continue
		}
		site := candidate.ResolveSite(answering(a.Answered, q, "", house.Text(near.ID)))
		if site.Zone != base.Site.Zone {
			continue // another zone is another question
		}
		what := "the plan would be the same"
		if !sameDamp(base, site) {
			what = "the damp check would find something else"
		}
		return fmt.Sprintf("with the weather of %s %s", a.stationName(near.Climate), what)
	}
	return ""
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

// sameDamp reports whether the damp check finds the same of every choice under
// another sky. Of what chooses nothing else looks at the weather.
func sameDamp(base Plan, site candidate.Site) bool {
	for i := range base.Places {
		p := &base.Places[i]
		if p.Choice != nil && p.Choice.Damp.Judged() && p.DampUnder(site, &p.Choice.Assessed).Word != p.Choice.Damp.Word {
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
