package candidate

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Layer is one blanket as it lies.
type Layer struct {
	Product *catalog.Product
	RoomIn  float64 // thickness it ends up with
	R       float64 // after squeezing
	Across  bool    // over the framing, at right angles
	// OverChords: it lies between truss webs and closes over the chords, of whose
	// spacing BareShare stays bare.
	OverChords bool
	SpacingIn  float64 // of those chords
	BareShare  float64
	ProudIn    float64 // how far a blanket between joists stands above their tops; no plan has one
	Closes     bool    // such a blanket closes over the joist tops
}

// Pressed reports whether a blanket has less room than it is thick.
func (l Layer) Pressed() bool { return l.RoomIn < l.Product.ThicknessIn-1.0/16 } // what a tape tells

// WideIn is the width of a blanket that is bought: the bay's, the widest that is sold
// where it lies across the framing, and over chords the least that closes over them.
func (l Layer) WideIn(bayIn float64) float64 {
	if l.OverChords {
		best := slices.Max(l.Product.WidthsIn)
		for _, w := range l.Product.WidthsIn {
			if w >= l.SpacingIn {
				best = min(best, w)
			}
		}
		return best
	}
	if l.Across && len(l.Product.WidthsIn) > 0 {
		return slices.Max(l.Product.WidthsIn)
	}
	return bayIn
}

// Blankets is a stack of layers of one material that physically fits a place.
type Blankets struct {
	Material    *catalog.Material
	Layers      []Layer
	WidthIn     float64 // width of the blanket in the bay
	TrimIn      float64 // how much wider it is than the bay
	NominalR    float64 // R on the bags, added up for one place only
	CavityR     float64 // R after squeezing
	HeightIn    float64
	Squeeze     float64 // largest label thickness against the room it gets
	There       bool    // packages of one of its blankets are there already
	CostUSD     float64 // typical material price per ft2, for pruning only
	LoadLimited bool    // the ceiling carries no stack of this material that is enough
}

// Unfit says why a product is not proposed.
type Unfit struct {
	Product *catalog.Product
	Why     string
}

// keepPerMaterial bounds the stacks of one material that are looked at in
// full. Below it nothing is lost: stacks are ordered by what they need to be.
const keepPerMaterial = 4

// Fit gives, for each material of the catalog, the stacks of blankets that
// physically fit the place, and for every product that does not, why not.
func Fit(s Surface, c *catalog.Catalog) (fits []Blankets, unfit []Unfit) {
	for i := range c.Materials {
		m := &c.Materials[i]
		var stacks []Blankets
		var why []Unfit
		if s.Kind.StackOverFraming {
			stacks, why = atticStacks(s, c, m)
		} else {
			stacks, why = bayStacks(s, c, m)
		}
		fits, unfit = append(fits, stacks...), append(unfit, why...)
	}
	return fits, unfit
}

// lie puts a product into a room of the given depth. ok is false when it
// stands proud, would be crushed, or leaves a gap where none may be.
func lie(p *catalog.Product, roomIn float64, mustFill bool, c *catalog.Catalog, sys units.System) (Layer, string) {
	set := c.Settings
	switch {
	case roomIn <= 0:
		return Layer{}, "no room is left"
	case p.ThicknessIn > roomIn*set.MaxSqueeze+1e-9:
		return Layer{}, fmt.Sprintf("%s thick, the room is %s: squeezed too hard", sys.Inches(p.ThicknessIn), sys.Inches(roomIn))
	case mustFill && p.ThicknessIn < roomIn-set.GapOKIn-1e-9:
		return Layer{}, fmt.Sprintf("%s thick, the room is %s: it would leave an air gap", sys.Inches(p.ThicknessIn), sys.Inches(roomIn))
	}
	r, at, err := squeezedR(p.NominalR, p.ThicknessIn, roomIn)
	if err != nil {
		return Layer{}, "squeezed too hard"
	}
	return Layer{Product: p, RoomIn: at, R: r}, ""
}

// between parts products into those that fill a space in one piece and those
// sold in no such width. Two side by side would leave a seam along every space,
// and the order does not count them: what cannot be counted is not proposed.
func between(products []*catalog.Product, s Surface) (fill []*catalog.Product, unfit []Unfit) {
	for _, p := range products {
		if widest := slices.Max(p.WidthsIn); widest < s.Frame.ClearIn {
			unfit = append(unfit, Unfit{p, fmt.Sprintf("sold up to %s wide, the space is %s: it would not fill it in one piece", s.System.Inches(widest), s.System.Inches(s.Frame.ClearIn))})
			continue
		}
		fill = append(fill, p)
	}
	return fill, unfit
}

// bayStacks are one blanket in a bay or, where no single one fills it, two.
func bayStacks(s Surface, c *catalog.Catalog, m *catalog.Material) ([]Blankets, []Unfit) {
	var out []Blankets
	products, unfit := between(c.ProductsOf(m.ID), s)
	for _, p := range products {
		l, why := lie(p, s.Frame.RoomIn, s.Frame.MustFill, c, s.System)
		if why != "" {
			unfit = append(unfit, Unfit{p, why})
			continue
		}
		out = append(out, stack(m, []Layer{l}, s, c))
	}
	if len(out) == 0 || !s.Frame.MustFill {
		out = append(out, pairs(s, c, m, products)...)
	}
	return out, unfit
}

// pairs are two blankets that together fill the room uncrushed.
func pairs(s Surface, c *catalog.Catalog, m *catalog.Material, products []*catalog.Product) []Blankets {
	var out []Blankets
	for i, p := range products {
		for _, q := range products[i:] {
			both := p.ThicknessIn + q.ThicknessIn
			if both > s.Frame.RoomIn+1e-9 || s.Frame.MustFill && both < s.Frame.RoomIn-c.Settings.GapOKIn-1e-9 {
				continue
			}
			a := Layer{Product: p, RoomIn: p.ThicknessIn, R: p.NominalR}
			b := Layer{Product: q, RoomIn: q.ThicknessIn, R: q.NominalR}
			out = append(out, stack(m, []Layer{a, b}, s, c))
		}
	}
	return out
}

// atticStacks are a bottom that fills to the joist top, alone or with up to
// two layers above: across the joists, or in strips between truss webs.
func atticStacks(s Surface, c *catalog.Catalog, m *catalog.Material) ([]Blankets, []Unfit) {
	products, unfit := between(c.ProductsOf(m.ID), s)
	var bottoms [][]Layer
	for _, p := range products {
		l, why := lie(p, s.Frame.RoomIn, true, c, s.System)
		if why != "" {
			unfit = append(unfit, Unfit{p, why + ", so not as the bottom layer"})
			continue
		}
		bottoms = append(bottoms, []Layer{l})
	}
	if len(bottoms) == 0 {
		room := s
		room.Frame.MustFill = true
		for _, b := range pairs(room, c, m, products) {
			bottoms = append(bottoms, b.Layers)
		}
	}
	if len(bottoms) == 0 && s.OldIn > 0 {
		bottoms = [][]Layer{nil} // the old blanket is the bottom, all new ones lie over it
	}
	across := s.Frame.Practice != "trusses"
	if across {
		products = c.ProductsOf(m.ID) // no framing bounds what lies over it
	}
	overChords := !across && s.OldIn < s.Frame.DepthIn // an old blanket covers them
	if overChords {
		products = closing(s, c, products)
	}
	top := func(p *catalog.Product) Layer {
		l := Layer{Product: p, RoomIn: p.ThicknessIn, R: p.NominalR, Across: across, OverChords: overChords}
		if overChords {
			l.SpacingIn = s.Frame.SpacingIn
			l.BareShare = max(0, s.Frame.SpacingIn-slices.Max(p.WidthsIn)) / s.Frame.SpacingIn
		}
		return l
	}
	var out []Blankets
	for _, b := range bottoms {
		if len(b) > 0 {
			out = append(out, stack(m, b, s, c))
		}
		for i, p := range products {
			out = append(out, stack(m, slices.Concat(b, []Layer{top(p)}), s, c))
			for _, q := range products[i:] {
				out = append(out, stack(m, slices.Concat(b, []Layer{top(p), top(q)}), s, c))
			}
		}
	}
	return out, unfit
}

// closing are the blankets that, laid between truss webs, meet over the chords; all
// of them where none is wide enough.
func closing(s Surface, c *catalog.Catalog, products []*catalog.Product) []*catalog.Product {
	var out []*catalog.Product
	for _, p := range products {
		if slices.Max(p.WidthsIn) >= s.Frame.SpacingIn-c.Figure("chord-meet").Value {
			out = append(out, p)
		}
	}
	if len(out) == 0 {
		return products
	}
	return out
}

func stack(m *catalog.Material, layers []Layer, s Surface, c *catalog.Catalog) Blankets {
	b := Blankets{Material: m, Layers: layers, Squeeze: 1}
	for i, l := range layers {
		faces := []string{"none"} // but the inner one lies bare
		if i == 0 && len(l.Product.Facings) > 0 {
			faces = l.Product.Facings
		}
		b.There = b.There || s.there(l.Product)
		b.NominalR += l.Product.NominalR
		b.CavityR += l.R
		b.HeightIn += l.RoomIn
		b.Squeeze = math.Max(b.Squeeze, l.Product.ThicknessIn/l.RoomIn)
		b.CostUSD += s.typicalUSD(l.Product, faces, c)
	}
	b.WidthIn, b.TrimIn = widthFor(layers[0].Product, s.Frame.ClearIn)
	return b
}

// widthFor picks the narrowest width that covers the bay, which every product
// between the framing has; what lies over the framing is not trimmed.
func widthFor(p *catalog.Product, clearIn float64) (widthIn, trimIn float64) {
	best := math.Inf(1)
	for _, w := range p.WidthsIn {
		if w >= clearIn {
			best = min(best, w)
		}
	}
	if math.IsInf(best, 1) {
		return slices.Max(p.WidthsIn), 0
	}
	return best, best - clearIn
}

// counted is the R of a stack that a code official counts against the target:
// the label, or less where it is squeezed. Rounded as labels are.
func (b Blankets) counted() float64 { return math.Round(b.CavityR) }

// choose keeps the few stacks of each material worth looking at in full: the
// cheapest that meets the target, the next better ones, and when none meets
// it, those that come nearest.
func choose(stacks []Blankets, meets func(Blankets) bool) []Blankets {
	byMaterial := map[string][]*Blankets{} // pointers: a stack is large
	var order []string
	for i := range stacks {
		b := &stacks[i]
		if byMaterial[b.Material.ID] == nil {
			order = append(order, b.Material.ID)
		}
		byMaterial[b.Material.ID] = append(byMaterial[b.Material.ID], b)
	}
	var out []Blankets
	for _, id := range order {
		kept := chooseOf(byMaterial[id], meets)
		// What is there already costs nothing more, whatever was typed for it.
		i := slices.IndexFunc(byMaterial[id], func(b *Blankets) bool { return b.There && meets(*b) })
		if i >= 0 && !slices.Contains(kept, byMaterial[id][i]) {
			kept = append(kept, byMaterial[id][i])
		}
		for _, b := range kept {
			out = append(out, *b)
		}
	}
	return out
}

func chooseOf(stacks []*Blankets, isEnough func(Blankets) bool) []*Blankets {
	// Cheapest first; of equal price the fewest layers, then the least height.
	slices.SortStableFunc(stacks, func(a, b *Blankets) int {
		return cmp.Or(cmp.Compare(a.CostUSD, b.CostUSD), cmp.Compare(len(a.Layers), len(b.Layers)), cmp.Compare(a.HeightIn, b.HeightIn))
	})
	var meets, short []*Blankets
	bestEnough, bestShort := 0.0, 0.0
	for _, b := range stacks { // dearer and no better than one of its own sort: dominated
		switch ok := isEnough(*b); {
		case ok && b.CavityR > bestEnough:
			bestEnough = b.CavityR
			meets = append(meets, b)
		case !ok && len(meets) == 0 && b.CavityR > bestShort:
			bestShort = b.CavityR
			short = append(short, b)
		}
	}
	if len(meets) > keepPerMaterial {
		meets = meets[:keepPerMaterial]
	}
	if len(meets) > 0 {
		// The best of those that fall short stays in view, for a budget that
		// does not reach and for a target the builder waives.
		if n := len(short); n > 0 {
			meets = append(meets, short[n-1])
		}
		return meets
	}
	if n := len(short); n > keepPerMaterial {
		short = short[n-keepPerMaterial:]
	}
	return short
}

// mostCavityR is the most R on the bag that any of the stacks has.
func mostCavityR(stacks []Blankets) float64 {
	most := 0.0
	for _, b := range stacks {
		most = math.Max(most, b.counted())
	}
	return most
}
