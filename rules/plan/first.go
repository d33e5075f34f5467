package plan

import "strings"

// First says what must be settled for the whole house before anybody buys or
// begins: what the R-values to reach rest on, and answers that cannot both be
// true. Plan, order and handover begin with it, and --strict does not pass it.
func (p Plan) First() []string {
	var out []string
	for _, text := range append([]string{p.zoneText(), p.drawingsText()}, p.Disagree...) {
		if text != "" {
			out = append(out, text)
		}
	}
	return out
}

// zoneText says what is missing while nobody knows where the house stands.
func (p Plan) zoneText() string {
	if p.Site.Zone != "" || len(p.Places) == 0 {
		return ""
	}
	return "CLIMATE ZONE NOT KNOWN: what the model code asks is not in this plan, no R-value to reach and no board outside, and damp is not checked. Say state and county before you buy."
}

// drawingsText says that the drawings name R-values which nobody typed.
func (p Plan) drawingsText() string {
	if len(p.Undrawn) == 0 {
		return ""
	}
	meanwhile := ", which stands in for them"
	if p.Site.Zone == "" {
		meanwhile = ""
	}
	return "THE R-VALUES OF YOUR DRAWINGS ARE NOT IN THIS PLAN YET (" + strings.Join(p.Undrawn, ", ") + "). They win over the model code" + meanwhile + ". Read them off the drawings and type them before you buy."
}

// InPlace says what a plan is for in a house whose stage says that its insulation is
// in, and in which places; empty where nothing may be in that nobody told of.
func (p Plan) InPlace() string {
	var labels []string
	for _, place := range p.Places {
		if place.Choice != nil && place.Surface.MayBeThere {
			labels = append(labels, place.Surface.Label)
		}
	}
	if len(labels) == 0 {
		return ""
	}
	said := "THE INSULATION IS IN"
	if p.Stage == "closed" {
		said = "THE HOUSE IS CLOSED"
	}
	return said + ", you said. What lies there already is not known here (" + strings.Join(labels, ", ") + "): this plan is what would go in anew. Hold what is there against it, and buy only for a place where it comes out, or where none is yet."
}
