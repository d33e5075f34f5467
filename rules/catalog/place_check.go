package catalog

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"battwright/rules/strict"
)

func (k *checker) kinds() {
	for _, p := range k.c.Kinds {
		what := "place " + p.ID
		k.ref(what, p.Ref)
		if _, _, ok := k.c.WoodShare(p.ShareElement, p.DefaultPractice, p.DefaultSpacingIn); !ok {
			k.bad("%s: no framing share for %q", what, p.ShareElement)
		}
		for _, l := range p.Layers {
			k.within(what, "layer r", l.R, 0, 100)
		}
	}
}

// traits checks that each kind of place has every trait, and names nothing that
// is not there.
func (k *checker) traits(r *records) {
	for _, p := range r.Kinds {
		kindChecker{k, p, r}.all()
	}
	for _, d := range r.Dangers {
		if d.Question != "" && !slices.Contains(r.questions, "place."+d.Question) {
			k.errs = append(k.errs, d.from.problem("danger", []any{"question"}, fmt.Sprintf("%q", d.Question), "a question of a place"))
		}
	}
}

// kindChecker checks the traits of one kind.
type kindChecker struct {
	*checker
	p PlaceKind
	r *records
}

func (k kindChecker) wrong(found, want string, below ...any) {
	if found == `""` {
		found = "nothing"
	}
	k.errs = append(k.errs, k.p.from.problem("place", below, found, want))
}

// one checks a trait that is one of some words.
func (k kindChecker) one(key, value string, of ...string) {
	if !slices.Contains(of, value) {
		k.wrong(fmt.Sprintf("%q", value), "one of "+strings.Join(of, ", "), key)
	}
}

// listed checks names of something that is listed elsewhere.
func (k kindChecker) listed(known []string, want, key string, names ...string) {
	for _, n := range names {
		if !slices.Contains(known, n) {
			k.wrong(fmt.Sprintf("%q", n), want, key)
		}
	}
}

func (k kindChecker) all() {
	p := k.p
	k.one("boundary", p.Boundary, "air", "soil", "none")
	k.one("heat_flow", p.HeatFlow, "up", "down", "horizontal")
	k.one("size", p.Size, SizeRun, SizeRectangle, SizeFloor, SizeRing, SizeRim, SizeChase)
	k.one("exposed", p.Exposed, ExposedAlways, ExposedNever, ExposedAsked, ExposedAskedYes)
	k.one("retarder", p.Retarder, RetarderByTable, RetarderByZone, RetarderUnfaced, RetarderNever)
	k.one("airway", p.Airway, "", AirwayEaves, AirwayChannel)
	for asked := range p.DampPractice {
		k.one("damp_practice", asked, "any", "none", "wanted", "low-perm-barred")
	}
	if p.Retarder == RetarderNever && p.Unfaced == "" {
		k.wrong("nothing", "why nothing goes on the room side", "unfaced")
	}
	if (len(p.Damp) == 0) == (p.NotJudged == "") {
		k.wrong("not one of the two", "sections for the hourly check of damp, or in not_judged why there are none", "damp")
	}
	if s := p.Ft2Hour; !(0 < s.Low && s.Rises()) {
		k.wrong("no figures that rise", "low, typical and high, rising", "ft2_hour")
	}
	if p.BesideChimney != (p.Size == SizeChase) {
		k.wrong(p.Size, "a chase beside a chimney, and nowhere else", "size")
	}
	k.layers()
	k.area()
	k.questions()
	k.names()
}

// layers checks that each layer has a role and a name, or has its name from what
// is answered, and that there is one blanket.
func (k kindChecker) layers() {
	blankets := 0
	for i, l := range k.p.Layers {
		if !slices.Contains(layerRoles, string(l.Role)) {
			k.wrong(fmt.Sprintf("%q", l.Role), "one of "+strings.Join(layerRoles, ", "), "layer", i, "role")
			continue
		}
		if l.named() == (l.Name == "") {
			k.wrong(fmt.Sprintf("%q", l.Name), "a name, and none for blanket, sheathing and cladding", "layer", i, "name")
		}
		if l.Role == RoleBlanket {
			blankets++
		}
	}
	if blankets != 1 {
		k.wrong(fmt.Sprintf("%d layers with the role blanket", blankets), "one", "layer")
	}
}

// area checks that a size can be proposed for every place of the kind.
func (k kindChecker) area() {
	p := k.p
	switch p.Size {
	case SizeRing, SizeRim, SizeChase: // by their own rule
		return
	case SizeRun:
		k.one("area_of", p.AreaOf, AreaWalls, AreaPerimeter)
	default:
		if p.Usual["area_ft2"] == 0 {
			k.one("area_of", p.AreaOf, AreaFootprint)
		}
	}
}

func (k kindChecker) questions() {
	p := k.p
	for _, key := range slices.Concat(p.Asks, slices.Sorted(maps.Keys(p.StillOpen))) {
		k.listed(k.r.questions, "a question of a place", "asks", "place."+key)
	}
	for _, x := range p.Proposed {
		if x.Of != "" {
			k.listed(k.r.questions, "a question of the shape", "proposed", "shape."+x.Of)
		}
		for _, key := range slices.Sorted(maps.Keys(x.Set)) {
			k.listed(k.r.questions, "a question of a place", "proposed", "place."+key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(p.HalfWhen)) {
		k.listed(k.r.questions, "a question of the shape", "half_when", "shape."+key)
	}
	for _, key := range UsualKeys {
		if _, ok := p.Usual[key]; p.AsksOf(key) && !ok {
			k.wrong("nothing", "the number that is assumed until somebody says", "usual", key)
		}
	}
	for key := range p.Usual {
		if !slices.Contains(append([]string{"area_ft2", "height_ft"}, UsualKeys...), key) {
			k.wrong("a number for "+key, "one for a question that takes its default from here: area_ft2, height_ft, "+strings.Join(UsualKeys, ", "), "usual", key)
		}
	}
}

// names checks what the kind names of other records.
func (k kindChecker) names() {
	p := k.p
	sizes := ids(k.c.Sizes, func(x Size) string { return x.ID })
	dangers := ids(k.r.Dangers, func(x Danger) string { return x.ID })
	drawings := ids(k.c.Drawings, func(x Drawing) string { return x.ID })
	kinds := k.c.KindsLike(func(x PlaceKind) bool { return x.Derived })
	k.listed(sizes, "a size of lumber", "default_size", p.DefaultSize)
	k.listed(sizes, "a size of lumber", "sizes", p.Sizes...)
	k.listed(append(drawings, ""), "the id of a drawing", "drawing", p.Drawing)
	k.listed(ids(k.r.Sections, func(x DampSection) string { return x.ID }), "the id of a damp_section", "damp", p.Damp...)
	k.listed(append(kinds, ""), "a derived kind of place", "unvented", p.Unvented)
	for _, id := range slices.Sorted(maps.Keys(p.NotHere)) {
		if !slices.Contains(dangers, id) {
			k.wrong("no danger of that name", "one of "+strings.Join(dangers, ", "), "not_here", id)
		} else if strings.TrimSpace(p.NotHere[id]) == "" {
			k.wrong("nothing", "why that danger cannot be there", "not_here", id)
		}
	}
	for key, id := range map[string]string{"supports": p.Supports, "labor": p.Labour} {
		if _, ok := k.c.prices[id]; id != "" && id != "none" && !ok {
			k.wrong(fmt.Sprintf("%q", id), "something that has a price", key)
		}
	}
}

// keepTraits gives a kind of ours that an overlay changes its traits, which the
// overlay may leave out but not change: a danger, a question or a count of ours
// stays.
func keepTraits(r, o *records, tree *strict.Tree) strict.Problems {
	var out strict.Problems
	for i := range o.Kinds {
		at := slices.IndexFunc(r.Kinds, func(b PlaceKind) bool { return b.ID == o.Kinds[i].ID })
		if at < 0 || o.Kinds[i].Remove {
			continue
		}
		own, ours := reflect.ValueOf(&o.Kinds[i].Traits).Elem(), reflect.ValueOf(r.Kinds[at].Traits)
		for f := range own.NumField() {
			if !own.Field(f).IsZero() && !reflect.DeepEqual(own.Field(f).Interface(), ours.Field(f).Interface()) {
				key, _, _ := strings.Cut(own.Type().Field(f).Tag.Get("toml"), ",")
				out = append(out, tree.Problem([]any{"place", i, key}, "a change to a trait of a kind of ours", "a kind of your own, with another id"))
			}
		}
		o.Kinds[i].Traits = r.Kinds[at].Traits
	}
	for i, d := range o.Dangers {
		if slices.ContainsFunc(r.Dangers, func(b Danger) bool { return b.ID == d.ID }) {
			out = append(out, tree.Problem([]any{"danger", i, "id"}, "a change to a danger", "another id: dangers stay, you may add some"))
		}
	}
	return out
}
