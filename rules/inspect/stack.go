package inspect

import (
	"math"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// atDepth is the R of a blanket that stands depthIn thick. Beyond what the
// curve of squeezing covers it falls straight to nothing, so that less depth
// is never more R.
func atDepth(labelR, labelIn, depthIn float64) float64 {
	if !(labelR > 0) || !(labelIn > 0) || !(depthIn > 0) {
		return 0
	}
	if depthIn >= labelIn {
		return labelR
	}
	least := labelIn / heat.MaxSqueeze
	if depthIn < least {
		return atDepth(labelR, labelIn, least) * depthIn / least
	}
	r, err := heat.CompressedR(labelR, labelIn, depthIn)
	if err != nil {
		// A label better than still air: no curve, so the plain share.
		return labelR * depthIn / labelIn
	}
	return r
}

// layersIn lays blankets into a place, bottom or inner one first: what has
// room keeps its label, what has not is squeezed. Over the joists of an attic
// there is open air: a first blanket thicker than they are stands above them
// and is squeezed by nothing.
func layersIn(c *catalog.Catalog, p plan.Place, products []catalog.Product) []candidate.Layer {
	left, open := p.Surface.Frame.RoomIn, p.Surface.Kind.StackOverFraming
	out := make([]candidate.Layer, len(products))
	for i, x := range products {
		l := candidate.Layer{Product: x, RoomIn: x.ThicknessIn}
		switch {
		case open && (i > 0 || overOld(p)):
			l.Across = p.Surface.Frame.Practice != "trusses"
		case open:
			if x.ThicknessIn > left*c.Settings.MaxSqueeze { // else it is pressed flush, as the plan has it
				l.ProudIn = x.ThicknessIn - left
				break
			}
			l.RoomIn = math.Min(x.ThicknessIn, left)
		default:
			l.RoomIn = math.Min(x.ThicknessIn, math.Max(0, left))
		}
		left -= l.RoomIn
		l.R = atDepth(x.NominalR, x.ThicknessIn, l.RoomIn)
		out[i] = l
	}
	return out
}

// overOld: in an attic with old blankets in the joists all new ones may lie on
// top of them.
func overOld(p plan.Place) bool {
	return p.Surface.OldIn > 0 && planned(p) && p.Choice.Layers[0].RoomIn > p.Surface.Frame.RoomIn
}

// underIn is how high above the ceiling the new blankets of a plan begin: what a
// ruler pushed down to the ceiling goes through first. A guess, from the R that
// was typed for the old ones.
func underIn(p plan.Place) float64 {
	if p.Surface.OldIn <= 0 {
		return 0
	}
	return candidate.StandsIn(p.Surface, p.Choice.Blankets)
}

// DepthText is how thick the blankets of a plan stand, and over old ones how
// deep a ruler goes to the ceiling as well.
func DepthText(p plan.Place, s units.System) string {
	text := s.Inches(heightOf(p.Choice.Layers))
	if under := underIn(p); under > 0 {
		text += " of new blanket, about " + s.Inches(under+heightOf(p.Choice.Layers)) + " to the ceiling"
	}
	return text
}

// around is the best and the poorest R the catalog knows for a fiber at a
// thickness, from the products at both sides of it.
func around(c *catalog.Catalog, material string, thicknessIn float64) (poorest, best float64, ok bool) {
	best, poorest = 0, math.Inf(1)
	for _, p := range c.ProductsOf(material) {
		r := p.NominalR * thicknessIn / p.ThicknessIn
		best, poorest = math.Max(best, r), math.Min(poorest, r)
	}
	return poorest, best, best > 0
}

// heightOf is how thick a stack stands.
func heightOf(layers []candidate.Layer) float64 {
	sum := 0.0
	for _, l := range layers {
		sum += l.RoomIn
	}
	return sum
}
