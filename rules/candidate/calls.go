package candidate

import (
	"slices"

	"battwright/rules"
	"battwright/rules/units"
)

// besideNeeds are what a rule may require that has to be bought for the whole
// area of a place beside its blankets.
var besideNeeds = []string{"layer-under-joists", "cover", "foam-in-bays", "hold-back"}

// Calls are the rules of a place, with its choice or without, that may call for
// more than blankets.
type Calls struct {
	Safety  []rules.Hit // cautions
	Require []rules.Hit
}

// CallsOf are those of a verdict.
func CallsOf(v rules.Verdict) Calls {
	out := Calls{Safety: v.Safety}
	for _, n := range v.Require {
		out.Require = append(out.Require, n.Hit)
	}
	return out
}

// Beside is a layer that must go in with the blankets of a place.
type Beside struct {
	Need, Name string
	Perhaps    bool // only if the place stays visible: nobody has said
}

// Needs are the rules that ask for something at the place: those that require
// it, and the cautions that name what they call for. One with facts Unknown asks
// for it only if nobody rules its danger out.
func (p Calls) Needs() []rules.Hit {
	out := slices.Clone(p.Require)
	for _, h := range p.Safety {
		if h.Rule.Effect.Need != "" {
			out = append(out, h)
		}
	}
	return out
}

// Beside are the layers that the rules want with the blankets. No order, sheet
// or page may name the blankets and leave them out.
func (p Calls) Beside(s units.System) []Beside {
	var out []Beside
	for _, h := range p.Needs() {
		if e := h.Rule.Effect; slices.Contains(besideNeeds, e.Need) {
			x := Beside{e.Need, units.Prose(e.NeedValue).In(s), len(h.Unknown) > 0}
			if x.Perhaps {
				x.Name += ", if it stays visible"
			}
			out = append(out, x)
		}
	}
	return out
}

// Called are what the cautions of the place call for beside its blankets, apart
// from Beside and from what begins every paper of the place. A bid that leaves
// one out does not have it settled.
func (p Calls) Called(s units.System) []Beside {
	var out []Beside
	for _, h := range p.Safety {
		e := h.Rule.Effect
		if e.NeedValue == "" || slices.Contains(besideNeeds, e.Need) || e.Stops || e.SettleFirst || h.AsksFirst() {
			continue
		}
		x := Beside{e.Need, units.Prose(e.NeedValue).In(s), len(h.Unknown) > 0}
		if x.Perhaps {
			x.Name += ", unless somebody rules it out"
		}
		if !slices.Contains(out, x) {
			out = append(out, x)
		}
	}
	return out
}

// checkNeeds are what somebody who knows must look at or see to before the work begins.
var checkNeeds = []string{"burner-air", "crawl-air", "lead-test"}

// Checks are those of Called that come before the work: one look in each place. Where
// nobody cuts, paint is not tested.
func (p Calls) Checks(s units.System, cuts bool) []Beside {
	return slices.DeleteFunc(p.Called(s), func(x Beside) bool {
		return !slices.Contains(checkNeeds, x.Need) || !cuts && x.Need == "lead-test"
	})
}
