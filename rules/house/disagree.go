package house

import (
	"math"
	"slices"
	"strings"

	"battwright/rules/catalog"
)

// What two answers say against each other. Neither is thrown away: the careful
// one counts, and the builder is told.

// Disagreement is what cannot be true of two answers, with what to do about it, and
// where one of them stands: the place by its number and the key, where it is about
// measures of a place.
type Disagreement struct {
	Text, Key string
	Place     int
}

// Disagree says which answers of the house cannot both be true, a sentence
// each with what to do about it.
func (a Answered) Disagree() []string {
	var out []string
	for _, x := range a.Disagreements() {
		out = append(out, x.Text)
	}
	return out
}

// Disagreements is Disagree with where the answers stand.
func (a Answered) Disagreements() []Disagreement {
	var out []Disagreement
	say := func(text string) { out = append(out, Disagreement{Text: "TWO ANSWERS DISAGREE: " + text}) }
	if typed := a.drawnInVain(); len(typed) > 0 {
		say("R-values of your drawings are typed (" + joinList(typed) + "), but you said that your drawings name none. They do not count. If the drawings name them, say yes there; if not, take the figures out.")
	}
	if chimneys, places := a.flueDenied(); len(chimneys) > 0 {
		say("you listed a chimney or a gas vent inside the house (" + a.labels(chimneys) + "), but said that none goes up through " + a.labels(places) + ". Look, then change one of the two. Until then its empty space and its shield stay in the plan there.")
	}
	if places := a.fluesOfNone(); len(places) > 0 {
		say("you said that nothing goes up through the house from a stove or furnace, but something does by what you said of " + a.labels(places) + ". Look, then change one of the two. Until then the plan goes by the place.")
	}
	if places := a.oldDenied(); len(places) > 0 {
		say("you said that no part of the house is old, but that there is old wiring or old fill in " + a.labels(places) + ". Look, then change one of the two. Until then every place is taken as one of an old house.")
	}
	if pipe := a.pipeWithoutPlace(); pipe != "" {
		say("you named " + pipe + " for the house, but no place beside it, and none that it goes through. Its own space stays empty wherever it passes. Add the place near it, or take it out of the shape.")
	}
	if a.brickWithoutPlace() {
		say("you said that a chimney of brick or stone goes up through the house, but it has no place of its own: " + a.labels(a.placesLike(besideChimney)) + " is said to be near a metal or plastic pipe. Add the place near the brick, or change one of the two. Until then the space around the brick stays empty wherever it passes, and foam and wood keep off it.")
	}
	if crawls := a.ventsDenied(); len(crawls) > 0 {
		what := map[bool]string{true: "without vents, but that there are open vents in ", false: "with vents, but that there are none in "}[crawls[0].Answers["vented"].Bool]
		say("you said that the house stands over a crawl space " + what + a.labels(crawls) + ". Look, then change one of the two. Until then the plan goes by the place: blankets between the joists over vents, else on the walls.")
	}
	if typed, listed := a.zoneDenied(); typed != "" {
		say("you typed climate zone " + typed + ", and the county list has " + listed + " for the county you named. Which side of a wall gets a retarder depends on it. Ask the building department, then change one of the two. Until then the plan goes by the zone you typed.")
	}
	for _, text := range a.sizedTwice() {
		say(text)
	}
	return append(out, a.misfits()...)
}

// zoneDenied is the zone that was typed and that of the county, where they lie more
// than one step apart by every edition of the code; empty else.
func (a Answered) zoneDenied() (typed, listed string) {
	zone := a.House.Answers["site.zone"]
	if zone.State != Given || zone.Text == "" {
		return "", ""
	}
	found, _, err := a.List.Catalog().Counties.Lookup(a.House.Answers["site.state"].Text, a.House.Answers["site.county"].Text)
	if err != nil {
		return "", ""
	}
	const step = 1
	for _, z := range []string{found.Zone2021, found.ZonePre2021} {
		if apart := int(zone.Text[0]) - int(z[0]); -step <= apart && apart <= step {
			return "", ""
		}
	}
	return zone.Text, found.Zone2021
}

// sizedTwice says where one size was typed in two ways that do not agree: what
// counts, and what to do.
func (a Answered) sizedTwice() []string {
	const near = 0.02
	var out []string
	for i := range a.House.Places {
		p := &a.House.Places[i]
		for _, x := range []struct {
			one, many, what string
			sum             float64
		}{
			{"length_ft", "lengths_ft", "one length and several straight pieces", sum(a.LengthsFt(p))},
			{"openings_ft2", "openings", "an area of windows and doors and each of them", openingsFt2(p.Answers["openings"].List)},
		} {
			one, many := p.Answers[x.one], p.Answers[x.many]
			if one.State == Given && many.State == Given && math.Abs(one.Number-x.sum) > near*max(one.Number, x.sum) {
				out = append(out, "you typed "+x.what+" for "+a.labels([]*Place{p})+", and they do not add up. Measure again, then take one of the two out. Until then the single pieces count.")
			}
		}
	}
	return out
}

func sum(list []float64) float64 {
	out := 0.0
	for _, v := range list {
		out += v
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
	for _, p := range a.placesLike(func(k *catalog.PlaceKind) bool { return k.Unvented != "" }) {
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

// fluesOfNone are the places by which a chimney or a flue goes up through a house
// that is said to have none.
func (a Answered) fluesOfNone() []*Place {
	if a.House.Answers["shape.chimney"].Text != "none" {
		return nil
	}
	return slices.DeleteFunc(a.placesLike(func(*catalog.PlaceKind) bool { return true }), func(p *Place) bool {
		return !slices.Contains(upThrough, p.Answers["chimney"].Text) && !p.Answers["flue_through"].Bool
	})
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
