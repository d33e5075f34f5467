package catalog

import (
	"slices"

	"battwright/rules"
	"battwright/rules/units"
)

// PlaceKind is a kind of place: the program knows it by its traits alone.
type PlaceKind struct {
	ID               string  `toml:"id,required"`
	Name             string  `toml:"name,required"`
	Remove           bool    `toml:"remove"`
	Derived          bool    `toml:"derived"` // not chosen: another kind is insulated as this one, see Unvented
	CodeElement      string  `toml:"code_element"`
	ShareElement     string  `toml:"share_element,required"`
	Boundary         string  `toml:"boundary,required"` // air, soil or none
	InsideFilmR      float64 `toml:"inside_film_r"`
	OutsideFilmR     float64 `toml:"outside_film_r"`
	HeatFlow         string  `toml:"heat_flow"`
	DefaultSize      string  `toml:"default_size,required"`
	DefaultSpacingIn float64 `toml:"default_spacing_in,required"`
	DefaultPractice  string  `toml:"default_practice,required"`

	Sizes            []string `toml:"sizes"`
	CavityDepthIn    float64  `toml:"cavity_depth_in"`
	VentChannelIn    float64  `toml:"vent_channel_in"`
	StackOverFraming bool     `toml:"stack_over_framing"` // blankets may lie over the joists; the ceiling carries them
	AfterDrywall     bool     `toml:"after_drywall"`      // the blanket can still go in once the drywall is up
	Supports         string   `toml:"supports"`
	SoundGain        float64  `toml:"sound_gain"`
	Labour           string   `toml:"labor"`
	Layers           []Layer  `toml:"layer,required"`
	Traits
	Ref
	from origin
}

// Traits are what the program does differently for a kind of place. Those of a
// kind of ours cannot be changed: another kind gets an id of its own.
type Traits struct {
	Size      string             `toml:"size"`
	AreaOf    string             `toml:"area_of"`
	AreaTimes float64            `toml:"area_times"`
	HalfWhen  map[string]string  `toml:"half_when"`
	Usual     map[string]float64 `toml:"usual"`
	Exposed   string             `toml:"exposed"`
	Retarder  string             `toml:"retarder"`
	Unfaced   units.Prose        `toml:"unfaced"` // why, where Retarder is RetarderNever
	// What practice says of damp there, by what the code asks of the room side, or of any.
	DampPractice  map[string]units.Prose `toml:"damp_practice"`
	NoRoomSide    bool                   `toml:"no_room_side"`
	Airway        string                 `toml:"airway"`
	BesideChimney bool                   `toml:"beside_chimney"`
	CutUp         bool                   `toml:"cut_up"` // many short or odd pieces: more is spared
	Unvented      string                 `toml:"unvented"`
	Drawing       string                 `toml:"drawing"`
	Damp          []string               `toml:"damp"`       // sections of the hourly check of damp
	NotJudged     units.Prose            `toml:"not_judged"` // why there is none
	Asks          []string               `toml:"asks"`
	NoLongerAsked []string               `toml:"no_longer_asked"`
	StillOpen     map[string][]float64   `toml:"still_open"`
	Proposed      []Proposal             `toml:"proposed"`
	Ft2Hour       Spread                 `toml:"ft2_hour"`
	NotHere       map[string]string      `toml:"not_here"` // dangers, each with why
}

// How a place is measured and counted.
const (
	SizeRun       = "run"       // straight walls with studs and openings
	SizeRectangle = "rectangle" // joists or rafters from edge to edge
	SizeFloor     = "floor"     // joists between rims
	SizeRing      = "ring"      // the walls around a rectangle
	SizeRim       = "rim"       // between the ends of joists
	SizeChase     = "chase"     // around a chimney
)

// What the shape of the house gives a place until it is measured.
const (
	AreaWalls     = "walls"
	AreaFootprint = "footprint"
	AreaPerimeter = "perimeter"
)

// Whether the blanket stays visible.
const (
	ExposedAlways   = "always"
	ExposedNever    = "never"
	ExposedAsked    = "asked"
	ExposedAskedYes = "asked-yes"
)

// What goes on the room side of a place.
const (
	RetarderByTable = "by-table"
	RetarderByZone  = "by-zone"
	RetarderUnfaced = "unfaced"
	RetarderNever   = "never"
)

// The airways under a roof.
const (
	AirwayEaves   = "eaves"
	AirwayChannel = "channel"
)

// UsualKeys are the questions whose default is a number of the kind.
var UsualKeys = []string{"heel_in", "wall_height_ft", "above_grade_ft", "width_in", "depth_in"}

// Proposal is when the shape of a house calls for a place of the kind: always,
// or by one of its answers.
type Proposal struct {
	Order int            `toml:"order,required"`
	Of    string         `toml:"of"` // the question of the shape; empty for always
	Is    []string       `toml:"is"`
	IsNot []string       `toml:"is_not"`
	Label string         `toml:"label"`
	Set   map[string]any `toml:"set"` // answers that follow: true, false or a text
}

// Calls reports whether an answer calls for the place.
func (p Proposal) Calls(answer string) bool {
	return p.Of == "" || slices.Contains(p.Is, answer) || len(p.IsNot) > 0 && !slices.Contains(p.IsNot, answer)
}

// AsksOf reports whether places of the kind have a question of their own.
func (k PlaceKind) AsksOf(key string) bool { return slices.Contains(k.Asks, key) }

// AsksExposed reports whether the builder is asked if the blanket stays visible.
func (k PlaceKind) AsksExposed() bool {
	return k.Exposed == ExposedAsked || k.Exposed == ExposedAskedYes
}

// OpenBelow reports whether nothing is under the joists.
func (k PlaceKind) OpenBelow() bool { return k.HeatFlow == "down" && k.Exposed == ExposedAlways }

// SlopeHoldsLess reports whether the code knows a lower R for a part of it, as
// for slopes whose rafters are too shallow.
func (k PlaceKind) SlopeHoldsLess() bool { return k.Airway == AirwayChannel }

// Danger is something that can hurt people or the house. It may be in every kind
// of place that does not say why not.
type Danger struct {
	ID       string      `toml:"id,required"`
	Name     string      `toml:"name,required"`
	Question string      `toml:"question"` // of a place
	Where    rules.Where `toml:"where,required"`
	from     origin
}

// Drawing is a part of a house as the energy table of drawings names it.
type Drawing struct {
	ID    string      `toml:"id,required"`
	Name  string      `toml:"name,required"`
	Board string      `toml:"board"` // where a board of its own may be named, empty for none
	How   units.Prose `toml:"how,required"`
}

// KindsAsking are the kinds a builder can choose that have a question: those
// that list it, and for the question of a danger all where that may be.
func (c *Catalog) KindsAsking(key string) []string {
	var out []string
	for _, k := range c.Kinds {
		if !k.Derived && (k.AsksOf(key) || slices.ContainsFunc(c.Dangers, func(d Danger) bool { return d.Question == key && c.mayBe(d, k) })) {
			out = append(out, k.ID)
		}
	}
	return out
}

// mayBe reports whether a danger may be in a place of the kind, or in what it is
// insulated as.
func (c *Catalog) mayBe(d Danger, k PlaceKind) bool {
	if _, spared := k.NotHere[d.ID]; !spared {
		return true
	}
	as, ok := c.Kind(k.Unvented)
	return ok && c.mayBe(d, as)
}

// KindsLike are the kinds with a trait.
func (c *Catalog) KindsLike(has func(PlaceKind) bool) []string {
	var out []string
	for _, k := range c.Kinds {
		if has(k) {
			out = append(out, k.ID)
		}
	}
	return out
}

// kindsWith are the kinds in which a danger may be.
func (c *Catalog) kindsWith(danger string) []string {
	return c.KindsLike(func(k PlaceKind) bool { _, spared := k.NotHere[danger]; return !spared })
}

// Hours are the hours EffortPeople first-timers take, together, for an area in square feet: quick,
// typical, slow.
func (k PlaceKind) Hours(ft2 float64) units.Range[float64] {
	return units.Range[float64]{Low: ft2 / k.Ft2Hour.High, Typical: ft2 / k.Ft2Hour.Typical, High: ft2 / k.Ft2Hour.Low}
}
