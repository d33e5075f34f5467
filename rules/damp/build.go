package damp

import (
	"battwright/rules/catalog"
	"battwright/rules/moisture"
)

// Unknown stands for an answer that nobody gave: each usual one is tried.
const Unknown = ""

// House is what all places of a house share, as far as this check goes.
type House struct {
	Climate     catalog.Climate
	HasClimate  bool
	NoClimate   string // why there is none; may be empty
	Marine      bool   // the zone
	Indoor      moisture.Indoor
	SoilAtShare float64 // swing of the soil at a wall, as a share of the air's
}

// Build is a place with everything in it that the plan counts on.
type Build struct {
	Sections  []string // of the kind of place
	NotJudged string   // why there is none
	Bare      bool     // nothing on the room side could be sealed: what it is with holes, it is
	Parts     []Part   // from the room outwards
	HeightM   float64  // of a wall in the soil
	AboveM    float64  // of it, above the soil
	Cover     string   // id of a cover, or Unknown
	Board     string   // id of a board, or Unknown
	PitchDeg  *float64 // of the roof; nil: unknown
}

// Role is what a part is in its place.
type Role int

// The roles.
const (
	Lining  Role = iota // on the room side, or a sheet
	Covered             // a lining that a cover is on: drywall
	Blanket
	Board  // of the kind that the build names
	Bearer // sheathing, subfloor, rim, concrete
	Shell  // wrap, cladding: never judged
)

// Part is one part of a build-up: its layers, or of a board the R.
type Part struct {
	Role   Role
	Layers []catalog.DampLayer
	None   bool    // a blanket that is left out
	R      float64 // h.ft2.F/Btu
	Name   string  // what to call it where something is missing
}

// leaks are those of a place as it should be built, and with holes. A bare blanket
// has nothing that could be sealed: it is always as with holes.
func (b *Build) leaks(l *catalog.Layers) []float64 {
	if b.Bare {
		return []float64{l.LeakWithHolesM3M2H, l.LeakWithHolesM3M2H}
	}
	return []float64{l.LeakWorkmanlikeM3M2H, l.LeakWithHolesM3M2H}
}
