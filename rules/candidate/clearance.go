package candidate

import (
	"fmt"

	"battwright/rules/house"
)

// Clearance is the air that must stay empty round a chimney.
type Clearance struct {
	Chimney string  // kind, empty when unknown
	Inches  float64 // what the plan keeps empty
	Known   bool    // false: the listing was not read, the figure is a stand-in
	Barred  bool    // the pipe may not pass an insulated cavity at all
	GapIn   float64 // air there is between chimney and framing
	GapSaid bool
	Reason  string
	Source  string
}

// The masonry distances are those of IRC R1003.18 and R1001.11 (2 in, 1 in
// wholly outside: read; 4 in at the back of a fireplace: memory). Listed metal
// and plastic pipes have no default: only their own listing counts.
const (
	masonryInsideIn  = 2.0
	masonryOutsideIn = 1.0
	fireplaceBackIn  = 4.0
	standInIn        = 2.0
)

func clearanceOf(a house.Answered, p *house.Place) Clearance {
	if p.Kind != "chimney" {
		return Clearance{}
	}
	kind := a.Value(house.PlaceScope, p, "chimney")
	c := Clearance{Chimney: kind.Answer.Text, Source: "irc-r1003"}
	if gap := a.Value(house.PlaceScope, p, "gap_in"); gap.Source == house.FromAnswer {
		c.GapIn, c.GapSaid = gap.Answer.Number, true
	}
	in := a.System.Clearance
	listed := a.Value(house.PlaceScope, p, "clearance_in")
	switch {
	case !kind.Known:
		c.Inches, c.Reason = standInIn, fmt.Sprintf("kind of chimney not known: %s planned; do not close before its listing is read", in(standInIn))
	case c.Chimney == "masonry-outside":
		c.Inches, c.Known, c.Reason = masonryOutsideIn, true, "masonry wholly outside the wall: "+in(masonryOutsideIn)
	case c.Chimney == "masonry-inside" || c.Chimney == "masonry-in-wall":
		c.Inches, c.Known, c.Reason = masonryInsideIn, true, "masonry inside or within the wall: "+in(masonryInsideIn)
	case c.Chimney == "masonry-fireplace":
		c.Inches, c.Known, c.Reason = fireplaceBackIn, true, fmt.Sprintf("fireplace: %s at the sides, %s at the back; the larger is planned", in(masonryInsideIn), in(fireplaceBackIn))
	case c.Chimney == "metal-connector":
		c.Barred, c.Inches, c.Reason = true, standInIn, "a single metal pipe must never pass through an insulated wall or floor"
	case listed.Source == house.FromAnswer && listed.Answer.Number == 0:
		c.Known, c.Reason = true, "you typed a listing of "+in(0)+": nothing touches the pipe before somebody licensed has read it too"
	case listed.Source == house.FromAnswer:
		c.Inches, c.Known, c.Reason = listed.Answer.Number, true, "as its listing says"
	default:
		c.Inches, c.Reason = standInIn, fmt.Sprintf("its listing was not read: %s planned; do not close before it is read", in(standInIn))
	}
	// A listing or an inspector may ask for more than the usual distance, of a
	// kind that is not known as well.
	if listed.Source == house.FromAnswer && listed.Answer.Number > c.Inches {
		c.Inches = listed.Answer.Number
		if c.Known {
			c.Reason = "as its listing says"
		} else if !c.Barred {
			c.Reason = "kind of chimney not known: the distance you typed is planned; do not close before its listing is read"
		}
	}
	return c
}

// BayLeftIn is the depth left for a blanket when the clearance comes off a
// bay of the given depth, less the air there already is.
func (c Clearance) BayLeftIn(depthIn float64) float64 {
	need := c.Inches
	if c.GapSaid {
		need = max(0, c.Inches-c.GapIn)
	}
	return max(0, depthIn-need)
}
