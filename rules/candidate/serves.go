package candidate

import (
	"fmt"

	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Ceilings are the areas to insulate under the roof of the whole house, ft2.
type Ceilings struct {
	AllFt2, SlopesFt2 float64 // attic floors and slopes together; the slopes alone
	Known             bool    // every area is the builder's own, none a guess
}

func ceilingsOf(a house.Answered) Ceilings {
	out := Ceilings{Known: true}
	for i := range a.House.Places {
		p := &a.House.Places[i]
		kind := a.KindOf(p)
		if kind.Airway == "" {
			continue
		}
		area := a.NetAreaFt2(p)
		out.AllFt2 += area
		out.Known = out.Known && a.AreaGiven(p)
		if kind.SlopeHoldsLess() {
			out.SlopesFt2 += area
		}
	}
	return out
}

// slopedException: a slope whose rafters cannot hold the R of the table may
// have a lower one on a small part of the ceiling. Nothing guessed counts.
func slopedException(t *Target, s Surface, c *catalog.Catalog, maxCavityR float64) {
	rule := c.Codes.Sloped
	if !s.Kind.SlopeHoldsLess() || t.By != "code" || t.CavityR <= rule.R || maxCavityR >= t.CavityR {
		return
	}
	most := min(rule.MostFt2, rule.Share*s.Ceilings.AllFt2)
	t.From = append(t.From, rule.Ref)
	note := func(text string) { t.Notes = append(t.Notes, text) }
	if maxCavityR < rule.R {
		defer note(fmt.Sprintf("no blanket in our tables counts %s in this frame as it lies; the most is %s", s.System.R(rule.R), s.System.R(maxCavityR)))
	}
	switch {
	case !s.Ceilings.Known:
		note(fmt.Sprintf("on a small part of the ceiling a blanket that counts %s as it lies serves: type the area of every ceiling and slope, and the plan says on how much", s.System.R(rule.R)))
	case s.Ceilings.SlopesFt2 > most:
		note(fmt.Sprintf("a blanket that counts %s as it lies serves on %s of slope at most (a fifth of %s of ceiling, never more than %s; as recalled, ask the building office); the slopes have %s, so %s need more than that",
			s.System.R(rule.R), s.System.AreaMost(most), s.System.Area(s.Ceilings.AllFt2), s.System.AreaMost(rule.MostFt2), s.System.Area(s.Ceilings.SlopesFt2), s.System.Area(s.Ceilings.SlopesFt2-most)))
	default:
		t.SlopedR = rule.R
	}
}

// filledException: where the joist space is filled the code accepts less R.
func filledException(t *Target, s Surface, c *catalog.Catalog) {
	if t.By != "code" {
		return
	}
	if r, ref, ok := c.Codes.FilledBay(s.Kind.CodeElement, t.CavityR); ok {
		t.FilledR, t.FilledIn = r, s.Frame.RoomIn-c.Settings.GapOKIn
		t.From = append(t.From, ref)
	}
}

// servesR is the R that serves with a stack as it lies, the table's or the lower
// one of an exception that its heel, its depth or its slope allows, and what of
// the stack counts toward it. That of full height may not be rounded up: it is
// asked of blankets that are not squeezed.
func servesR(s Surface, t Target, b Blankets) (serves, counts float64) {
	switch {
	case mayRunFull(t, b) && lowerHeel(s, t, b) <= s.HeelIn:
		return t.FullHeightR, b.CavityR
	case t.FilledR > 0 && b.HeightIn >= t.FilledIn:
		return t.FilledR, b.counted()
	case t.SlopedR > 0:
		return t.SlopedR, b.counted()
	}
	return t.CavityR, b.counted()
}

// shortBy is what a stack lacks of the R that serves, 0 when nothing.
func shortBy(s Surface, t Target, b Blankets) float64 {
	const slack = 1e-9
	if serves, counts := servesR(s, t, b); counts < serves-slack {
		return serves - counts
	}
	return 0
}

// fullHeel is the heel in inches at which a stack runs uncrushed over the top
// of the outside wall, with the airway above it.
func fullHeel(s Surface, b Blankets) float64 { return StandsIn(s, b) + b.HeightIn + s.AirwayIn }

// lowerHeel is the heel at which a stack would run full height that is as thick as
// the lower R of full height takes: one that is thinner does not show that it fits.
func lowerHeel(s Surface, t Target, b Blankets) float64 {
	height := b.HeightIn
	if b.CavityR > 0 && b.CavityR < t.FullHeightR {
		height *= t.FullHeightR / b.CavityR
	}
	return StandsIn(s, b) + height + s.AirwayIn
}

// mayRunFull reports whether the code has a lower R for a stack that runs at full
// height over the walls.
func mayRunFull(t Target, b Blankets) bool {
	const mostLayers = 2 // nobody builds an attic of three thin dense batts to save an inch of heel
	return t.By == "code" && t.FullHeightR > 0 && len(b.Layers) <= mostLayers
}

func hasFullR(t Target, b Blankets) bool {
	const slack = 1e-9
	return mayRunFull(t, b) && b.CavityR >= t.FullHeightR-slack
}

// enough reports whether a stack does the blanket's part of the target, by its
// R or by an exception of the code.
func enough(s Surface, t Target, b Blankets) bool { return shortBy(s, t, b) == 0 }

// enoughR is the R beyond which more is not asked: that of the exception where
// one of the stacks serves by it.
func enoughR(s Surface, t Target, stacks []Blankets) float64 {
	if t.SlopedR > 0 {
		return t.SlopedR
	}
	for _, b := range stacks {
		if hasFullR(t, b) && fullHeel(s, b) <= s.HeelIn {
			return t.FullHeightR
		}
	}
	return t.CavityR
}

// serve notes what a stack lacks, of which R, and by which exception one that is
// short of the table serves.
func (h *Heat) serve(s Surface, b Blankets, t Target) {
	h.ServesR, _ = servesR(s, t, b)
	h.ShortByR = shortBy(s, t, b)
	h.MeetsTarget = h.ShortByR == 0
	if !h.MeetsTarget || h.CountedR >= t.CavityR {
		return
	}
	switch h.ServesR {
	case t.FullHeightR:
		h.FullHeightR = t.FullHeightR
	case t.FilledR:
		h.FilledR = t.FilledR
	default:
		h.SlopedR = t.SlopedR
	}
	h.From = uniqueRefs(append(h.From, t.From...))
}

// ShortOf says what a stack lacks, of which R.
func (h Heat) ShortOf(t Target, s units.System) string {
	if h.ServesR < t.CavityR {
		return fmt.Sprintf("%s of the %s that serves here for %s", s.R(h.ShortByR), s.R(h.ServesR), t.Text)
	}
	return fmt.Sprintf("%s of %s", s.R(h.ShortByR), t.Text)
}

// lowestHeel is the heel the code's lower R would need here with one material,
// and the stack that needs it; 0 when none has that R.
func lowestHeel(s Surface, t Target, stacks []Blankets, material string) (in float64, layers []Layer) {
	for _, b := range stacks {
		if b.Material.ID != material || !hasFullR(t, b) {
			continue
		}
		if heel := fullHeel(s, b); in == 0 || heel < in {
			in, layers = heel, b.Layers
		}
	}
	return in, layers
}

// ceilingLoad is what a stack and the old blanket under it weigh on the ceiling,
// lb/ft2, each layer by its own fiber. Squeezing does not make a blanket lighter:
// the label thickness counts. What the old one is made of nobody has said: it
// counts as light, and a caution says so.
func ceilingLoad(s Surface, c *catalog.Catalog, b Blankets) float64 {
	sum, _ := heat.CeilingLoad(s.OldIn, c.Settings.OldKgM3) // no thickness, no weight
	for _, l := range b.Layers {
		m := b.Material
		if own, ok := c.Material(l.Product.Material); ok {
			m = &own
		}
		if lb, err := heat.CeilingLoad(l.Product.ThicknessIn, m.DensityKgM3); err == nil {
			sum += lb
		}
	}
	return sum
}

// ceilingLimit is what the ceiling carries without sagging, lb/ft2, by the rule
// of thumb for the drywall that was typed.
func ceilingLimit(s Surface, c *catalog.Catalog) float64 {
	if s.Drywall == "half" && s.Frame.SpacingIn > 16 {
		return c.Settings.CeilingLbThin
	}
	return c.Settings.CeilingLbStrong
}

// overIt names the layers over the first and what lies there already, whose weight
// is in the sum.
func overIt(b Blankets, s Surface) string {
	text := ""
	if s.OldIn > 0 {
		text = "on the old blanket "
	}
	for _, l := range b.Layers[1:] {
		text += "with " + s.System.R(l.Product.NominalR) + " over it "
	}
	return text
}

// carried leaves out the stacks that are too heavy for the ceiling, and says so
// of a material that has none left. A material that only a heavier stack would
// bring to the target is marked.
func carried(s Surface, t Target, c *catalog.Catalog, stacks []Blankets) (out []Blankets, unfit []Unfit) {
	if !s.Kind.StackOverFraming {
		return stacks, nil
	}
	limit := ceilingLimit(s, c)
	light, heavy := map[string]bool{}, map[string]bool{} // whether one of them is enough, by material
	least := map[string]Blankets{}
	for _, b := range stacks {
		id := b.Material.ID
		if ceilingLoad(s, c, b) <= limit {
			light[id] = light[id] || enough(s, t, b)
			out = append(out, b)
			continue
		}
		heavy[id] = heavy[id] || enough(s, t, b)
		if now, ok := least[id]; !ok || ceilingLoad(s, c, b) < ceilingLoad(s, c, now) {
			least[id] = b
		}
	}
	for i := range out {
		id := out[i].Material.ID
		out[i].LoadLimited = heavy[id] && !light[id]
	}
	for _, m := range c.Materials {
		if b, ok := least[m.ID]; ok {
			if _, any := light[m.ID]; !any {
				unfit = append(unfit, Unfit{b.Layers[0].Product, fmt.Sprintf("%s%s, too heavy: by the rule of thumb this ceiling carries %s", overIt(b, s), s.System.Load(ceilingLoad(s, c, b)), s.System.Load(limit))})
			}
		}
	}
	return out, unfit
}
