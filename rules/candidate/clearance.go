package candidate

import (
	"strings"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Clearance is the air that must stay empty around a chimney, and the air there
// is. Where the width is not known nothing stands in for it.
type Clearance struct {
	Chimney string // kind, empty when unknown
	Brick   bool   // said to be of brick or stone: no listing tells its width
	Known   bool   // the width is known: masonry by the code, a pipe by the listing that was typed
	Inches  float64
	SureIn  float64 // of it, what does not rest on memory: wood nearer than that stops the place; 0 when not known
	GapIn   float64 // air there is between chimney and framing
	GapSaid bool
	Reason  string
	From    []catalog.Ref // of the widths, the one that is kept last
}

// Said wherever a width would stand that is not known. Brick and stone have no
// listing: their width goes by where they stand.
const (
	widthNotListed = "width not known: read the listing"
	brickNotFound  = "width not known: find out where the brick stands (inside, in the wall, outside)"
)

// connector is a single-wall pipe: it never passes an insulated space, and no figure
// makes that right.
const connector = "metal-connector"

func (c Clearance) notKnown() string {
	if c.Brick {
		return brickNotFound
	}
	return widthNotListed
}

func clearanceOf(a house.Answered, p *house.Place) Clearance {
	if !a.KindOf(p).BesideChimney {
		return Clearance{}
	}
	kind := a.Value(house.PlaceScope, p, "chimney")
	c := Clearance{Chimney: kind.Answer.Text}
	c.Brick, _ = a.Masonry(p)
	if gap := a.Value(house.PlaceScope, p, "gap_in"); gap.Source == house.FromAnswer {
		c.GapIn, c.GapSaid = gap.Answer.Number, true
	}
	c.byCode(a.List.Catalog().ClearancesOf(c.Chimney), a.System)
	why := ""
	// A listing or an inspector may ask for more than the code. A listing of 0 is
	// no width to build by.
	if listed := a.Value(house.PlaceScope, p, "clearance_in"); listed.Source == house.FromAnswer && c.Chimney != connector {
		typed := listed.Answer.Number
		least := a.List.Catalog().Figure("least-listing").Value // less is a slip, or a way past the question
		if typed >= least {
			c.SureIn = max(c.SureIn, typed)
		}
		switch {
		case typed == 0:
			why = "you typed 0: have somebody licensed read it again; "
		case typed < least:
			why = "you typed " + a.System.Inches(typed) + ": have somebody licensed read it again; "
		case typed > c.Inches:
			c.Inches, c.From = typed, nil
			c.Known, c.Reason = kind.Known, "as its listing says"
			why = "the kind of chimney is not known, so the distance you typed may not be enough; "
		}
	}
	if !c.Known {
		c.Inches, c.Reason = 0, why+"nothing is planned or ordered here, and do not close it before that"
	}
	if c.doubtIn() > 0 {
		c.Reason += "; you typed " + a.System.Inches(c.GapIn) + " to the wood: ask the mason whether it may stand so near"
	}
	return c
}

// chimneyFacts are what is known of the chimney and of the air beside it.
func chimneyFacts(set func(string, rules.Value), a house.Answered, p *house.Place, s Surface) {
	brick, ok := a.Masonry(p)
	if ok {
		set("masonry", rules.Bool(brick))
	}
	set("by_listing", rules.Bool(!ok || !brick))
	set("gap_doubt_in", rules.Number(s.Clearance.doubtIn()))
	set("clearance_known", rules.Bool(s.Clearance.Known))
	if s.Clearance.Known {
		set("clearance_in", rules.Number(s.Clearance.Inches))
		set("bay_left_in", rules.Number(s.Frame.RoomIn))
	}
	switch short, ok := s.Clearance.shortIn(); {
	case s.Clearance.Chimney == connector: // it may not be there at all: no distance is asked for
		set("gap_short_in", rules.Number(0))
	case ok:
		set("gap_short_in", rules.Number(short))
	}
}

// byCode takes the widths that the code has for a kind of chimney.
func (c *Clearance) byCode(list []catalog.Clearance, s units.System) {
	var words []string
	for _, x := range list {
		mark := ""
		if x.Known == catalog.Memory {
			mark = " (from memory, not yet checked)"
		} else {
			c.SureIn = max(c.SureIn, x.Inches)
		}
		words = append(words, x.Text+": "+s.Clearance(x.Inches)+mark)
		if x.Inches >= c.Inches {
			c.Inches, c.From = x.Inches, append(c.From, x.Ref)
		} else {
			c.From = append([]catalog.Ref{x.Ref}, c.From...)
		}
	}
	c.Known, c.Reason = len(list) > 0, strings.Join(words, "; ")
	switch {
	case len(list) > 1:
		c.Reason += "; the larger is kept"
	case c.Known && c.SureIn > 0:
		c.Reason = list[0].Text // its width stands before it
	}
}

// Text is the width that stays empty, or that it is not known.
func (c Clearance) Text(s units.System) string {
	if !c.Known {
		return c.notKnown()
	}
	return s.Clearance(c.Inches)
}

// Ref is where the width that is kept is from; nothing for one that was typed.
func (c Clearance) Ref() catalog.Ref {
	if len(c.From) == 0 {
		return catalog.Ref{}
	}
	return c.From[len(c.From)-1]
}

// shortIn is how much nearer the wood stands than it may; ok is false while
// the gap or the width is not known.
func (c Clearance) shortIn() (in float64, ok bool) {
	return max(0, c.SureIn-c.GapIn), c.GapSaid && c.SureIn > 0
}

// doubtIn is how much nearer the wood stands than a width that rests on memory,
// where it keeps what does not: that asks, and stops nothing.
func (c Clearance) doubtIn() float64 {
	if !c.GapSaid || c.GapIn < c.SureIn {
		return 0
	}
	return max(0, c.Inches-c.GapIn)
}

// BayLeftIn is the depth left for a blanket when the clearance comes off a bay
// of the given depth, less the air there already is. While the width is not
// known it is the whole bay, which only serves to compare fibers: no blanket is
// chosen.
func (c Clearance) BayLeftIn(depthIn float64) float64 {
	return max(0, depthIn-max(0, c.Inches-c.GapIn))
}

// Held says why no blanket is chosen for a place though some may go there and
// nothing stops it; empty when one may be.
func (s Surface) Held() string {
	if s.Kind.BesideChimney && !s.Clearance.Known {
		return s.Clearance.notKnown()
	}
	return ""
}
