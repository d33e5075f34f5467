package house

import (
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Footprint, perimeter and the rest of the plain geometry of a shape typed
// once. Everything here is a proposal: each place may carry its own size.

func (a Answered) footprintFt2() float64 {
	return a.Num(Shape, nil, "length_ft") * a.Num(Shape, nil, "width_ft")
}

func (a Answered) perimeterFt() float64 {
	return 2 * (a.Num(Shape, nil, "length_ft") + a.Num(Shape, nil, "width_ft"))
}

func (a Answered) grossWallFt2() float64 {
	return a.perimeterFt() * a.Num(Shape, nil, "wall_height_ft") * a.Num(Shape, nil, "stories")
}

// countKind is the number of places of a kind, at least one, so that two
// walls without sizes share what the shape gives.
func (a Answered) countKind(kind string) float64 {
	n := 0.0
	for _, p := range a.House.Places {
		if p.Kind == kind {
			n++
		}
	}
	return max(n, 1)
}

func defaultHeight(a Answered, p *Place) Answer {
	k := a.kindOf(p)
	if own, ok := k.Usual["height_ft"]; ok {
		return Number(own)
	}
	story := a.Num(Shape, nil, "wall_height_ft")
	if k.AreaOf == catalog.AreaWalls { // they go all the way up
		return Number(story * a.Num(Shape, nil, "stories"))
	}
	return Number(story)
}

// rest is what the shape gives for a kind of place less what places of that
// kind have of their own, shared by those that have none.
func (a Answered) rest(p *Place, total float64) Answer {
	without := 1.0 // this one
	for i := range a.House.Places {
		q := &a.House.Places[i]
		if q.Kind != p.Kind || q.ID == p.ID {
			continue
		}
		if own, ok := a.ownArea(q); ok {
			total -= own
		} else {
			without++
		}
	}
	return Number(roundTo(max(0, total)/without, 1))
}

// ownArea is the area a place has by its own answers.
func (a Answered) ownArea(p *Place) (float64, bool) {
	if area, ok := said(p, "area_ft2"); ok {
		return area, true
	}
	long, hasLong := a.LongFt(p)
	wide, hasWide := said(p, "width_ft")
	switch a.KindOf(p).Size {
	case catalog.SizeRectangle:
		return long * wide, hasLong && hasWide
	case catalog.SizeRun:
		return long * a.Num(PlaceScope, p, "height_ft"), hasLong
	}
	return 0, false
}

// AreaGiven reports whether the area of a place is the person's own: typed, or
// worked out from a length and a width that both were. Half of a size leaves
// the area assumed.
func (a Answered) AreaGiven(p *Place) bool {
	_, ok := said(p, "area_ft2")
	return ok || a.measured(p)
}

// measured reports whether the sides of a place that give its area were typed.
func (a Answered) measured(p *Place) bool {
	both := func(keys ...string) bool {
		for _, k := range keys {
			if _, ok := said(p, k); !ok {
				return false
			}
		}
		return true
	}
	_, long := a.LongFt(p)
	switch a.KindOf(p).Size {
	case catalog.SizeRectangle, catalog.SizeFloor, catalog.SizeRing:
		return long && both("width_ft")
	case catalog.SizeChase:
		return both("width_in", "depth_in")
	}
	return long
}

// areaKeys are the answers that ownArea and ownOpenings read: a place that has
// them takes its part of what the shape gives, and leaves the others of its kind
// the rest.
var areaKeys = []string{"area_ft2", "length_ft", "lengths_ft", "width_ft", "height_ft", "openings_ft2", "openings"}

// GivesArea reports whether an answer to the question can change the sizes of
// other places of the kind.
func (q Question) GivesArea() bool {
	return q.Scope == PlaceScope && slices.Contains(areaKeys, q.Key)
}

// said reports a place's own number, when there is one.
func said(p *Place, key string) (float64, bool) {
	v := p.Answers[key]
	return v.Number, v.State == Given
}

// defaultArea is the area of a place by its own sides, or what the shape of the
// house gives it.
func defaultArea(a Answered, p *Place) Answer {
	k, ofShape := a.KindOf(p), a.shapeFt2(p)
	long, hasLong := a.LongFt(p)
	wide, hasWide := said(p, "width_ft")
	switch k.Size {
	case catalog.SizeRun:
		if hasLong {
			return Number(long * a.Num(PlaceScope, p, "height_ft"))
		}
	case catalog.SizeRectangle, catalog.SizeFloor:
		if hasLong && hasWide {
			return Number(long * wide)
		}
	case catalog.SizeRing:
		around := a.perimeterFt() * a.shapeShare(k) / a.countKind(p.Kind)
		if hasLong && hasWide {
			around = 2 * (long + wide)
		}
		return Number(roundTo(around*a.Num(PlaceScope, p, "wall_height_ft"), 1))
	case catalog.SizeRim:
		if !hasLong {
			long = a.perimeterFt() / a.countKind(p.Kind)
		}
		size, _ := a.List.catalog.Size(a.Text(PlaceScope, p, "framing.size"))
		return Number(roundTo(long*size.DepthIn/units.InchPerFoot, 1))
	case catalog.SizeChase:
		return a.chaseArea(p)
	}
	switch own, ok := k.Usual["area_ft2"]; {
	case ok:
		return Number(own)
	case k.Size == catalog.SizeFloor:
		return Number(roundTo(ofShape/a.countKind(p.Kind), 1))
	}
	return a.rest(p, ofShape)
}

// chaseArea is what a chimney shows to the house.
func (a Answered) chaseArea(p *Place) Answer {
	around := 2 * (a.Num(PlaceScope, p, "width_in") + a.Num(PlaceScope, p, "depth_in"))
	if a.Text(PlaceScope, p, "chimney") == "masonry-outside" { // it meets the house on one face alone
		around = a.Num(PlaceScope, p, "width_in")
	}
	return Number(roundTo(around/units.InchPerFoot*a.Num(PlaceScope, p, "height_ft")*a.Num(PlaceScope, p, "floors"), 1))
}

// shapeFt2 is what the shape of the house gives all places of a kind together.
func (a Answered) shapeFt2(p *Place) float64 {
	k := a.KindOf(p)
	ft2 := 0.0
	switch k.AreaOf {
	case catalog.AreaWalls:
		ft2 = a.grossWallFt2()
	case catalog.AreaFootprint:
		ft2 = a.footprintFt2()
	case catalog.AreaPerimeter:
		ft2 = a.perimeterFt() * a.Num(PlaceScope, p, "height_ft")
	}
	if k.AreaTimes > 0 {
		ft2 *= k.AreaTimes
	}
	return ft2 * a.shapeShare(k)
}

// shapeShare is half where the shape of the house is split between two kinds.
func (a Answered) shapeShare(k *catalog.PlaceKind) float64 {
	const half = 0.5
	for key, value := range k.HalfWhen {
		if a.Text(Shape, nil, key) == value {
			return half
		}
	}
	return 1
}

// Openings that were listed one by one are added up. Else a wall has its part
// of those of the house: what other walls have of their own comes off, the rest
// is shared by the walls that the shape gives their size. Where all walls have
// sizes of their own, what is left of a sum that somebody said stays with the
// first wall by name that was given no openings: no window is lost.
func defaultOpenings(a Answered, p *Place) Answer {
	if listed := p.Answers["openings"]; listed.State == Given {
		return Number(openingsFt2(listed.List))
	}
	if a.kindOf(p).AreaOf != catalog.AreaWalls {
		return Number(0)
	}
	total := a.Num(Shape, nil, "openings_ft2")
	var sharing, open []*Place
	for i := range a.House.Places {
		q := &a.House.Places[i]
		if q.Kind != p.Kind {
			continue
		}
		if own, ok := ownOpenings(q); ok {
			total -= own
			continue
		}
		open = append(open, q)
		if _, sized := a.ownArea(q); !sized {
			sharing = append(sharing, q)
		}
	}
	if len(sharing) == 0 && len(open) > 0 && a.House.Answers["shape.openings_ft2"].State == Given {
		sharing = []*Place{slices.MinFunc(open, func(a, b *Place) int { return strings.Compare(a.ID, b.ID) })} // the order of the file says nothing
	}
	if !slices.ContainsFunc(sharing, func(q *Place) bool { return q.ID == p.ID }) {
		return Number(0)
	}
	return Number(roundTo(max(0, total)/float64(len(sharing)), 1))
}

// openingsOfWalls: where each outside wall has its windows and doors typed, and
// a size of its own, they are all there are.
func openingsOfWalls(a Answered, _ *Place) Answer {
	sum, walls := 0.0, 0
	for _, p := range a.placesLike(outsideWall) {
		own, ok := ownOpenings(p)
		if _, sized := a.ownArea(p); !ok || !sized {
			return Answer{}
		}
		sum += own
		walls++
	}
	if walls == 0 {
		return Answer{}
	}
	return Number(roundTo(sum, 1))
}

// ownOpenings are the windows and doors that were typed for a wall.
func ownOpenings(p *Place) (ft2 float64, ok bool) {
	if listed := p.Answers["openings"]; listed.State == Given {
		return openingsFt2(listed.List), true
	}
	return said(p, "openings_ft2")
}

// NetAreaFt2 is the area to insulate: the area less the openings, never
// below zero.
func (a Answered) NetAreaFt2(p *Place) float64 {
	ft2, _ := a.Sized(p)
	return ft2
}

// Sized is NetAreaFt2, and how much of a place its windows and doors take: 0 when it
// has no area; above 1 they do not fit into it.
func (a Answered) Sized(p *Place) (netFt2, openShare float64) {
	area, open := a.Num(PlaceScope, p, "area_ft2"), a.openFt2(p)
	if area > 0 {
		openShare = open / area
	}
	return max(0, area-open), openShare
}

// openFt2 is the area of the windows and doors of a place.
func (a Answered) openFt2(p *Place) float64 {
	if listed := a.Value(PlaceScope, p, "openings"); listed.Source == FromAnswer {
		return openingsFt2(listed.Answer.List) // one by one is better than a sum
	}
	return a.Num(PlaceScope, p, "openings_ft2")
}

// zoneGuess is the climate zone as far as the answers alone tell it; the
// county table is looked up by those who hold the catalog.
func (a Answered) zoneGuess() string {
	if z := a.House.Answers["site.zone"]; z.State == Given {
		return z.Text
	}
	return a.List.catalog.ZoneOf(a.House.Answers["site.state"].Text, a.House.Answers["site.county"].Text, a.House.Answers["site.climate"].Text, a.House.Answers["site.code"].Text)
}
