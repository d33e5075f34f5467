package house

import (
	"reflect"
	"slices"
	"strings"
)

// What one answer tells of another. The house is asked once whether it has old
// parts and what goes up through it; its places are not asked again.

// noOldParts: a house that is said not to be framed yet has no old parts until
// somebody says so. Old insulation that lies somewhere belies it.
func noOldParts(a Answered, _ *Place) Answer {
	if stage := a.House.Answers["stage"]; stage.State != Given || stage.Text != "not-framed" {
		return Answer{}
	}
	for i := range a.House.Places {
		if r, ok := said(&a.House.Places[i], "existing_r"); ok && r > 0 {
			return Answer{}
		}
	}
	return YesNo(false)
}

// MayBeOld reports whether the house has parts in which old wiring or old
// loose fill may be found: it is said to have, or nobody knows.
func (a Answered) MayBeOld() bool {
	v := a.Value(Top, nil, "old")
	return !v.Known || v.Answer.Bool
}

// saidOld: the dangers of old parts are asked about once the house is known to
// have such parts. While nobody knows, the one question of the house stands
// for them, and their cautions are given.
func saidOld(a Answered, p *Place, key string) bool {
	return a.Bool(Top, nil, "old") || p.Answers[key].State != Absent
}

func askedVermiculite(a Answered, p *Place) bool { return saidOld(a, p, "vermiculite") }
func askedOldWiring(a Answered, p *Place) bool   { return saidOld(a, p, "knob_and_tube") }

// noneUnlessOld: a house without old parts has neither old fill nor old wiring.
func noneUnlessOld(a Answered, _ *Place) Answer {
	if a.MayBeOld() {
		return Answer{}
	}
	return YesNo(false)
}

// flueOfHouse: what goes up through the house goes up through the place under
// its roof. It stays open where there are several such places, where the
// chimney stands outside, where a chimney is listed though nothing is said to
// go up, and for a plastic pipe, which mostly leaves through a wall.
func flueOfHouse(a Answered, p *Place) Answer {
	up := a.House.Answers["shape.chimney"]
	if up.State != Given {
		return Answer{}
	}
	chimneys := a.placesLike(besideChimney)
	outside := slices.ContainsFunc(chimneys, func(p *Place) bool { return p.Answers["chimney"].Text == "masonry-outside" })
	switch {
	case up.Text == "none" && len(chimneys) == 0:
		return YesNo(false)
	case (up.Text == "masonry" || up.Text == "metal") && underRoof(a.kindOf(p)) && len(a.underRoof()) == 1 && !outside:
		return YesNo(true)
	}
	return Answer{}
}

// NoChimney reports whether nothing goes up through the house: it is said so, and no
// place disagrees or leaves it open.
func (a Answered) NoChimney() bool {
	open := func(p *Place) bool {
		flue := p.Answers["flue_through"]
		return flue.State == Unknown || flue.Bool
	}
	return a.House.Answers["shape.chimney"].Text == "none" && len(a.placesLike(besideChimney)) == 0 && !slices.ContainsFunc(a.underRoof(), open)
}

// underRoof are the places that a flue inside the house can go up through.
func (a Answered) underRoof() []*Place {
	return a.placesLike(underRoof)
}

// fansOfHouse: where the fans are said to blow outdoors at one place, they do so
// at the others.
func fansOfHouse(a Answered, _ *Place) Answer {
	outside := false
	for i := range a.House.Places {
		said := a.House.Places[i].Answers["bath_fan_outside"]
		if said.State == Unknown || said.State == Given && !said.Bool {
			return Answer{}
		}
		outside = outside || said.State == Given
	}
	if !outside {
		return Answer{}
	}
	return YesNo(true)
}

func askedFlue(a Answered, p *Place) bool {
	return p.Answers["flue_through"].State != Absent || flueOfHouse(a, p).State != Given
}

// Masonry tells whether a chimney is of brick or stone: by its own kind, or by
// what is said to go up through the house when it is the only one. ok is false
// while nobody said.
func (a Answered) Masonry(p *Place) (brick, ok bool) {
	if kind := p.Answers["chimney"]; kind.State == Given {
		return isMasonry(kind.Text), true
	}
	up := a.onlyChimney()
	return up == "masonry", up != "" && up != "none"
}

// BrickAlone reports whether brick or stone is all that goes up through the
// house, as far as anybody said: what passes an attic then has no listing.
func (a Answered) BrickAlone() bool {
	up, chimneys := a.House.Answers["shape.chimney"].Text, a.placesLike(besideChimney)
	only := a.onlyOf(chimneys)
	for _, p := range chimneys {
		if kind := p.Answers["chimney"].Text; !isMasonry(kind) && (kind != "" || only != "masonry") {
			return false
		}
	}
	return up == "masonry" || up == "" && len(chimneys) > 0
}

// SinglePipe tells whether a single-wall pipe goes up through a place: something
// does, and no other chimney or pipe of the house can be it. known is false while
// nobody said what it is, or whether that pipe passes there.
func (a Answered) SinglePipe(p *Place) (single, known bool) {
	pipes, open, chimneys := 0, false, a.placesLike(besideChimney)
	only := a.onlyOf(chimneys)
	for _, c := range chimneys {
		kind := c.Answers["chimney"].Text
		switch {
		case kind == "metal-connector":
			pipes++
		case kind == "" && only != "masonry":
			open = true
		default:
			return false, true
		}
	}
	through := a.Value(PlaceScope, p, "flue_through")
	passes := through.Known && through.Answer.Bool
	switch {
	case through.Known && !passes || pipes == 0 && !(open && passes):
		return false, true
	case pipes > 0 && passes && !open:
		return true, true
	}
	return false, false
}

// onlyChimney is what is said to go up through a house with at most one
// chimney among its places; empty while nobody said, or where there are more.
func (a Answered) onlyChimney() string { return a.onlyOf(a.placesLike(besideChimney)) }

func (a Answered) onlyOf(chimneys []*Place) string {
	up := a.House.Answers["shape.chimney"]
	if len(chimneys) > 1 || up.State != Given {
		return ""
	}
	return up.Text
}

// inOutsideWall reports whether a chimney is said to stand in or behind an outside
// wall.
func inOutsideWall(p *Place) bool {
	kind := p.Answers["chimney"].Text
	return kind == "masonry-in-wall" || kind == "masonry-outside"
}

// maybeInOutsideWall reports whether a chimney is said to be of brick or stone and
// not to stand inside: a fireplace may stand either way, and mostly in an outside
// wall.
func maybeInOutsideWall(p *Place) bool {
	kind := p.Answers["chimney"].Text
	return isMasonry(kind) && kind != "masonry-inside"
}

// ChimneyInWall tells whether brick or stone of the house stands, or may stand, in or
// behind an outside wall. known is false while a chimney is named, or nobody knows
// whether there is one, and nobody said where it stands.
func (a Answered) ChimneyInWall() (in, known bool) {
	up := a.House.Answers["shape.chimney"]
	chimneys := a.placesLike(besideChimney)
	known = len(chimneys) > 0 && !a.brickWithoutPlace() || up.Text != "masonry" && up.State != Unknown
	for _, p := range chimneys {
		if maybeInOutsideWall(p) {
			return true, true
		}
		brick, said := a.Masonry(p)
		known = known && (p.Answers["chimney"].State == Given || said && !brick)
	}
	return false, known
}

// brickWithoutPlace tells whether brick or stone is said to go up through the house,
// while every place near a chimney is said to be near a pipe.
func (a Answered) brickWithoutPlace() bool {
	chimneys := a.placesLike(besideChimney)
	return a.House.Answers["shape.chimney"].Text == "masonry" && len(chimneys) > 0 && !slices.ContainsFunc(chimneys, func(p *Place) bool {
		kind := p.Answers["chimney"]
		return kind.State != Given || isMasonry(kind.Text)
	})
}

// BrickToo reports whether brick or stone is named for the house or a place of it,
// beside whatever else goes up.
func (a Answered) BrickToo() bool {
	return a.House.Answers["shape.chimney"].Text == "masonry" || slices.ContainsFunc(a.placesLike(besideChimney), func(p *Place) bool {
		return isMasonry(p.Answers["chimney"].Text)
	})
}

// ListedPipe reports whether a chimney or vent of the house is said to be a pipe, of
// metal or plastic.
func (a Answered) ListedPipe() bool {
	up := a.House.Answers["shape.chimney"].Text
	return up == "metal" || up == "plastic" || slices.ContainsFunc(a.placesLike(besideChimney), func(p *Place) bool {
		kind := p.Answers["chimney"]
		return kind.State == Given && !isMasonry(kind.Text)
	})
}

// ofWallBehind: the one framed side behind an outside chimney is a piece of an
// outside wall. Where every outside wall is said to be framed alike, so is it.
func ofWallBehind(key string) func(Answered, *Place) Answer {
	return func(a Answered, p *Place) Answer {
		if p.Answers["chimney"].Text != "masonry-outside" {
			return Answer{}
		}
		var told Answer
		for _, w := range a.placesLike(outsideWall) {
			said := w.Answers[key]
			if said.State != Given || told.State == Given && !reflect.DeepEqual(told, said) {
				return Answer{}
			}
			told = said
		}
		return told
	}
}

func isMasonry(kind string) bool { return strings.HasPrefix(kind, "masonry-") }

// offersChimney leaves out the kinds that what was said of the house rules out.
func offersChimney(a Answered, _ *Place, o Option) bool {
	switch a.onlyChimney() {
	case "masonry":
		return isMasonry(o.Value)
	case "metal":
		return !isMasonry(o.Value) && o.Value != "plastic-vent"
	case "plastic":
		return o.Value == "plastic-vent"
	}
	return true
}

// Offered is a question with only the options that the other answers leave. An
// answer that was given stays among them.
func (a Answered) Offered(q Question, p *Place) Question {
	if q.Offers == nil {
		return q
	}
	now := a.Raw(q, p).Text
	q.Options = slices.DeleteFunc(slices.Clone(q.Options), func(o Option) bool { return o.Value != now && !q.Offers(a, p, o) })
	return q
}

// TellsOthers reports whether an answer about one place can answer questions
// about others or about the house, names or warns of something in others.
func (q Question) TellsOthers() bool {
	return q.Scope == PlaceScope && slices.Contains([]string{"chimney", "flue_through", "existing_r", "vermiculite", "bath_fan_outside", "label", "framing.size", "framing.spacing_in"}, q.Key)
}
