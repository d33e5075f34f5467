package candidate

import (
	"fmt"

	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/heat"
	"battwright/rules/house"
)

// GivenStack is what somebody offers for a place, or what was found in it:
// blankets that the catalog need not know.
type GivenStack struct {
	Material catalog.Material
	Layers   []Layer  // bottom or inner one first, each with the R and the thickness it has there
	Facing   string   // facing of the blanket itself: none, kraft, foil-rated
	Turned   bool     // the face lies away from the heated room
	Sheet    string   // sheet or paint beside it, empty when none
	Void     *float64 // share left empty as measured; nil: as the plan takes it
}

// Given works out a stack that the plan did not choose in a place that was
// assessed: heat, damp, the verdict of the rules. Money is left to the caller,
// who has an offer or a bill. The error says that the stack has no heat that
// could be worked out; there must be a layer.
func Given(a house.Answered, r PlaceResult, site Site, g GivenStack) (Assessed, error) {
	c, p := a.List.Catalog(), a.House.Place(r.Surface.ID)
	if p == nil || len(g.Layers) == 0 {
		return Assessed{Blankets: Blankets{Material: &catalog.Material{}}}, fmt.Errorf("%w: nothing is given for %q", heat.ErrNoResistance, r.Surface.ID)
	}
	s := r.Surface
	s.FoundVoid = g.Void
	b := stack(&g.Material, g.Layers, s, c)
	out := Assessed{Blankets: b, Facing: givenFacing(s, site, c, b, r.Target, g)}
	var err error
	if out.Heat, err = heatOf(s, site, c, b, r.Target); err != nil {
		return out, err
	}
	out.Damp = givenDamp(s, site, c, b, out.Facing, r.Target)
	out.Facts = candidateFacts(placeFacts(a, p, s, site), s, c, b, out.Facing, out.Heat, out.Damp)
	out.Verdict = verdictOf(c, out.Facts, s.System)
	return out, nil
}

// givenDamp is the damp of what is given. A face that lies away from the room seals
// nothing: its place is never better than without it.
func givenDamp(s Surface, site Site, c *catalog.Catalog, b Blankets, f Facing, t Target) Damp {
	d := dampOf(s, site, c, b, f, t)
	if !f.Turned || !d.Judged() {
		return d
	}
	f.OnBlanket, f.Turned = "none", false
	if bare := dampOf(s, site, c, b, f, t); damp.Rank(bare.Word) > damp.Rank(d.Word) {
		return bare
	}
	return d
}

// givenFacing keeps what the place asks and takes what is there.
func givenFacing(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target, g GivenStack) Facing {
	f := facingOf(s, site, c, b, t)
	f.OnBlanket, f.Sheet, f.Added, f.Why = g.Facing, g.Sheet, false, ""
	if f.OnBlanket == "" {
		f.OnBlanket = "none"
	}
	f.Turned = g.Turned && f.OnBlanket != "none"
	f.Class = classOf(f, c)
	f.pairs(s, site, c, b, t)
	return f
}

// BoardR is the R of the board that a place counts on in all: there, and to buy.
func (r PlaceResult) BoardR() float64 { return r.Surface.CIR + r.Target.AddR }

// OtherR is the R of everything in a place but its blankets, films included:
// what stands behind a gap in them.
func (r PlaceResult) OtherR(c *catalog.Catalog, b Blankets) float64 {
	return behindR(r.Surface, series(r.Surface, c, b, r.Target.AddR, false))
}

// crossed reports whether a layer lies across the others and covers their
// gaps.
func crossed(b Blankets) bool {
	for _, l := range b.Layers {
		if l.Across {
			return true
		}
	}
	return false
}

// gapR is the R of several layers whose gaps were measured: what was found goes
// right through, beside the gaps of a crossed bottom layer that nobody sees.
func gapR(s Surface, c *catalog.Catalog, b Blankets, r, otherR float64) float64 {
	if s.FoundVoid == nil || !crossed(b) && len(b.Layers) < 2 {
		return r
	}
	less, err := heat.WithVoids(r, otherR, c.Settings.EmptyCavityR, *s.FoundVoid)
	if err != nil {
		return r
	}
	return less
}

// throughGaps takes measured gaps of crossed blankets off the whole surface.
func throughGaps(s Surface, c *catalog.Catalog, b Blankets, layers []heat.Voided, x heat.Bounds) heat.Bounds {
	other := behindR(s, layers)
	less := func(r float64) float64 {
		if r <= other {
			return r
		}
		return other + gapR(s, c, b, r-other, other)
	}
	return heat.Bounds{Isothermal: less(x.Isothermal), Mean: less(x.Mean), Parallel: less(x.Parallel)}
}
