package house

import (
	"fmt"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Measures of a place that cannot be true beside each other. Each alone is within
// its limits, so a slip of the pen would pass.

// misfits are the measures that do not fit each other, or the house.
func (a Answered) misfits() []Disagreement {
	var out []Disagreement
	for i := range a.House.Places {
		p := &a.House.Places[i]
		say := func(key, format string, args ...any) {
			text := fmt.Sprintf(format, args...)
			out = append(out, Disagreement{Place: i, Key: key, Text: "TWO ANSWERS DISAGREE: of " + a.labels([]*Place{p}) + ", " + text})
		}
		a.aboveWall(p, say)
		a.openingsBeyond(p, say)
		if above := p.Answers["floors"]; above.State == Given {
			// It may begin in a basement and end in an attic.
			if stories := a.House.Answers["shape.stories"]; stories.State == Given && above.Number > stories.Number+2 {
				say("floors", "you said that it goes through %g stories, but the house has %g. Count again, then change one of the two. Until then all %g are ordered for.", above.Number, stories.Number, above.Number)
			}
		}
		if first := slices.IndexFunc(a.House.Places, func(x Place) bool { return x.Kind == p.Kind }); first == i {
			a.beyondShape(p, say)
		}
	}
	return out
}

// saying takes one disagreement of a place: the key where it stands, and the text.
type saying func(key, format string, args ...any)

// aboveWall is what is measured on a wall and is more than the wall is high.
func (a Answered) aboveWall(p *Place, say saying) {
	height := "height_ft"
	if a.Has(p, "wall_height_ft") {
		height = "wall_height_ft"
	}
	high := a.Value(PlaceScope, p, height)
	for _, x := range []struct {
		key, typed, then string
		perFt            float64
	}{
		{"above_grade_ft", "of wall are typed to stick out of the soil", "all of the wall counts as above the soil", 1},
		{"stud_in", "are typed for a stud", "the stud counts", units.InchPerFoot},
	} {
		if own, ok := said(p, x.key); ok && a.Asked(*a.question(PlaceScope, x.key), p) && own > high.Answer.Number*x.perFt {
			say(x.key, "%s %s, but the wall is %s high%s. Measure again, then change one of the two. Until then %s.",
				a.measure(x.key, own), x.typed, a.measure(height, high.Answer.Number), map[bool]string{true: " as assumed"}[high.Source != FromAnswer], x.then)
		}
	}
}

// openingsBeyond are windows and doors that are larger than their wall together, and
// one that is taller than the wall, or wider than the wall is long.
func (a Answered) openingsBeyond(p *Place, say saying) {
	high, hasHeight := said(p, "height_ft")
	long, hasLength := a.LongFt(p)
	const then = "Measure again, then change one of the two. Until then it is taken off as it is typed."
	area, sized := a.ownArea(p)
	if open, ok := ownOpenings(p); ok && sized && open > area {
		say("openings_ft2", "windows and doors of %s are typed, but the wall has %s. %s", a.measure("openings_ft2", open), a.measure("area_ft2", area), then)
	}
	for _, o := range OpeningsOf(p) {
		size := a.measure("stud_in", o.WidthIn) + " x " + a.measure("stud_in", o.HeightIn)
		switch {
		case hasHeight && o.HeightIn > high*units.InchPerFoot:
			say("openings", "a window or door of %s is typed, but the wall is %s high. %s", size, a.measure("height_ft", high), then)
		case hasLength && o.WidthIn > long*units.InchPerFoot:
			say("openings", "a window or door of %s is typed, but the wall is %s long. %s", size, a.measure("length_ft", long), then)
		}
	}
}

// farBeyond is how many times what the shape of the house gives all places of a kind
// they may measure: bays, gables and steep roofs add to it (this project's own
// convention).
const farBeyond = 1.5

// beyondShape is a kind of place whose areas, as typed, are far more than the house
// can have by its own length and width as typed.
func (a Answered) beyondShape(p *Place, say saying) {
	k, total := a.KindOf(p), 0.0
	for _, x := range []string{"shape.length_ft", "shape.width_ft", "shape.stories"} {
		if a.House.Answers[x].State != Given && (x != "shape.stories" || k.AreaOf == catalog.AreaWalls) {
			return
		}
	}
	for _, x := range a.placesLike(func(o *catalog.PlaceKind) bool { return o.ID == k.ID }) {
		if ft2, ok := a.ownArea(x); ok {
			total += ft2
		}
	}
	most := a.shapeFt2(p) / a.shapeShare(k)
	if most <= 0 || total <= most*farBeyond {
		return
	}
	first := slices.IndexFunc(areaKeys, func(key string) bool { return p.Answers[key].State == Given })
	say(areaKeys[max(0, first)], "what is typed for places of this kind comes to %s, but a house of %s by %s has about %s there. Measure again, then change one of the two. Until then the size of the place counts.",
		a.measure("area_ft2", total), a.measure("length_ft", a.Num(Shape, nil, "length_ft")), a.measure("length_ft", a.Num(Shape, nil, "width_ft")), a.measure("area_ft2", most))
}

// measure is a figure as the answer to a question is shown, with its unit.
func (a Answered) measure(key string, v float64) string {
	return a.question(PlaceScope, key).Show(Number(v), a.System)
}
