package house

import (
	"slices"
	"strings"

	"battwright/rules/catalog"
)

// What two answers say against each other. Neither is thrown away: the careful
// one counts, and the builder is told.

// Disagree says which answers of the house cannot both be true, a sentence
// each with what to do about it.
func (a Answered) Disagree() []string {
	var out []string
	if typed := a.drawnInVain(); len(typed) > 0 {
		out = append(out, "TWO ANSWERS DISAGREE: R-values of your drawings are typed ("+joinList(typed)+"), but you said that your drawings name none. They do not count. If the drawings name them, say yes there; if not, take the figures out.")
	}
	if chimneys, places := a.flueDenied(); len(chimneys) > 0 {
		out = append(out, "TWO ANSWERS DISAGREE: you listed a chimney or a gas vent inside the house ("+a.labels(chimneys)+"), but said that none goes up through "+a.labels(places)+". Look, then change one of the two. Until then its empty space and its shield stay in the plan there.")
	}
	if places := a.oldDenied(); len(places) > 0 {
		out = append(out, "TWO ANSWERS DISAGREE: you said that no part of the house is old, but that there is old wiring or old fill in "+a.labels(places)+". Look, then change one of the two. Until then every place is taken as one of an old house.")
	}
	if pipe := a.pipeWithoutPlace(); pipe != "" {
		out = append(out, "TWO ANSWERS DISAGREE: you named "+pipe+" for the house, but no place beside it, and none that it goes through. Its own space stays empty wherever it passes. Add the place near it, or take it out of the shape.")
	}
	if crawls := a.ventsDenied(); len(crawls) > 0 {
		what := map[bool]string{true: "without vents, but that there are open vents in ", false: "with vents, but that there are none in "}[crawls[0].Answers["vented"].Bool]
		out = append(out, "TWO ANSWERS DISAGREE: you said that the house stands over a crawl space "+what+a.labels(crawls)+". Look, then change one of the two. Until then the plan goes by the place: blankets between the joists over vents, else on the walls.")
	}
	return out
}

// oldDenied are the places with old wiring or old fill of a house that is said to
// have no old part.
func (a Answered) oldDenied() []*Place {
	if old := a.House.Answers["old"]; old.State != Given || old.Bool {
		return nil
	}
	var out []*Place
	for i := range a.House.Places {
		p := &a.House.Places[i]
		if p.Answers["knob_and_tube"].Bool || p.Answers["vermiculite"].Bool {
			out = append(out, p)
		}
	}
	return out
}

// oldBelied: what is old in one place may be so in another.
func oldBelied(a Answered, _ *Place) bool { return len(a.oldDenied()) > 0 }

// pipeWithoutPlace names a chimney or pipe that stands in the shape of the house
// alone: no place is beside it, and every place under the roof lets none through.
func (a Answered) pipeWithoutPlace() string {
	names := map[string]string{"masonry": "a chimney", "metal": "a metal pipe", "plastic": "a plastic pipe"}
	name, roof := names[a.House.Answers["shape.chimney"].Text], a.underRoof()
	through := func(p *Place) bool {
		said := p.Answers["flue_through"]
		return said.State != Given || said.Bool
	}
	beside := len(a.placesLike(besideChimney)) > 0
	if name == "" || beside || len(a.House.Places) == 0 || slices.ContainsFunc(roof, through) {
		return ""
	}
	return name
}

// ventsDenied are the crawl spaces of a house that is said to stand over one with
// vents, or over one without, where all of these are said to be otherwise.
func (a Answered) ventsDenied() []*Place {
	below := a.House.Answers["shape.below"]
	if below.State != Given || below.Text != "crawl-vented" && below.Text != "crawl-closed" {
		return nil
	}
	var out []*Place
	for _, p := range a.placesLike(func(k catalog.PlaceKind) bool { return k.Unvented != "" }) {
		if vented := p.Answers["vented"]; vented.State != Given || vented.Bool == (below.Text == "crawl-vented") {
			return nil
		}
		out = append(out, p)
	}
	return out
}

// drawnInVain are the parts of the house with an R-value of drawings that are
// said to name none.
func (a Answered) drawnInVain() []string {
	if a.drawingsNameR() {
		return nil
	}
	var out []string
	for _, d := range a.List.catalog.Drawings {
		if a.drawnFor(d) {
			out = append(out, d.Name)
		}
	}
	return out
}

// upThrough are chimneys and vents that end above the roof and stand inside.
var upThrough = []string{"masonry-inside", "type-b-vent"}

// flueDenied are the brick chimneys and gas vents inside the house and the places under its
// roof, where all of these are said to let none through. A chimney that is
// inside goes up through one of them.
func (a Answered) flueDenied() (chimneys, places []*Place) {
	for _, p := range a.placesLike(besideChimney) {
		if slices.Contains(upThrough, p.Answers["chimney"].Text) {
			chimneys = append(chimneys, p)
		}
	}
	places = a.underRoof()
	denied := func(p *Place) bool {
		return p.Answers["flue_through"].State == Given && !p.Answers["flue_through"].Bool
	}
	if len(chimneys) == 0 || len(places) == 0 || slices.ContainsFunc(places, func(p *Place) bool { return !denied(p) }) {
		return nil, nil
	}
	return chimneys, places
}

// flueBelied: nobody knows which place it is that the chimney goes up through.
func flueBelied(a Answered, p *Place) bool {
	chimneys, places := a.flueDenied()
	return len(chimneys) > 0 && slices.ContainsFunc(places, func(x *Place) bool { return x.ID == p.ID })
}

func (a Answered) labels(places []*Place) string {
	names := make([]string, len(places))
	for i, p := range places {
		names[i] = a.Text(PlaceScope, p, "label")
	}
	return strings.Join(names, ", ")
}
