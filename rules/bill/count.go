package bill

import (
	"fmt"
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// count is the geometry of one place: bays, or no more than an area.
type count struct {
	layout  takeoff.Layout
	floor   *takeoff.Floor // for a layer across the joists, the hatch, the sheets
	wall    *takeoff.Wall  // for sealant and sheets
	sealFt  float64        // of that wall
	byArea  bool
	studIn  float64 // clear height of a wall's spaces, 0 where there are none
	highIn  float64 // height the area was taken with, plates in it
	pieceIn float64 // height of the pieces where only an area is known, 0 where they run on
	lengthF float64 // of walls, all pieces together, 0 when not known
	keys    []string
	notes   []string
	differ  string  // how the area typed and the sizes disagree
	moreFt2 float64 // typed beyond what the lengths give
}

// sizes of one place, as answered or assumed.
type sizes struct {
	m    *maker
	p    *house.Place
	item *Item
}

func (s sizes) num(key string) float64 { return s.m.a.Num(house.PlaceScope, s.p, key) }

func (s sizes) said(key string) bool {
	return s.m.a.Value(house.PlaceScope, s.p, key).Source == house.FromAnswer
}

// count finds the bays of a place by what is known of it.
func (s sizes) count() (count, error) {
	var c count
	var err error
	switch size := s.item.Place.Surface.Kind.Size; size {
	case catalog.SizeRun:
		c, err = s.walls()
	case catalog.SizeRing:
		c, err = s.ring()
	case catalog.SizeChase:
		c, err = s.chase()
	case catalog.SizeRim:
		c, err = s.rim()
	default:
		c, err = s.floorOf(size == catalog.SizeFloor)
	}
	if !s.item.Place.Surface.Kind.Derived { // there it is not asked
		c.keys = append(c.keys, "framing.size", "framing.spacing_in")
	}
	return c, err
}

func (c *count) note(format string, args ...any) {
	c.notes = append(c.notes, fmt.Sprintf(format, args...))
}

// byModule is the count where nothing but the area is known.
func (s sizes) byModule(c count, why string, keys ...string) count {
	c.byArea, c.keys = true, keys
	c.note("%s", why)
	return c
}

// studOf gives the clear height and the whole height of a wall. Walls called 8,
// 9 or 10 feet stand on studs of trade length.
func (s sizes) studOf(heightFt float64) (studIn, heightIn float64, note string) {
	if s.said("stud_in") {
		studIn = s.num("stud_in")
		return studIn, studIn + takeoff.PlatesIn, "studs as you measured them: " + s.m.a.System.Inches(studIn)
	}
	for _, t := range s.m.c.Studs() {
		if math.Abs(t.WallFt-heightFt) < 0.01 {
			return t.StudIn, t.StudIn + takeoff.PlatesIn, fmt.Sprintf("walls called %s high stand on studs of trade length, %s; measure one", s.m.a.System.Feet(heightFt), s.m.a.System.Inches(t.StudIn))
		}
	}
	heightIn = heightFt * units.InchPerFoot
	return heightIn - takeoff.PlatesIn, heightIn, "studs taken as the height less three plates"
}

func (s sizes) frame() (depthIn, spacingIn float64) {
	return s.item.Place.Surface.Frame.DepthIn, s.item.Place.Surface.Frame.SpacingIn
}

// story is how high one story of a wall is, and how many stand on each other: a wall
// too high for one length of studs, in a house of several stories, has a floor
// between.
func (s sizes) story() (highFt float64, stories int) {
	highFt, stories = s.num("height_ft"), int(s.m.a.Num(house.Shape, nil, "stories"))
	if highFt <= s.m.c.Figure("one-story").Value || stories < 2 || s.said("stud_in") {
		return highFt, 1
	}
	return highFt / float64(stories), stories
}

func (s sizes) walls() (count, error) {
	var c count
	high, stories := s.story()
	stud, height, note := s.studOf(high)
	c.studIn, c.pieceIn, c.highIn = stud, stud, high*units.InchPerFoot
	heightKey := "height_ft"
	if s.said("stud_in") {
		heightKey = "stud_in"
	}
	lengths := slices.Repeat(s.m.a.LengthsFt(s.p), stories)
	openings := house.OpeningsOf(s.p)
	for _, l := range lengths {
		c.lengthF += l
	}
	switch {
	case len(lengths) == 0:
		return s.byModule(c, "only its area is known: type the length of each straight piece for a count bay by bay", "area_ft2", "openings_ft2", heightKey), nil
	case !s.said("openings") && s.num("openings_ft2") > 0:
		if gross := c.lengthF * high; s.num("openings_ft2") > gross {
			return c, fmt.Errorf("%w: openings %.0f ft2, wall %.0f ft2", takeoff.ErrOpenings, s.num("openings_ft2"), gross)
		}
		return s.byModule(c, "the windows and doors are known by their area only: type the size of each for a count bay by bay", s.lengthKey(), "openings_ft2", heightKey), nil
	}
	c.note("%s", note)
	if stories > 1 {
		c.note("%d stories of %s, each with studs of its own; type each story as a place where they differ", stories, s.m.a.System.Feet(high))
	}
	depth, spacing := s.frame()
	w := takeoff.Wall{LengthsIn: takeoff.FeetIn(lengths...), HeightIn: height, StudHeightIn: stud, DepthIn: depth, SpacingIn: spacing}
	for _, o := range openings {
		w.Openings = append(w.Openings, takeoff.Opening{WidthIn: o.WidthIn, HeightIn: o.HeightIn, Count: o.Count})
	}
	openKey := "openings"
	if !s.said("openings") {
		openKey = "openings_ft2"
	}
	c.keys = []string{s.lengthKey(), heightKey, openKey}
	if len(openings) > 0 {
		c.note("where the windows stand is not asked: they are taken as spread evenly, with two studs on each side; measure each narrow space before you cut for it")
	}
	s.differs(&c, c.lengthF*high)
	return c.ofWall(w)
}

func (s sizes) lengthKey() string {
	if s.said("lengths_ft") {
		return "lengths_ft"
	}
	return "length_ft"
}

// differs says when the area that was typed and the sizes disagree. The larger
// of the two is ordered: a gable over the wall is in the area and in no length.
func (s sizes) differs(c *count, grossFt2 float64) {
	typed := s.num("area_ft2")
	if !s.said("area_ft2") || math.Abs(typed-grossFt2) <= 0.05*typed {
		return
	}
	text := fmt.Sprintf("you typed {%.0f square feet}, the lengths give {%.0f square feet}. Ordered for the lengths, which are more; the R and the heat of the plan go by the area you typed. Correct one of them", typed, grossFt2)
	if typed > grossFt2 {
		c.moreFt2 = typed - grossFt2
		text = fmt.Sprintf("you typed {%.0f square feet}, the lengths give {%.0f square feet}. Ordered for the larger: the {%.0f square feet} beyond the lengths (a gable?) are counted by area, without a cut list. Correct one of them, or make a gable a place of its own", typed, grossFt2, c.moreFt2)
	}
	c.differ = units.Prose(text).In(s.m.a.System)
}

func (c count) ofWall(w takeoff.Wall) (count, error) {
	c.wall = &w
	var err error
	c.layout, err = w.Layout()
	return c, err
}

// floorOf is a plane of joists or rafters. Nobody is asked which way they run:
// along the shorter side, as usual.
func (s sizes) floorOf(rim bool) (count, error) {
	var c count
	if !s.said("length_ft") || !s.said("width_ft") {
		return s.byModule(c, "only its area is known: type length and width for a count bay by bay", "area_ft2"), nil
	}
	long, wide := s.num("length_ft")*units.InchPerFoot, s.num("width_ft")*units.InchPerFoot
	depth, spacing := s.frame()
	f := takeoff.Floor{LengthIn: max(long, wide), WidthIn: min(long, wide), DepthIn: depth, SpacingIn: spacing, Rim: rim}
	c.floor, c.keys = &f, []string{"length_ft", "width_ft"}
	c.note("joists or rafters taken as running along the shorter side, from edge to edge")
	if rim {
		c.note("taken as sawn joists %s thick: I-joists leave wider spaces, which are not counted here, and blankets cut for these would leave a gap; measure the space between the webs and ask for that width", s.m.a.System.Inches(takeoff.StudIn))
	}
	s.differs(&c, long*wide/(units.InchPerFoot*units.InchPerFoot))
	var err error
	c.layout, err = f.Layout()
	return c, err
}

func (s sizes) ring() (count, error) {
	var c count
	high := s.num("wall_height_ft")
	c.studIn, c.highIn = high*units.InchPerFoot-takeoff.PlatesIn, high*units.InchPerFoot
	if s.item.Place.Surface.Kind.Derived {
		c.note("the studs against these walls are taken as %s at %s: build them so, or count again; the joists that you may have typed are not they", s.item.Place.Surface.Frame.Size, s.m.a.System.Inches(s.item.Place.Surface.Frame.SpacingIn))
	}
	if !s.said("length_ft") || !s.said("width_ft") {
		c.pieceIn = c.highIn // hung from the sill; between studs they are shorter
		why := fmt.Sprintf("only the area of the walls is known: counted in pieces as high as the wall, %s; type the length and the width of the crawl space for a count wall by wall", s.m.a.System.Feet(high))
		return s.byModule(c, why, "area_ft2", "wall_height_ft"), nil
	}
	l, w := s.num("length_ft"), s.num("width_ft")
	depth, spacing := s.frame()
	c.lengthF = 2 * (l + w)
	c.keys = []string{"length_ft", "width_ft", "wall_height_ft"}
	s.differs(&c, c.lengthF*high)
	c.note("four walls, counted with studs; where the blanket hangs from the sill instead, cut it to the height")
	return c.ofWall(takeoff.Wall{LengthsIn: takeoff.FeetIn(l, w, l, w), HeightIn: high * units.InchPerFoot, DepthIn: depth, SpacingIn: spacing})
}

func (s sizes) chase() (count, error) {
	var c count
	stud, height, note := s.studOf(s.num("height_ft"))
	depth, spacing := s.frame()
	floors, chimney := int(max(1, s.num("floors"))), s.item.Place.Surface.Clearance
	c.keys = []string{"width_in", "depth_in", "height_ft", "floors"}
	studs := fmt.Sprintf("the studs outside the gap of %s that stays EMPTY; %s", s.m.a.System.Clearance(chimney.Inches), note)
	if chimney.Chimney == "masonry-outside" {
		c.note("one framed side, the wall of the house behind the chimney, %s; where that wall is already in the sizes of an outside wall, take it off there", studs)
		behind := slices.Repeat([]float64{s.num("width_in")}, floors)
		return c.ofWall(takeoff.Wall{LengthsIn: behind, HeightIn: height, StudHeightIn: stud, DepthIn: depth, SpacingIn: spacing})
	}
	sides := 4
	if chimney.Chimney == "masonry-in-wall" {
		sides = 3
	}
	w, err := takeoff.Chase{
		ChimneyWidthIn: s.num("width_in"), ChimneyDepthIn: s.num("depth_in"), ClearanceIn: chimney.Inches,
		DepthIn: depth, SpacingIn: spacing, StoreyIn: height, Storeys: floors, Sides: sides,
	}.Wall()
	if err != nil {
		return c, err
	}
	w.StudHeightIn = stud
	c.note("%d framed sides, %s", sides, studs)
	return c.ofWall(w)
}

// rim counts a piece in every joist bay. With the shape of the house known the
// two sides along the joists are strips; else joists are taken all round.
func (s sizes) rim() (count, error) {
	var c count
	depth, spacing := s.frame()
	l, w := s.m.a.Value(house.Shape, nil, "length_ft"), s.m.a.Value(house.Shape, nil, "width_ft")
	around := 2 * (l.Answer.Number + w.Answer.Number)
	shaped := l.Source == house.FromAnswer && w.Source == house.FromAnswer
	if shaped && (!s.said("length_ft") || math.Abs(s.num("length_ft")-around) < 0.5) {
		long, wide := l.Answer.Number*units.InchPerFoot, w.Answer.Number*units.InchPerFoot
		f := takeoff.Floor{LengthIn: max(long, wide), WidthIn: min(long, wide), DepthIn: depth, SpacingIn: spacing}
		c.lengthF, c.keys = around, []string{"shape.length_ft", "shape.width_ft"}
		c.note("one piece between the ends of every two joists, strips along the outer ones; joists taken as running along the shorter side of the house")
		var err error
		c.layout, err = f.RimLayout()
		return c, err
	}
	if !s.said("length_ft") {
		c.lengthF = s.item.Place.Surface.AreaFt2 * units.InchPerFoot / max(depth, 1)
		return s.byModule(c, "only its area is known: type its length for a count piece by piece", "area_ft2"), nil
	}
	c.lengthF, c.keys = s.num("length_ft"), []string{"length_ft"}
	c.note("joist ends taken as meeting the rim all along it: pieces between them")
	run := takeoff.Wall{LengthsIn: takeoff.FeetIn(s.num("length_ft")), HeightIn: depth + takeoff.PlatesIn, StudHeightIn: depth, DepthIn: depth, SpacingIn: spacing}
	layout, err := run.Layout()
	if err != nil {
		return c, err
	}
	for i := range layout.Bays {
		layout.Bays[i].Kind = takeoff.KindRim
	}
	layout.GrossFt2 = s.num("length_ft") * depth / units.InchPerFoot
	c.layout = takeoff.Merge(layout)
	return c, nil
}

// confirmed sorts the sizes of a count into measured, typed and assumed.
func (s sizes) confirmed(keys []string, out *Place) {
	seen := map[string]bool{}
	for _, key := range keys {
		if seen[key] {
			continue
		}
		seen[key] = true
		full, scope := "place."+key, house.PlaceScope
		if rest, shape := key, len(key) > 6 && key[:6] == "shape."; shape {
			full, scope, key = rest, house.Shape, rest[6:]
		}
		q, ok := s.m.a.List.Find(full)
		if !ok {
			continue
		}
		out.Sizes++
		if scope == house.PlaceScope {
			out.SizeKeys = append(out.SizeKeys, key)
		}
		switch source := s.m.a.Value(scope, s.p, key).Source; {
		case source != house.FromAnswer:
			out.Assumed = append(out.Assumed, sizeWord(q.Key))
		case scope == house.PlaceScope && slices.Contains(s.p.Measured, key):
			out.Measured++
		}
	}
}

// sizeWord names a size in a few words.
func sizeWord(key string) string {
	switch key {
	case "length_ft", "lengths_ft":
		return "length"
	case "width_ft", "width_in":
		return "width"
	case "height_ft", "wall_height_ft":
		return "height"
	case "stud_in":
		return "length of a stud"
	case "depth_in":
		return "depth"
	case "area_ft2":
		return "area"
	case "openings", "openings_ft2":
		return "windows and doors"
	case "framing.size":
		return "size of the framing"
	case "framing.spacing_in":
		return "spacing of the framing"
	case "floors":
		return "stories"
	}
	return key
}
