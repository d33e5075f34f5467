package plan

import (
	"sort"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Need is one product of the whole house: the same blanket bought together
// for every place that takes it.
type Need struct {
	Product catalog.Product
	Facing  string
	AreaFt2 float64
	Ft3     float64 // room it takes when laid, before it is packed
	Places  []string
	Price   units.Range[units.Cents]
}

// Needs adds up the blankets of the choices over the house, by product and
// facing, in catalog order.
func (p Plan) Needs(c *catalog.Catalog) []Need {
	at := map[string]int{}
	var out []Need
	for _, place := range p.Places {
		if place.Choice == nil {
			continue
		}
		for i, l := range place.Choice.Layers {
			facing := "none"
			if i == 0 {
				facing = place.Choice.Facing.OnBlanket
			}
			key := l.Product.ID + "/" + facing
			n, ok := at[key]
			if !ok {
				n = len(out)
				at[key] = n
				out = append(out, Need{Product: l.Product, Facing: facing})
			}
			area := place.Surface.AreaFt2
			out[n].AreaFt2 += area
			out[n].Ft3 += area * l.Product.ThicknessIn / units.InchPerFoot
			out[n].Places = append(out[n].Places, place.Surface.Label)
			out[n].Price = out[n].Price.Plus(units.CentsOver(c.UnitPrice(l.Product.ID), area))
		}
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Product.Material != out[j].Product.Material {
			return out[i].Product.Material < out[j].Product.Material
		}
		return out[i].Product.NominalR < out[j].Product.NominalR
	})
	return out
}

// Boards lists the places whose target needs a board that no blanket replaces.
func (p Plan) Boards() []Place {
	var out []Place
	for _, place := range p.Places {
		if place.Choice != nil && place.Target.AddR > 0 {
			out = append(out, place)
		}
	}
	return out
}
