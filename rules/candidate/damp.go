package candidate

import (
	"context"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/moisture"
)

// Damp is what the hourly check of damp makes of one candidate in its place, with
// all that the plan counts on in it. Empty: not worked out.
type Damp struct {
	damp.Verdict
	Rooms  moisture.Indoor // how the rooms beside it are kept
	Indoor string          // how damp their air is in winter, as it was answered
	// What the check takes as there and is still to be bought or done.
	BoardR       float64 // board of this R in all
	Dehumidifier bool
	UnderJoists  bool // a tight layer under the joists
	FoamInBays   bool // foam cut to each bay
	EarthCovered bool // the earth below, which is not known to be
	VentsOpen    bool // of the roof, not known to be
	FansOutdoors bool // blow there, not known to
}

// WorkedOut reports whether somebody asked the check.
func (d Damp) WorkedOut() bool { return d.Word != "" }

// Judged reports whether the check could tell.
func (d Damp) Judged() bool { return d.WorkedOut() && d.Word != damp.NotJudged }

// Risk is what the verdict means for wood, paper and fiber: 0 nothing found, or
// nothing worked out; 1 they get wet or mold although all is built as it should be.
func (d Damp) Risk() int {
	if d.Alarm() {
		return 1
	}
	return 0
}

// unjudged is the damp of what nobody can judge, and why.
func unjudged(why string) Damp {
	return Damp{Verdict: damp.Verdict{Word: damp.NotJudged, WithHoles: damp.NotJudged, Why: why}}
}

// NotSeen stands where nobody said or saw which face, or which sheet, lies toward
// which side.
func NotSeen() Damp { return unjudged("the side of the face or the sheet is not known") }

// dampOf asks the hourly check.
func dampOf(s Surface, site Site, c *catalog.Catalog, b Blankets, f Facing, t Target) Damp {
	v, err := damp.Of(c).Judge(context.Background(), site.DampHouse(s, c), DampBuild(s, c, b, f, t))
	if err != nil {
		return unjudged(err.Error())
	}
	d := Damp{Verdict: v, Rooms: site.indoor(s, c), Indoor: site.Indoor, UnderJoists: s.UnderJoists, FoamInBays: s.FoamInBays, EarthCovered: s.EarthBare, VentsOpen: s.VentsUnsaid, FansOutdoors: s.FansUnsaid, Dehumidifier: s.Dehumid}
	if t.AddR > 0 {
		d.BoardR = s.CIR + t.AddR
	}
	if v.Word != damp.NotJudged {
		d.From = uniqueRefs(append(slices.Clone(v.From), site.ClimateRef, s.Kind.Ref))
	}
	return d
}

// Dampen works out the damp of a candidate and all that hangs on it. What a place
// has is costly to judge, so only what may be chosen is; the verdict for the rest
// is that nothing is worked out. It changes the candidate in place.
func (r *PlaceResult) Dampen(i int) {
	a := &r.Candidates[i]
	if a.Damp.WorkedOut() {
		return
	}
	if r.tried != nil {
		a.Damp = r.tried.dampLike(a)
	} else {
		a.Damp = dampOf(r.Surface, *r.site, r.c, a.Blankets, a.Facing, r.Target)
		if a.retard(r) {
			a.Money = moneyOf(r.Surface, r.c, a.Blankets, a.Facing)
		}
	}
	a.measured = valuesOf(r.Surface, r.c, a.Blankets, a.Facing, a.Heat, a.Damp, a.Money, r.Target)
	a.judge(r.Surface, r.c, r.facts)
}

// DampUnder is the damp of a candidate of the place under another sky.
func (r *PlaceResult) DampUnder(site Site, a *Assessed) Damp {
	return dampOf(r.Surface, site, r.c, a.Blankets, a.Facing, r.Target)
}

// DampWithout is the damp of the place without a blanket, and what is asked there all
// the same, empty where nothing is; ok is false where an empty bay is not judged.
func (r *PlaceResult) DampWithout() (d Damp, asked string, ok bool) {
	if !r.c.StandsBare(&r.Surface.Kind) {
		return Damp{}, "", false
	}
	if r.Target.Required {
		asked = r.Target.figures(r.Surface)
	}
	return dampOf(r.Surface, *r.site, r.c, Blankets{}, Facing{OnBlanket: "none"}, r.Target), asked, true
}

// Like reports whether two candidates of a place are the same stack.
func (a *Assessed) Like(b *Assessed) bool {
	return a.Material.ID == b.Material.ID && slices.Equal(a.Layers, b.Layers)
}

// As takes the damp of a place whose answers are only tried from the place as it is:
// a year is worked out for what somebody builds, not for each thing they may answer.
func (r *PlaceResult) As(was *PlaceResult) { r.tried = was }

// Tried reports whether answers of the place are only tried.
func (r *PlaceResult) Tried() bool { return r.tried != nil }

// dampLike is the damp of the same stack in the place as it is: what nobody worked out
// there is not judged.
func (r *PlaceResult) dampLike(a *Assessed) Damp {
	if like := r.candidate(a.Blankets); like != nil && like.Damp.WorkedOut() {
		return like.Damp
	}
	return unjudged("not worked out for an answer that is only tried")
}

// retard adds a retarder that the code leaves open where the place holds with it and
// does not without. Where the code bars one, or the builder has decided, the facing
// stays as it is.
func (a *Assessed) retard(r *PlaceResult) bool {
	if a.Facing.Asked != RetarderNone || !a.Damp.Alarm() {
		return false
	}
	try, ok := openRetarder(a.Facing, r.Surface, a.Layers[0].Product.Has)
	if !ok {
		return false
	}
	try.Class = classOf(try, r.c)
	try.pairs(r.Surface, *r.site, r.c, a.Blankets, r.Target)
	with := dampOf(r.Surface, *r.site, r.c, a.Blankets, try, r.Target)
	if !with.Judged() || with.Alarm() {
		return false
	}
	a.Facing, a.Damp = try, with
	return true
}
