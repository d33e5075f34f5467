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

// stack is the layers of a section from the room outwards, and where the blanket is in
// it or would be: from its first layer to the one behind its last. none: it is left
// out.
type stack struct {
	layers   []layer
	from, to int
	none     bool
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
func (b *Build) layers(l *catalog.Layers, w way, sec *catalog.DampSection) (stack, error) {
	out, met := stack{}, false
	for _, p := range b.Parts {
		own := p.Layers
		if p.Role == Blanket && !met {
			out.from, met = len(out.layers), true
		}
		switch {
		case p.Role == Blanket && p.None:
			out.to, out.none = out.from, true
			continue
		case p.Role == Covered:
			out.layers = append(out.layers, layer{catalog.DampLayer{Of: w.cover.Of}, Lining})
		case p.Role == Board:
			own = l.BoardLayers(*w.board, p.R)
		}
		if len(own) == 0 {
			return out, fmt.Errorf("%w %s", errUnknownPart, p.Name)
		}
		for _, x := range own {
			out.layers = append(out.layers, layer{x, p.Role})
		}
		if p.Role == Blanket {
			out.to = len(out.layers)
		}
	}
	for _, x := range sec.Outside {
		role := Shell
		if l.Wood(x.Of) {
			role = Bearer
		}
		out.layers = append(out.layers, layer{x, role})
	}
	return out, nil
}

// section makes the cut that is run.
func section(l *catalog.Layers, of stack, leakM3M2H float64) (cut, error) {
	list, from, to := of.layers, of.from, of.to
	sec := cut{Section: wetting.Section{StartC: l.StartC, StartRH: l.StartRH}}
	for _, x := range list {
		made, err := l.Make(x.DampLayer)
		if err != nil {
			return sec, err
		}
		sec.Layers = append(sec.Layers, made)
	}
	for i, x := range list {
		if x.role == Bearer && l.Wood(x.Of) {
			sec.Skins = append(sec.Skins, wetting.Skin{Layer: i, DepthM: min(l.SkinMM/1000, sec.Layers[i].ThickM), Outer: i < from})
			sec.skins = append(sec.skins, x.Called)
		}
	}
	if at := leaksAt(&sec.Section, from, to); at < len(list) {
		sec.Leaks = []wetting.Leak{{Layer: at, M3M2H: leakM3M2H}}
	}
	for k := range lastPlane(of, l) + 1 {
		if on, ok := feeds(l, list, &sec.Section, k); ok {
			sec.planes = append(sec.planes, on)
			sec.Watch = append(sec.Watch, wetting.Watch{Plane: k, Class: wetting.Sensitive})
		}
	}
	return sec, nil
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
// is never the face of the place itself, but where no blanket lies before that.
func lastPlane(of stack, l *catalog.Layers) int {
	if of.none {
		return len(of.layers)
	}
	last := of.to
	for i := of.to; i < len(of.layers); i++ {
		if of.layers[i].role == Bearer && l.Wood(of.layers[i].Of) {
			last = i
		}
	}
	return min(last, len(of.layers)-1)
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

// key tells stacks apart.
func (of stack) key() string {
	var b strings.Builder
	for _, x := range of.layers {
		fmt.Fprintf(&b, "%d %s %g %g,", x.role, x.Of, x.MM, x.Perm)
	}
	return b.String()
}
