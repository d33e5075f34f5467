package inspect

import (
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// otherSheet reports whether another sheet is up than the one that was agreed. A
// smart sheet does what a plastic one does.
func (p FoundPlace) otherSheet() bool {
	got, agreed := p.Answers["sheet"], sheetAgreed(p.Plan)
	return agreed != "" && got.State == house.Given && got.Text != "none" && got.Text != agreed && !(got.Text == "smart" && agreed == "polyethylene")
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

// extraSheet names a sheet on the room side that was not agreed; with a face on
// the blanket it is the second of two retarders.
func (p FoundPlace) extraSheet(c *catalog.Catalog) string {
	got := p.Answers["sheet"]
	if got.State != house.Given || got.Text == "none" || got.Text == "paint" || got.Text == p.Plan.Choice.Facing.Sheet {
		return ""
	}
	sheet, _ := c.Facing(got.Text)
	face, _ := c.Facing(p.Measured.Facing)
	switch {
	case p.Measured.Facing != "none" && p.Plan.Choice.Facing.Retarder() == "none":
		return face.Name + " and " + sheet.Name + ", none agreed: both come out"
	case p.Measured.Facing != "none":
		return "two retarders, " + face.Name + " and " + sheet.Name + ": one of them comes out"
	case sheetAgreed(p.Plan) == "":
		return sheet.Name + ", no sheet agreed"
	}
	return ""
}
