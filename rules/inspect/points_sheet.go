package inspect

import (
	"slices"

	"battwright/rules/house"
)

// otherSheet reports whether another sheet is up than the one that was agreed. A
// smart sheet does what a plastic one does, but where the damp check finds it worse,
// and where it may be only the face that makes up for it.
func (p FoundPlace) otherSheet() bool {
	got, agreed := p.Answers["sheet"], sheetAgreed(p.Plan)
	does := got.Text == "smart" && agreed == "polyethylene" && !p.Damper() && p.Measured.Facing == p.Plan.Choice.Facing.OnBlanket
	return agreed != "" && got.State == house.Given && got.Text != "none" && got.Text != agreed && !does
}

// sheetNearHeat reports whether a sheet was found beside a chimney. Paint on the
// room face of the drywall is none: the building department may want it.
func (p FoundPlace) sheetNearHeat() bool {
	return byChimney(p.Plan) && sheetNoted(p.Answers["sheet"])
}

// paintAsked reports whether retarder paint was found beside a chimney and nobody has
// noted that the building department allows it.
func (p FoundPlace) paintAsked() bool {
	return byChimney(p.Plan) && paintFound(p.Answers) && p.Answers[seePrefix+flueRetarder].Text != seenGood
}

// paintFound reports whether somebody noted retarder paint on the room side.
func paintFound(said house.Answers) bool {
	got := said["sheet"]
	return got.State == house.Given && got.Text == "paint"
}

// sheetNoted reports whether an answer names a sheet that is up.
func sheetNoted(got house.Answer) bool {
	return got.State == house.Given && got.Text != "none" && got.Text != "paint"
}

// paintFault reports whether somebody looked for the retarder paint that the plan
// counts on and did not find it.
func (p FoundPlace) paintFault() bool {
	return requires(p.Plan, retarderPaint) && p.bad(retarderPaint)
}

// PaintToCome reports whether the plan counts on retarder paint that nobody has seen.
func (p FoundPlace) PaintToCome() bool {
	return slices.ContainsFunc(p.Points, func(x PointResult) bool { return x.Point.ID == retarderPaint && x.State == NotSeen })
}

// trapped says that what was found closes the wood in between two tight layers,
// where the plan does not; empty else.
func (p FoundPlace) trapped() string {
	if p.Got == nil || !p.Got.Facing.TwoSheets || p.Plan.Choice.Facing.TwoSheets {
		return ""
	}
	return "; with the board outside the wood lies between two tight layers and cannot dry"
}
