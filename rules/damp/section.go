package damp

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/wetting"
)

// layer is one layer on its way into a section.
type layer struct {
	catalog.DampLayer
	role Role
}

// cut is a section with what its skins and watched planes are called, in their order.
type cut struct {
	wetting.Section
	skins, planes []string
}

// way is one way in which a build-up may be meant.
type way struct {
	cover *catalog.DampCover // nil: nothing is there to be covered
	board *catalog.DampBoard // nil: there is none
}

// ways are all that the answers leave open.
func (b *Build) ways(l *catalog.Layers, sec *catalog.DampSection, cooled bool) []way {
	covers, boards := []*catalog.DampCover{nil}, []*catalog.DampBoard{nil}
	if slices.ContainsFunc(b.Parts, func(p Part) bool { return p.Role == Covered }) {
		covers = pick(l.Covers, func(c *catalog.DampCover) bool {
			return b.Cover == c.ID || b.Cover == Unknown && c.MayBe(*sec, cooled)
		})
	}
	if slices.ContainsFunc(b.Parts, func(p Part) bool { return p.Role == Board }) {
		boards = pick(l.Boards, func(x *catalog.DampBoard) bool { return b.Board == x.ID || b.Board == Unknown && x.MayBe(*sec, cooled) })
	}
	var out []way
	for _, c := range covers {
		for _, x := range boards {
			out = append(out, way{c, x})
		}
	}
	return out
}

func pick[T any](list []T, is func(*T) bool) []*T {
	var out []*T
	for i := range list {
		if is(&list[i]) {
			out = append(out, &list[i])
		}
	}
	return out
}

// layers are those of a section, from the room outwards.
func (b *Build) layers(l *catalog.Layers, w way, sec *catalog.DampSection) ([]layer, error) {
	var out []layer
	for _, p := range b.Parts {
		own := p.Layers
		switch {
		case p.Role == Covered:
			out = append(out, layer{catalog.DampLayer{Of: w.cover.Of}, Lining})
		case p.Role == Board:
			own = l.BoardLayers(*w.board, p.R)
		}
		if len(own) == 0 {
			return nil, fmt.Errorf("%w %s", errUnknownPart, p.Name)
		}
		for _, x := range own {
			out = append(out, layer{x, p.Role})
		}
	}
	for _, x := range sec.Outside {
		role := Shell
		if l.Wood(x.Of) {
			role = Bearer
		}
		out = append(out, layer{x, role})
	}
	return out, nil
}

// section makes the cut that is run.
func section(l *catalog.Layers, list []layer, leakM3M2H float64) (cut, error) {
	sec := cut{Section: wetting.Section{StartC: l.StartC, StartRH: l.StartRH}}
	for _, x := range list {
		made, err := l.Make(x.DampLayer)
		if err != nil {
			return sec, err
		}
		sec.Layers = append(sec.Layers, made)
	}
	from, to := blankets(list)
	for i, x := range list {
		if x.role == Bearer && l.Wood(x.Of) {
			sec.Skins = append(sec.Skins, wetting.Skin{Layer: i, DepthM: min(l.SkinMM/1000, sec.Layers[i].ThickM), Outer: i < from})
			sec.skins = append(sec.skins, x.Called)
		}
	}
	sec.Leaks = []wetting.Leak{{Layer: leaksAt(&sec.Section, from, to), M3M2H: leakM3M2H}}
	for k := range list {
		if k > lastPlane(&sec.Section, list, l, to) {
			continue
		}
		if on, ok := feeds(l, list, &sec.Section, k); ok {
			sec.planes = append(sec.planes, on)
			sec.Watch = append(sec.Watch, wetting.Watch{Plane: k, Class: wetting.Sensitive})
		}
	}
	return sec, nil
}

// blankets are the first layer of the blanket and the one behind its last.
func blankets(list []layer) (from, to int) {
	is := func(x layer) bool { return x.role == Blanket }
	from = max(0, slices.IndexFunc(list, is))
	to = from
	for i, x := range list {
		if is(x) {
			to = i + 1
		}
	}
	return from, to
}

// leaksAt is the layer at whose room side air of the room comes out: the first
// beyond the blanket that has a thickness, or under a floor the blanket itself.
func leaksAt(sec *wetting.Section, from, to int) int {
	for i := to; i < len(sec.Layers); i++ {
		if sec.Layers[i].ThickM > 0 {
			return i
		}
	}
	return from
}

// lastPlane is the outermost plane that is judged: the inner face of the
// outermost wood that bears something, or else the outer face of the blanket. It
// is never the face of the place itself.
func lastPlane(sec *wetting.Section, list []layer, l *catalog.Layers, to int) int {
	last := to
	for i := to; i < len(list); i++ {
		if list[i].role == Bearer && l.Wood(list[i].Of) {
			last = i
		}
	}
	return min(last, len(sec.Layers)-1)
}

// feeds reports whether something at plane k feeds mold, and what it is called: one of
// the two layers with a thickness that meet there, wood before paper before fiber.
// Beside air only wood counts: fiber that lies open has the air's own humidity.
func feeds(l *catalog.Layers, list []layer, sec *wetting.Section, k int) (on string, ok bool) {
	in, out := thick(sec, k-1, -1), thick(sec, k, 1)
	open, best := false, 0
	for _, i := range []int{in, out} {
		open = open || i >= 0 && sec.Layers[i].Air != nil
	}
	for _, i := range []int{in, out} {
		if i < 0 {
			continue
		}
		name, weight := list[i].Called, 0
		switch {
		case l.Wood(list[i].Of):
			weight = 3
		case open || !l.Feeds(list[i].Of):
		case list[i].role != Blanket:
			weight = 2
		case i == in:
			name, weight = "far side of the blanket", 1
		default:
			name, weight = "room side of the blanket", 1
		}
		if weight > best {
			on, best = name, weight
		}
	}
	return on, best > 0
}

// thick is the next layer with a thickness from i on, -1 for none.
func thick(sec *wetting.Section, i, step int) int {
	for ; i >= 0 && i < len(sec.Layers); i += step {
		if sec.Layers[i].ThickM > 0 {
			return i
		}
	}
	return -1
}

// key tells layers apart.
func key(list []layer) string {
	var b strings.Builder
	for _, x := range list {
		fmt.Fprintf(&b, "%d %s %g %g,", x.role, x.Of, x.MM, x.Perm)
	}
	return b.String()
}
