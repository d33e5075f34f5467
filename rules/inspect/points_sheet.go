package inspect

import "battwright/rules/house"

// otherSheet reports whether another sheet is up than the one that was agreed. A
// smart sheet does what a plastic one does, but where the damp check finds it worse,
// and where it may be only the face that makes up for it.
func (p FoundPlace) otherSheet() bool {
	got, agreed := p.Answers["sheet"], sheetAgreed(p.Plan)
	does := got.Text == "smart" && agreed == "polyethylene" && !p.Damper() && p.Measured.Facing == p.Plan.Choice.Facing.OnBlanket
	return agreed != "" && got.State == house.Given && got.Text != "none" && got.Text != agreed && !does
}

// sheetNearHeat reports whether a sheet or paint was found beside a chimney.
func (p FoundPlace) sheetNearHeat() bool {
	got := p.Answers["sheet"]
	return byChimney(p.Plan) && got.State == house.Given && got.Text != "none"
}

// trapped says that what was found closes the wood in between two tight layers,
// where the plan does not; empty else.
func (p FoundPlace) trapped() string {
	if p.Got == nil || !p.Got.Facing.TwoSheets || p.Plan.Choice.Facing.TwoSheets {
		return ""
	}
	return "; with the board outside the wood lies between two tight layers and cannot dry"
}
