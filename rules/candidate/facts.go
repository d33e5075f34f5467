package candidate

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/house"
)

// placeFacts sets every fact that does not hang on a blanket. Facts that the
// builder does not know stay unknown, which is what the rules need to hear.
func placeFacts(a house.Answered, p *house.Place, s Surface, site Site) *rules.Facts {
	c := a.List.Catalog()
	f := c.Book().NewFacts()
	set := setter(f)
	set("place", rules.Text(s.Kind.ID))
	for _, q := range []struct {
		fact, key string
		scope     house.Scope
	}{
		{"stage", "stage", house.Top},
		{"old", "old", house.Top},
		{"cooled", "cooled", house.Site},
		{"exposed", "exposed", house.PlaceScope},
		{"practice", "framing.practice", house.PlaceScope},
		{"spacing_in", "framing.spacing_in", house.PlaceScope},
		{"ci_r", "ci_r", house.PlaceScope},
		{"existing_r", "existing_r", house.PlaceScope},
		{"flue_through", "flue_through", house.PlaceScope},
		{"non_ic_lights", "non_ic_lights", house.PlaceScope},
		{"bath_fan_outside", "bath_fan_outside", house.PlaceScope},
		{"vents_ok", "vents_ok", house.PlaceScope},
		{"knob_and_tube", "knob_and_tube", house.PlaceScope},
		{"vermiculite", "vermiculite", house.PlaceScope},
		{"bath", "bath", house.PlaceScope},
		{"cladding", "cladding", house.PlaceScope},
		{"ground_cover", "ground_cover", house.PlaceScope},
		{"dampness", "dampness", house.PlaceScope},
		{"foam_r", "foam_r", house.PlaceScope},
		{"dehumidifier", "dehumidifier", house.PlaceScope},
		{"chimney", "chimney", house.PlaceScope},
		{"gap_in", "gap_in", house.PlaceScope},
	} {
		set(q.fact, answerFact(a, p, q.scope, q.key))
	}
	if !s.Kind.AsksExposed() {
		set("exposed", rules.Bool(s.Exposed))
	}
	set("tight_cover", tightCover(a, p, s, c))
	set("vent_ft2", rules.Number(math.Ceil(s.AreaFt2/c.Figure("vent-floor").Value)))
	sheet, why := leftOut(s, site, c, s.CIR)
	set("left_out", rules.Text(sheet))
	set("left_out_why", rules.Text(why))
	set("labor", rules.Text(s.Labour))
	set("edition", rules.Text(site.Edition))
	set("cool_rooms", rules.Bool(site.Cooled))
	if site.Zone != "" {
		set("zone", rules.Number(float64(site.ZoneNumber)))
		set("marine", rules.Bool(site.Marine))
		set("humid_zone", rules.Bool(site.Letter == "A"))
	}
	set("fill_above", site.FillAbove) // plan.Assessment.Update works it out again
	set("chimney_in_wall", site.InWall)
	set("listed_pipe", rules.Bool(site.ListedPipe))
	if s.CIR > 0 || s.FoamInBays || s.Kind.Boundary == "soil" { // no fiber may lie on concrete without
		set("foam_there", rules.Bool(true))
	}
	if a.Has(p, "flue_through") {
		set("by_listing", rules.Bool(!a.BrickAlone()))
		set("brick_too", rules.Bool(a.BrickToo()))
		if single, known := a.SinglePipe(p); known {
			set("single_pipe", rules.Bool(single))
		}
	}
	if s.Kind.BesideChimney {
		chimneyFacts(set, a, p, s)
	}
	return f
}

// tightCover tells whether what goes on the drywall can hold damp behind it while the
// rooms are cooled; unknown while nobody said what that is.
func tightCover(a house.Answered, p *house.Place, s Surface, c *catalog.Catalog) rules.Value {
	if s.Cover == damp.Unknown && a.Asked(a.Question(house.PlaceScope, "inside_cover"), p) {
		return rules.Unknown()
	}
	return rules.Bool(slices.ContainsFunc(c.DampCovers, func(x catalog.DampCover) bool { return x.ID == s.Cover && x.Cooled }))
}

// setter sets facts. A value out of its range is left unknown rather than wrong; a
// name that is not declared is a slip in the program, and no rule may miss it
// silently.
func setter(f *rules.Facts) func(string, rules.Value) {
	return func(name string, v rules.Value) {
		if err := f.Set(name, v); errors.Is(err, rules.ErrNoFact) {
			panic(err)
		}
	}
}

// Told is what answers about other places tell of a place, beside its size and what
// counts for the whole house.
type Told struct {
	fans, flue           rules.Value
	brickAlone, brickToo bool
	single, isSure       bool
}

// ToldOf gathers what other places tell of one.
func ToldOf(a house.Answered, p *house.Place) Told {
	var t Told
	if a.Has(p, "bath_fan_outside") {
		t.fans = answerFact(a, p, house.PlaceScope, "bath_fan_outside")
	}
	if a.Has(p, "flue_through") {
		t.flue, t.brickAlone, t.brickToo = answerFact(a, p, house.PlaceScope, "flue_through"), a.BrickAlone(), a.BrickToo()
		t.single, t.isSure = a.SinglePipe(p)
	}
	return t
}

// fillAbove tells whether an attic of the house has loose, pebbly fill, which
// can run down into the walls under it and along a chimney; unknown while that
// of one is, and where an old house is said to have an attic that is no place of
// it.
func fillAbove(a house.Answered) rules.Value {
	out, listed := rules.Bool(false), false
	for i := range a.House.Places {
		p := &a.House.Places[i]
		if a.KindOf(p).Airway != catalog.AirwayEaves {
			continue
		}
		listed = true
		v := answerFact(a, p, house.PlaceScope, "vermiculite")
		switch yes, ok := v.AsBool(); {
		case yes:
			return v
		case !ok:
			out = v
		}
	}
	above, old := a.House.Answers["shape.above"].Text, a.Value(house.Top, nil, "old")
	if !listed && (above == "attic" || above == "both") && old.Known && old.Answer.Bool {
		return rules.Unknown()
	}
	return out
}

// answerFact turns an answer into a fact. A question that does not apply to
// the place at all is a known "no", not an unknown. One of safety is a "no" only
// where an answer says so: it may not have been asked because another, still
// open, stands for it.
func answerFact(a house.Answered, p *house.Place, scope house.Scope, key string) rules.Value {
	q := a.Question(scope, key)
	if scope == house.PlaceScope && !q.For(p.Kind) {
		return rules.Unknown()
	}
	if !a.Asked(q, p) && q.Kind == house.YesNoKind && !q.Safety {
		return rules.Bool(false)
	}
	v := a.ValueOf(q, p)
	if !v.Known {
		return rules.Unknown()
	}
	switch q.Kind {
	case house.YesNoKind:
		return rules.Bool(v.Answer.Bool)
	case house.NumberKind:
		return rules.Number(v.Answer.Number)
	}
	return rules.Text(v.Answer.Text)
}

// candidateFacts adds what hangs on the stack of blankets.
func candidateFacts(base *rules.Facts, s Surface, c *catalog.Catalog, b Blankets, f Facing, h Heat, d Damp) *rules.Facts {
	out := base.Clone()
	set := setter(out)
	m := b.Material
	set("material", rules.Text(m.ID))
	set("combustible", rules.Bool(!m.Noncombust))
	set("absorbent", rules.Bool(m.Absorbent))
	set("mineral_fiber", rules.Bool(m.MineralFiber))
	set("natural", rules.Bool(m.Natural))
	set("hard_to_find", rules.Bool(m.HardToFind))
	set("facing", rules.Text(f.OnBlanket))
	set("turned", rules.Bool(f.Turned))
	set("retarder", rules.Text(f.Retarder()))
	set("retarder_asked", rules.Text(f.Asked))
	set("two_retarders", rules.Bool(f.TwoSheets))
	if f.LeftOut != "" { // now that the board is known
		set("left_out", rules.Text(f.LeftOut))
		set("left_out_why", rules.Text(f.LeftWhy))
	}
	set("thin_board", rules.Bool(f.ThinBoard))
	set("board_r", rules.Number(s.CIR+h.AddOutsideR))
	set("foam_there", rules.Bool(s.CIR+h.AddOutsideR > 0 || s.FoamInBays))
	set("vapor_board_r", rules.Number(f.VaporR))
	set("paint_does", rules.Bool(f.PaintDoes))
	set("trim_in", rules.Number(b.TrimIn))
	set("squeeze", rules.Number(b.Squeeze))
	set("label_r", rules.Number(b.NominalR))
	set("cavity_r", rules.Number(b.CavityR))
	set("layers", rules.Number(float64(len(b.Layers))))
	if s.FoamUnsaid { // the fiber meets the board that is bought for it
		set("foam_r", rules.Number(s.CIR+h.AddOutsideR))
	}
	set("short_by_r", rules.Number(h.ShortByR))
	set("add_outside_r", rules.Number(h.AddOutsideR))
	if s.Kind.StackOverFraming {
		set("ceiling_load", rules.Number(h.CeilingLbFt2))
		set("ceiling_limit", rules.Number(h.CeilingLimit))
		set("overloaded", rules.Bool(h.CeilingLbFt2 > h.CeilingLimit))
		set("load_limited", rules.Bool(b.LoadLimited))
	}
	if s.Kind.Airway == catalog.AirwayEaves {
		// The heel is often a guess: whole inches are all that can be told.
		set("eave_short_in", rules.Number(math.Ceil(h.EaveShortIn)))
	}
	set("damp_verdict", rules.Text(cmp.Or(d.Word, damp.NotJudged)))
	set("damp_season", rules.Text(cmp.Or(d.Season(), "none")))
	if d.Judged() {
		set("wood_moisture", rules.Number(d.Sealed.Moisture*100))
		set("mold_index", rules.Number(d.Sealed.Mold))
	}
	return out
}
