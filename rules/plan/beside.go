package plan

import (
	"slices"

	"battwright/rules/units"
)

// besideNeeds are what a rule may require that has to be bought for the whole
// area of a place beside its blankets.
var besideNeeds = []string{"layer-under-joists", "cover", "foam-in-bays", "hold-back"}

// Beside is a layer that must go in with the blankets of a place.
type Beside struct{ Need, Name string }

// Beside are the layers that the rules want with the blankets. No order, sheet
// or page may name the blankets and leave them out.
func (p Place) Beside(s units.System) []Beside {
	var out []Beside
	for _, h := range p.Require {
		if e := h.Rule.Effect; slices.Contains(besideNeeds, e.Need) {
			out = append(out, Beside{e.Need, units.Prose(e.NeedValue).In(s)})
		}
	}
	return out
}
