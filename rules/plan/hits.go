package plan

import (
	"cmp"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// settle gathers what must be said of a place once its choice stands: from the
// choice, which knows every fact, or from the place itself when there is none.
func (p *Place) settle() {
	p.Calls, p.Install, p.Depends = candidate.Calls{}, nil, nil
	v := p.Verdict
	if p.Choice != nil {
		v = p.Choice.Verdict
	}
	if stops := stopsOf(v); len(stops) > 0 { // a rule may stop a place for its blanket too
		p.Stops, p.Choice, p.Best = stops, nil, nil
	}
	for _, h := range v.Safety {
		if p.says(h) {
			p.Safety = append(p.Safety, h)
		}
	}
	if p.Choice == nil {
		return // what is to be done is about work that has no plan
	}
	p.Install, p.Depends = v.Install, v.Depends
	p.Require = candidate.CallsOf(v).Require
}

// says reports whether a caution belongs to the place as it stands. Where it is
// stopped nobody works: only what stops it, or may stop it as well, is said, and
// what holds for whoever is called and opens it; no mask or lamp that would send
// somebody in.
func (p *Place) says(h rules.Hit) bool {
	switch {
	case p.Stopped():
		return h.Rule.Effect.Stops || h.Rule.Effect.HoldsStopped
	case p.Choice == nil:
		return aboutPlace(h)
	}
	return true
}

// aboutPlace reports whether a caution that fired on unknown facts is about
// the place and not about a blanket that is not there.
func aboutPlace(h rules.Hit) bool {
	for _, name := range h.Unknown {
		if slices.Contains(blanketFacts, name) {
			return false
		}
	}
	return true
}

var blanketFacts = []string{
	"material", "combustible", "absorbent", "mineral_fiber", "natural", "hard_to_find", "facing", "turned", "retarder", "retarder_asked",
	"two_retarders", "trim_in", "squeeze", "label_r", "cavity_r", "layers", "short_by_r", "add_outside_r", "ceiling_load",
	"overloaded", "ceiling_limit", "load_limited", "eave_short_in", "damp_verdict", "damp_season", "wood_moisture", "mold_index", "thin_board", "board_r", "foam_there", "vapor_board_r", "paint_does", "foam_r",
}

// drawingsKey is the question behind the one line that stands for all figures
// of the drawings.
const drawingsKey, codeKey = "drawings", "site.code"

// said lists what was assumed and what is unknown, in the order of the
// question list.
func (a Assessment) said(out *Plan) {
	ans := a.Answered
	out.Disagree = ans.Disagree()
	for _, p := range ans.DrawingsOpen() {
		out.Undrawn = append(out.Undrawn, ans.Text(house.PlaceScope, p, "label"))
	}
	if len(out.Undrawn) > 0 {
		out.Unknown = append(out.Unknown, Said{Key: drawingsKey, Prompt: "The R-values of your drawings"})
	}
	note := func(q house.Question, p *house.Place, label string) {
		if q.Scope == house.Drawings || !ans.Asked(q, p) { // the drawings are one thing to find out
			return
		}
		v := ans.ValueOf(q, p)
		s := Said{Key: q.FullKey(), Prompt: q.Prompt.In(ans.System), Value: q.Show(v.Answer, ans.System)}
		if p != nil {
			s.Place, s.Label = p.ID, label
		}
		switch v.Source {
		case house.FromDefault:
			if q.Key != "label" {
				out.Assumed = append(out.Assumed, s)
			}
		case house.FromUnknown:
			out.Unknown = append(out.Unknown, s)
		}
	}
	for _, q := range ans.List.Questions {
		if q.Scope != house.PlaceScope {
			note(q, nil, "")
		}
	}
	for i := range ans.House.Places {
		p := &ans.House.Places[i]
		for _, q := range ans.List.In(house.PlaceScope, p.Kind) {
			note(q, p, a.Places[i].Surface.Label)
		}
	}
	a.sayHinges(out)
}

// sayHinges puts the answers that decide about damp on the list of what is not known
// yet, where they are assumed too.
func (a Assessment) sayHinges(out *Plan) {
	for i := range out.Places {
		place := &out.Places[i]
		for _, h := range place.Hinges {
			q, _ := a.Answered.List.Find(h.Key)
			s := Said{Key: h.Key, Prompt: q.Prompt.In(a.Answered.System)}
			if q.Scope == house.PlaceScope {
				s.Place, s.Label = place.Surface.ID, place.Surface.Label
			}
			out.matters(s, out.hingeOf(s, a.Answered.System))
		}
		a.sayCover(out, place)
	}
}

// coverKey is the question of the cover that goes on the drywall.
const coverKey = "place.inside_cover"

// sayCover puts it there where the damp check finds the place worse for a cover that
// nobody named, and no other blanket would go in without.
func (a Assessment) sayCover(out *Plan, place *Place) {
	effect := place.coverEffect()
	if effect == "" || slices.ContainsFunc(place.Hinges, func(h Hinge) bool { return h.Key == coverKey }) {
		return
	}
	q, _ := a.Answered.List.Find(coverKey)
	out.matters(Said{Key: coverKey, Prompt: q.Prompt.In(a.Answered.System), Place: place.Surface.ID, Label: place.Surface.Label}, effect)
}

// coverEffect is what another cover than the worst that was tried would change; empty
// where it changes nothing.
func (p *Place) coverEffect() string {
	own := p.own()
	if own == nil {
		return ""
	}
	under := cmp.Or(own.Damp.Holed.Under, own.Damp.Sealed.Under)
	if under == "" {
		return ""
	}
	return "if not \"" + under + "\": the damp check finds less damp here"
}

// matters marks what is not known yet as what decides something.
func (p *Plan) matters(s Said, effect string) {
	at := slices.IndexFunc(p.Unknown, s.is)
	if at < 0 {
		at, p.Unknown = len(p.Unknown), append(p.Unknown, s)
	}
	p.Unknown[at].Matters, p.Unknown[at].Effect = true, effect
}

// notCovered says once what the whole plan leaves out.
func (a Assessment) notCovered(out *Plan) {
	if q, ok := a.Answered.List.Find("shape.others"); ok {
		for _, id := range a.Answered.Answer(house.Shape, nil, "others").List {
			for _, o := range q.Options {
				if o.Value == id {
					out.NotCovered = append(out.NotCovered, o.Label.In(a.Answered.System)+": ask the installer or the building department")
				}
			}
		}
	}
	out.NotCovered = append(out.NotCovered,
		"air leaks, rain and plumbing leaks: sealing comes before blankets",
		"rain that gets behind the siding, and ice at the eaves",
		"windows, doors, slabs, ducts and heating equipment",
		"blown, sprayed and board insulation, except where the target needs a board",
	)
}

func sources(out *Plan, c *catalog.Catalog) {
	used := map[string]bool{}
	use := func(r catalog.Ref) { used[r.Source] = true }
	lists := func(all [4][]catalog.Ref) {
		for _, list := range all {
			for _, r := range list {
				use(r)
			}
		}
	}
	hits := func(all ...[]rules.Hit) {
		for _, list := range all {
			for _, h := range list {
				use(refOf(h))
			}
		}
	}
	for i := range out.Places {
		p := &out.Places[i]
		hits(p.Safety, p.Install, p.Require)
		for _, r := range p.Target.From {
			use(r)
		}
		if p.Stopped() {
			continue // nothing else is said of it
		}
		for _, r := range p.Surface.Clearance.From {
			use(r)
		}
		if p.Choice != nil { // a budget may take another stack than the one that is ranked
			lists(p.Choice.RefLists())
		}
		for k := range p.Entries {
			e := &p.Entries[k]
			if e.NoFit == "" {
				use(e.Material.Ref)
				lists(e.RefLists())
			}
			hits(e.Verdict.Excluded, e.Verdict.For, e.Verdict.Against)
		}
	}
	for _, r := range out.Site.From {
		use(r)
	}
	delete(used, "")
	for id := range used {
		if s, ok := c.Source(id); ok {
			out.Sources = append(out.Sources, s)
		} else {
			out.Sources = append(out.Sources, catalog.Source{ID: id, Title: id})
		}
	}
	slices.SortFunc(out.Sources, func(a, b catalog.Source) int { return strings.Compare(a.ID, b.ID) })
}
