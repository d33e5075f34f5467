package inspect

import (
	"fmt"
	"math"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
)

// How near the sums of two layers come to the figures of one line: what labels
// round.
const (
	sameR  = 0.5
	sameIn = 0.25
)

// apart takes one line of an attic apart where it means two layers: bids add
// them up, and no single blanket of the fiber is so thick. The layers of the
// plan are tried first, then pairs of the catalog.
func (p *OfferedPlace) apart(j Job, products []catalog.Product) []catalog.Product {
	if len(products) != 1 || !p.Plan.Surface.Kind.StackOverFraming {
		return products
	}
	line, known := products[0], j.Catalog().ProductsOf(products[0].Material)
	for _, x := range known {
		if sums(line, *x) {
			return products
		}
	}
	two, ok := p.planLayers(line)
	if !ok {
		two, ok = pairOf(line, known, p.Plan.Surface.Frame.RoomIn*j.Catalog().Settings.MaxSqueeze)
	}
	if !ok {
		return products
	}
	layers := make([]candidate.Layer, len(two))
	for i := range two {
		was := two[i]
		layers[i].Product = &was
		two[i].ID, two[i].Facings, two[i].Ref = line.ID, nil, line.Ref
	}
	two[0].Facings = line.Facings
	s := j.System
	p.find(Finding{
		ID: "one-line", Level: Note, Line: p.Parts[0].Line,
		Text: fmt.Sprintf("%s in %s in one line: no single blanket of that fiber in our tables is that; read as layers of %s", s.R(line.NominalR), s.Inches(line.ThicknessIn), layersText(layers, s)),
		Ask:  fmt.Sprintf("%s: Is that %s in layers, the upper one over the joists, or one blanket?", p.Plan.Surface.Label, layersText(layers, s)),
	})
	return two
}

// planLayers are the layers of the plan where they make up the line.
func (p *OfferedPlace) planLayers(line catalog.Product) ([]catalog.Product, bool) {
	if !planned(p.Plan) || p.Plan.Choice.MaterialID != line.Material || len(p.Plan.Choice.Layers) < 2 {
		return nil, false
	}
	var out []catalog.Product
	for _, l := range p.Plan.Choice.Layers {
		out = append(out, *l.Product)
	}
	return out, sums(line, out...)
}

// pairOf finds two blankets that make up the line, the lower one within the
// thickness that lies between the joists.
func pairOf(line catalog.Product, known []*catalog.Product, mostIn float64) ([]catalog.Product, bool) {
	for _, a := range known {
		for _, b := range known {
			if a.ThicknessIn <= mostIn && sums(line, *a, *b) {
				return []catalog.Product{*a, *b}, true
			}
		}
	}
	return nil, false
}

// sums reports whether blankets together are the R and the thickness of a line.
func sums(line catalog.Product, parts ...catalog.Product) bool {
	r, in := 0.0, 0.0
	for _, x := range parts {
		r, in = r+x.NominalR, in+x.ThicknessIn
	}
	return math.Abs(r-line.NominalR) <= sameR && math.Abs(in-line.ThicknessIn) <= sameIn
}
