package plan

import (
	"slices"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/units"
)

// Called is what the cautions of the place call for. Of a stopped place only what
// stops it is said.
func (p Place) Called(s units.System) []candidate.Beside {
	if p.Stopped() {
		return nil
	}
	return p.Calls.Called(s)
}

// Checks are those of Called that come before the work: one look in each place. Where
// no blanket is planned nobody cuts, and paint is not tested.
func (p Place) Checks(s units.System) []candidate.Beside {
	if p.Stopped() {
		return nil
	}
	return p.Calls.Checks(s, p.Choice != nil)
}

// BoardCautions are the cautions and the steps about the board beside the
// blankets, to buy or there already. Wherever that board is bought or asked for
// they are said with it.
func (p Place) BoardCautions() []string { return BoardTexts(slices.Concat(p.Safety, p.Install)) }

// BoardTexts are what some rules say of the board.
func BoardTexts(list []rules.Hit) []string {
	var out []string
	for _, h := range list {
		if h.Rule.Effect.Need == "board" {
			out = append(out, h.Text)
		}
	}
	return out
}
