package candidate

import (
	"math"

	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/units"
)

// Heat is what a stack of blankets does in its place. R in h.ft2.F/Btu.
type Heat struct {
	CountedR     float64 // what a code official counts: the bag, or less where squeezed
	DeliveredR   float64 // in the cavity with the workmanship assumed
	AssemblyR    float64 // the whole surface with its wood, ISO 6946 mean for the wood, voids beside it
	AssemblyLow  float64 // heat spreads sideways freely, loft at its low end
	AssemblyHigh float64 // no sideways flow: the usual US figure
	U            float64 // of AssemblyR
	MeetsTarget  bool    // the blanket's part of the target
	ServesR      float64 // of the blanket that serves here: the target's, or the lower one of an exception
	ShortByR     float64 // of ServesR
	AddOutsideR  float64 // board still to be added, see Target
	VoidShare    float64
	CeilingLbFt2 float64
	CeilingLimit float64
	EaveShortIn  float64 // how much higher than the heel allows, with the airway kept
	EaveR        float64 // of the thin strip at the eave, 0 when it need not be thin
	AtStake      float64 // heat through the place without a blanket, Btu/(h.F): what a blanket is there for
	FullHeelIn   float64 // least heel at which this fiber would run full height over the walls with the lower R the code accepts, 0 when none
	FullLayers   []Layer // of the stack that needs that heel
	FullHeightR  float64 // lower R that serves because the blanket runs full height over the wall, 0 when not
	FilledR      float64 // lower R that serves because the blanket fills its bay, 0 when not
	SlopedR      float64 // lower R that serves because the slope is a small part of the ceiling, 0 when not
	LossMMBtu    units.Range[float64]
	LossUSD      units.Range[float64] // a year, at the builder's fuel
	SummerMost   bool                 // in a warm zone, cooled: what comes in through the summer is the bigger half and not counted
	From         []catalog.Ref
}

// plain reports whether no exception of the code has a say in it.
func (h Heat) plain() bool { return h.FullHeightR == 0 && h.FilledR == 0 && h.SlopedR == 0 }

// squeezedR is the R of a blanket in a room, and the thickness it has there.
func squeezedR(nominalR, labelIn, roomIn float64) (r, thicknessIn float64, err error) {
	if roomIn >= labelIn {
		return nominalR, labelIn, nil
	}
	r, err = heat.CompressedR(nominalR, labelIn, roomIn)
	return r, roomIn, err
}

// voidShares are the shares of each layer taken as left empty: Grade II work
// unless an inspector looks; in an attic with layers across, only the bottom
// one has gaps that count, because the one above covers them.
func voidShares(s Surface, c *catalog.Catalog, b Blankets) []float64 {
	share := c.Settings.VoidSelf
	if s.Labour == "installer-checked" {
		share = c.Settings.VoidChecked
	}
	if s.FoundVoid != nil && !crossed(b) {
		share = *s.FoundVoid
	}
	if s.FoundVoid != nil && !crossed(b) && len(b.Layers) > 1 {
		share = 0 // what was found goes right through all layers: gapR counts it
	}
	out := make([]float64, len(b.Layers))
	for i, l := range b.Layers {
		if !l.Across {
			out[i] = share
		}
		if s.FoundVoid == nil {
			out[i] += l.BareShare
		}
	}
	return out
}

// woodDepthIn: wood that stands above the blanket counts only as deep as the
// blanket (read, annex on joists standing above the insulation).
func woodDepthIn(s Surface, heightIn float64) float64 {
	return math.Min(s.Frame.DepthIn, heightIn)
}

// series lists the layers of the place from inside to outside, each once as
// the heat calculation wants it. lowLoft takes loft at its low end.
func series(s Surface, c *catalog.Catalog, b Blankets, addR float64, lowLoft bool) []heat.Voided {
	plain := func(r float64) heat.Voided { return heat.Whole(heat.Plain(r)) }
	out := []heat.Voided{plain(s.Kind.InsideFilmR)}
	for _, l := range s.Kind.Layers {
		switch l.Role {
		case catalog.RoleBlanket:
			out = append(out, oldBlanket(s, c)...)
			out = append(out, blanketLayers(s, c, b, lowLoft)...)
		case catalog.RoleSheathing:
			out = append(out, plain(s.Sheathing.R))
		case catalog.RoleBoard:
			out = append(out, plain(s.CIR+addR))
		case catalog.RoleCladding:
			out = append(out, plain(s.Cladding.R))
		default:
			out = append(out, plain(l.R))
		}
	}
	return append(out, plain(s.Kind.OutsideFilmR))
}

// oldBlanket is what lies between the joists of an attic already.
func oldBlanket(s Surface, c *catalog.Catalog) []heat.Voided {
	if s.OldIn <= 0 {
		return nil
	}
	old := heat.Cavity{FillR: s.ExistingR, EmptyR: c.Settings.EmptyCavityR}
	over := max(0, s.OldIn-s.Frame.DepthIn) // of it, over the wood
	old.WoodR, old.WoodShare = (s.OldIn-over)*c.Lumber.RPerIn+over*s.ExistingR/s.OldIn, s.Frame.WoodShare
	return []heat.Voided{old.Voided()}
}

// StandsIn is how high above the ceiling the new blankets begin.
func StandsIn(s Surface, b Blankets) float64 {
	if s.OldIn > 0 && b.Layers[0].Across {
		return math.Max(s.OldIn, s.Frame.DepthIn)
	}
	return s.OldIn
}

func blanketLayers(s Surface, c *catalog.Catalog, b Blankets, lowLoft bool) []heat.Voided {
	loft := 1.0
	if lowLoft {
		loft = b.Material.LoftShare
	}
	voids := voidShares(s, c, b)
	if !s.Kind.StackOverFraming {
		fill := b.CavityR * loft
		return []heat.Voided{heat.Cavity{
			FillR: fill, WoodR: woodDepthIn(s, b.HeightIn) * c.Lumber.RPerIn,
			WoodShare: s.Frame.WoodShare, EmptyR: c.Settings.EmptyCavityR, VoidShare: voids[0],
		}.Voided()}
	}
	var out []heat.Voided
	inJoists := s.Frame.RoomIn + c.Settings.GapOKIn
	height := 0.0
	for i, l := range b.Layers {
		height += l.RoomIn
		wood, woodR := 0.0, 0.0
		switch {
		case height <= inJoists:
			wood, woodR = s.Frame.WoodShare, l.RoomIn*c.Lumber.RPerIn
		case l.ProudIn > 0:
			wood, woodR = s.Frame.WoodShare, proudR(c, l, l.R*loft)
		}
		out = append(out, heat.Cavity{FillR: l.R * loft, WoodR: woodR, WoodShare: wood, EmptyR: c.Settings.EmptyCavityR, VoidShare: voids[i]}.Voided())
	}
	return out
}

// proudR is the R over the joists of a blanket that stands above their tops:
// the wood, and over it the part of the blanket above, where neighbors meet
// there.
func proudR(c *catalog.Catalog, l Layer, fillR float64) float64 {
	return (l.RoomIn-l.ProudIn)*c.Lumber.RPerIn + fillR*l.ProudIn/l.RoomIn
}

// bareTops takes off what is lost where such blankets do not meet over the
// joists: by parallel paths, the strips of wood with no more than an empty
// space above them in place of the blanket.
func bareTops(s Surface, c *catalog.Catalog, b Blankets, otherR float64, x heat.Bounds) heat.Bounds {
	for i, l := range b.Layers {
		if l.ProudIn <= 0 || l.Closes {
			continue
		}
		rest := otherR
		for k, m := range b.Layers {
			if k != i {
				rest += m.R
			}
		}
		closed := proudR(c, l, l.R)
		bare := closed - math.Max(0, l.R*l.ProudIn/l.RoomIn-c.Settings.EmptyCavityR)
		more := s.Frame.WoodShare * (1/(rest+bare) - 1/(rest+closed))
		less := func(r float64) float64 { return 1 / (1/r + more) }
		x = heat.Bounds{Isothermal: less(x.Isothermal), Mean: less(x.Mean), Parallel: less(x.Parallel)}
	}
	return x
}

// deliveredR is the R of the blankets alone with their voids: each layer's
// void still has the other layers behind it.
func deliveredR(s Surface, c *catalog.Catalog, b Blankets, otherR float64) float64 {
	voids := voidShares(s, c, b)
	if !s.Kind.StackOverFraming {
		r, err := heat.WithVoids(b.CavityR, otherR, c.Settings.EmptyCavityR, voids[0])
		if err != nil {
			return b.CavityR
		}
		return r
	}
	sum := 0.0
	for i, l := range b.Layers {
		r, err := heat.WithVoids(l.R, otherR+b.CavityR-l.R, c.Settings.EmptyCavityR, voids[i])
		if err != nil {
			r = l.R
		}
		sum += r
	}
	return gapR(s, c, b, sum, otherR)
}

func otherLayersR(layers []heat.Voided) float64 {
	sum := 0.0
	for _, l := range layers {
		if len(l.Full) == 1 {
			sum += l.Full[0].R
		}
	}
	return sum
}

// behindR is what stands behind a gap in the new blankets: all other layers, and the
// old blanket, which nobody opened.
func behindR(s Surface, layers []heat.Voided) float64 {
	if s.OldIn > 0 {
		return otherLayersR(layers) + s.ExistingR
	}
	return otherLayersR(layers)
}

// heatOf works out a stack in its place against the target.
func heatOf(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target) (Heat, error) {
	layers := series(s, c, b, t.AddR, false)
	bounds, err := heat.BoundsBeside(layers)
	if err != nil {
		return Heat{}, err
	}
	low, err := heat.BoundsBeside(series(s, c, b, t.AddR, true))
	if err != nil {
		return Heat{}, err
	}
	bounds, low = throughGaps(s, c, b, layers, bounds), throughGaps(s, c, b, layers, low)
	bounds, low = bareTops(s, c, b, behindR(s, layers), bounds), bareTops(s, c, b, otherLayersR(layers), low)
	h := Heat{
		CountedR: b.counted(), AssemblyR: bounds.Mean, AssemblyLow: low.Isothermal, AssemblyHigh: bounds.Parallel,
		U: 1 / bounds.Mean, VoidShare: voidShares(s, c, b)[0], AddOutsideR: t.AddR,
		From: uniqueRefs([]catalog.Ref{s.Kind.Ref, s.Frame.From, b.Layers[0].Product.Ref}),
	}
	stays := c.Settings.EmptyCavityR
	if s.OldIn > 0 {
		stays = s.ExistingR // what lies there keeps working without a new blanket
	}
	h.AtStake = s.AreaFt2 / math.Max(otherLayersR(layers)+stays, 0.1)
	h.DeliveredR = deliveredR(s, c, b, behindR(s, layers))
	if s.Kind.StackOverFraming {
		h.CeilingLbFt2, h.CeilingLimit = ceilingLoad(s, c, b), ceilingLimit(s, c)
	}
	if s.Kind.Airway == catalog.AirwayEaves {
		h.addEaves(s, b)
	}
	h.serve(s, b, t)
	h.LossMMBtu, err = lossOf(s, site, c, b, bounds, t)
	if err != nil {
		return h, err
	}
	h.LossUSD = site.yearCost(h.LossMMBtu, c)
	h.SummerMost = site.Cooled && site.Zone != "" && float64(site.ZoneNumber) <= c.Figure("summer-zone").Value
	return h, nil
}

// addEaves is what the roof over the outside walls leaves of the blanket.
func (h *Heat) addEaves(s Surface, b Blankets) {
	h.EaveShortIn = max(0, fullHeel(s, b)-s.HeelIn)
	if h.EaveShortIn > 0 {
		// What a strip has left where the roof comes down on it. Beyond the
		// squeeze a batt bears, a thinner one must be laid there instead, so
		// no more than room times a usual R per inch is claimed.
		room := max(0, s.HeelIn-s.AirwayIn-StandsIn(s, b))
		r, err := heat.CompressedR(b.NominalR, labelHeight(b), room)
		if err != nil {
			r = room * b.NominalR / labelHeight(b)
		}
		h.EaveR = r
	}
}

func labelHeight(b Blankets) float64 {
	sum := 0.0
	for _, l := range b.Layers {
		sum += l.Product.ThicknessIn
	}
	return sum
}
