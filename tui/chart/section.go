package chart

import (
	"slices"
	"strings"
)

// Kind is what a layer of a wall, floor or ceiling is made of; it chooses the
// sign at the left.
type Kind int

// The kinds of layer.
const (
	Board Kind = iota
	Fiber
	Retarder // paper face, sheet or paint that slows damp air
	Sheathing
	Cladding
	Gap // empty or vented air space
	Concrete
)

// SectionLayer is one layer.
type SectionLayer struct {
	Name     string
	Note     string
	TempText string // temperature of its face toward the inside, with unit; empty: not shown
	Kind     Kind
}

// side is where a retarder lies, seen from the nearest fiber.
type side int

const (
	alone side = iota // no fiber in the list
	inward
	outward
	between
)

// signColumns is the width of the sign of a layer.
const signColumns = 3

// Section draws a wall as a list of its layers, the first line inside, the
// last outside: the order in which it is built and read, not to scale. A
// retarder shows by an arrow and in words on which side of the fiber it lies,
// since that is the mistake the picture is for.
func (p Pen) Section(layers []SectionLayer, inside, outside string, width int) Drawing {
	p, width = p.ready(), clampWidth(width)
	if len(layers) == 0 {
		return empty(width)
	}
	var es []entry
	temps := false
	for i, l := range layers {
		where := sideOf(layers, i)
		es = append(es, entry{
			first: p.layerSign(l.Kind, where), more: p.layerSign(l.Kind, alone),
			head: withSide(l.Name, where), note: l.Note, right: l.TempText,
		})
		temps = temps || clean(l.TempText) != ""
	}
	lines := hang(edge("INSIDE", inside), width)
	lines = append(lines, slices.Concat(p.entries(es, width)...)...)
	lines = append(lines, hang(edge("OUTSIDE", outside), width)...)
	if temps {
		lines = append(lines, wrap("Temperatures: the face of each layer toward the inside.", width)...)
	}
	return finish(width, lines, sectionSentence(layers, inside, outside))
}

func edge(word, label string) string {
	if label = clean(label); label != "" {
		return word + ": " + label
	}
	return word
}

// sideOf finds the fiber nearest to a retarder; with fiber equally near on
// both sides it is between.
func sideOf(layers []SectionLayer, at int) side {
	if layers[at].Kind != Retarder {
		return alone
	}
	for d := 1; d < len(layers); d++ {
		before := at-d >= 0 && layers[at-d].Kind == Fiber
		after := at+d < len(layers) && layers[at+d].Kind == Fiber
		switch {
		case before && after:
			return between
		case after:
			return inward
		case before:
			return outward
		}
	}
	return alone
}

// layerSign is the layer's own sign; a retarder's carries the arrow toward the
// side it lies on, and inside is up.
func (p Pen) layerSign(k Kind, where side) string {
	g := p.Glyphs.layer(k)
	switch where {
	case inward:
		return g + p.Glyphs.up + g
	case outward:
		return g + p.Glyphs.down + g
	case between:
		return p.Glyphs.up + g + p.Glyphs.down
	}
	return strings.Repeat(g, signColumns)
}

// sideWords says what the arrow shows.
func sideWords(where side) string {
	switch where {
	case inward:
		return "on the inside of the fiber"
	case outward:
		return "on the outside of the fiber"
	case between:
		return "between two layers of fiber"
	}
	return ""
}

func withSide(name string, where side) string {
	return strings.Join(present(clean(name), sideWords(where)), ", ")
}

func sectionSentence(layers []SectionLayer, inside, outside string) string {
	parts := make([]string, len(layers))
	for i, l := range layers {
		name := strings.Join(present(clean(l.Name), sideWords(sideOf(layers, i))), " ")
		temp := clean(l.TempText)
		if temp != "" {
			temp += " at its inside face"
		}
		parts[i] = aside(name, l.Note, temp)
	}
	return "From " + aside("inside", inside) + " to " + aside("outside", outside) +
		": " + unstop(strings.Join(present(parts...), ", then ")) + "."
}
