package inspect

import (
	"fmt"
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
	for i := range products {
		x := &products[i]
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

// tooThick reports whether a blanket has less than its label because its room is
// thinner than it is.
func tooThick(l candidate.Layer) bool { return math.Round(l.R) < math.Round(l.Product.NominalR) }

// squeezedAsPlanned reports whether the plan squeezes its own layer there as
// much, and counts it so.
func squeezedAsPlanned(p plan.Place, i int, l candidate.Layer) bool {
	return planned(p) && i < len(p.Choice.Layers) && tooThick(p.Choice.Layers[i]) && p.Choice.Layers[i].R <= l.R+1e-9
}

// tooThickText says what a blanket thicker than its room is worth there.
func tooThickText(p plan.Place, l candidate.Layer, s units.System) string {
	if l.RoomIn <= 0 {
		return noRoomText(l, s)
	}
	text := fmt.Sprintf("%s thick in a room of %s: squeezed, it counts %s, not %s", s.Inches(l.Product.ThicknessIn), s.Inches(l.RoomIn), s.R(l.R), s.R(l.Product.NominalR))
	if byChimney(p) {
		text += ", and presses toward the gap that stays empty"
	}
	return text
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
