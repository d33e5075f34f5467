package inspect

import (
	"slices"

	"battwright/rules/catalog"
)

// bays asks who does the foam in the bays of a rim joist.
func (p *OfferedPlace) bays(j Job) {
	for _, x := range p.Plan.Beside(j.System) {
		if x.Need != bayFoam && !p.has(x.Need) {
			p.find(Finding{ID: "beside", Level: Ask, Line: p.Parts[0].Line, Ref: practice, Text: x.Name + ": the plan needs it with the blanket, and it is not named in this bid", Ask: p.askBidder("Who brings and fits this: " + x.Name + "? It is not in this bid.")})
		}
	}
	by, line, _, _ := p.partOf(bayFoamBy, "")
	if by != "" || !requires(p.Plan, bayFoam) {
		return
	}
	p.find(Finding{ID: "bay-foam", Level: Ask, Line: line, Ref: practice, Text: "the foam in each bay, which goes in before the blanket, is not in this bid", Ask: p.askBidder("Who cuts foam board to each bay and seals its edges before the blanket goes in? It is not in this bid.")})
}

// has reports whether a line of the place names a need.
func (p *OfferedPlace) has(need string) bool {
	return slices.ContainsFunc(p.Parts, func(part Part) bool { return slices.Contains(part.Answers[alsoKey].List, need) })
}

// HasLayer reports whether a line names the layer under the joists.
func (p OfferedPlace) HasLayer() bool { return p.has(underJoists) }

// HasBayFoam reports whether somebody is named who cuts foam to each bay.
func (p *OfferedPlace) HasBayFoam() bool {
	by, _, _, _ := p.partOf(bayFoamBy, "")
	return by != ""
}

// called asks for what the cautions of the place call for with the blanket.
func (p *OfferedPlace) called(j Job) {
	for _, x := range p.Plan.Called(j.System) {
		if p.has(x.Need) || x.Need == "fire-mark-fiber" && p.burnsNot(j.Catalog()) {
			continue
		}
		p.find(Finding{ID: "called-" + x.Need, Level: Ask, Line: p.Parts[0].Line, Ref: practice, Text: x.Name + ": the plan needs it here, and it is not named in this bid", Ask: p.askBidder("Who sees to this: " + x.Name + "? It is not in this bid.")})
	}
}

// burnsNot reports whether every line of the place names a fiber that does not burn.
func (p *OfferedPlace) burnsNot(c *catalog.Catalog) bool {
	return !slices.ContainsFunc(p.Parts, func(part Part) bool {
		m, ok := c.Material(part.text("material"))
		return !ok || !m.Noncombust
	})
}
