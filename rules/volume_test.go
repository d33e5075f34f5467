package rules

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// axes makes a book of plain numbers, for counting whole-number points in boxes.
func axes(t *testing.T, n int) *Book {
	t.Helper()
	var facts []Fact
	for i := range n {
		facts = append(facts, Fact{Name: string(rune('a' + i)), Type: Numeric, Min: -100, Max: 100})
	}
	return newBook(t, facts, nil)
}

func span(b *Book, t *testing.T, axis int, lo, hi float64) []test {
	t.Helper()
	name := b.facts[axis].Name
	tests, errs := b.compileAll([]Atom{num(name, Ge, lo), num(name, Le, hi)})
	require.Empty(t, errs)
	return tests
}

// points counts the whole-number points of boxes that do not overlap.
func points(g *grid, pieces []box) int {
	total := 0
	for _, p := range pieces {
		n := 1
		for axis := range g.dims {
			along := 0
			for _, c := range g.cellsOf(p, axis) {
				along += int(math.Floor(g.end(axis, c))) - int(math.Ceil(g.dims[axis].starts[c])) + 1
			}
			n *= along
		}
		total += n
	}
	return total
}

// union returns pieces that do not overlap and cover the boxes together.
func union(t *testing.T, g *grid, boxes []box) []box {
	t.Helper()
	var out []box
	for i, x := range boxes {
		pieces, ok := g.minus(x, boxes[:i])
		require.True(t, ok)
		out = append(out, pieces...)
	}
	return out
}

// Source "cuboids": points lit after each of four steps.
func TestSubtractionCountsCuboids(t *testing.T) {
	p := readPublished(t)
	b := axes(t, 3)
	var all [][]test
	for _, s := range p.Cuboids.Steps {
		var tests []test
		for axis := range 3 {
			tests = append(tests, span(b, t, axis, s.From, s.To)...)
		}
		all = append(all, tests)
	}
	g := b.grid(all...)
	var lit []box
	for i, s := range p.Cuboids.Steps {
		x := g.box(all[i])
		var next []box
		for _, piece := range lit {
			next = append(next, g.without(piece, x)...)
		}
		if s.On {
			next = append(next, x)
		}
		lit = next
		require.Equal(t, s.Count, points(g, lit), "step %d", i+1)
	}
}

// Source "rectangles": areas of unions, as unit squares named by their low corner.
func TestUnionOfRectangles(t *testing.T) {
	p := readPublished(t)
	for _, c := range p.Rectangles.Cases {
		b := axes(t, 2)
		var all [][]test
		for _, r := range c.Corners {
			all = append(all, append(span(b, t, 0, r[0], r[2]-1), span(b, t, 1, r[1], r[3]-1)...))
		}
		g := b.grid(all...)
		require.Equal(t, c.Area, points(g, union(t, g, g.boxes(all))))
	}
}

// Source "sieve": a cube without a corner cube, in two to five dimensions.
func TestCubeWithoutCorner(t *testing.T) {
	p := readPublished(t)
	for _, c := range p.Corners.Cases {
		b := axes(t, c[0])
		var cube, corner []test
		for axis := range c[0] {
			cube = append(cube, span(b, t, axis, 1, float64(c[1]))...)
			corner = append(corner, span(b, t, axis, 1, float64(c[2]))...)
		}
		g := b.grid(cube, corner)
		left, ok := g.minus(g.box(cube), []box{g.box(corner)})
		require.True(t, ok)
		require.Equal(t, c[3], points(g, left))
		require.LessOrEqual(t, len(left), c[0]) // one slab per axis is enough
		_, a := g.uncovered(g.box(cube), append(left, g.box(corner)))
		require.Equal(t, covered, a)
		_, a = g.uncovered(g.box(cube), left)
		require.Equal(t, open, a)
	}
}

// A question that outgrows the limit is left open, never answered wrongly.
func TestHardCoveringIsNotProved(t *testing.T) {
	const n = 20
	var facts []Fact
	for i := range n {
		facts = append(facts, Fact{Name: string(rune('a' + i)), Type: Boolean})
	}
	b := newBook(t, facts, nil)
	// Each box holds where one pair of facts is no and no: what is left over
	// takes 2^10 pieces to list.
	var by []box
	g := b.grid()
	for i := 0; i < n; i += 2 {
		tests, errs := b.compileAll([]Atom{{Fact: facts[i].Name, Op: Eq}, {Fact: facts[i+1].Name, Op: Eq}})
		require.Empty(t, errs)
		by = append(by, g.box(tests))
	}
	pieces, ok := g.minus(g.full, by)
	require.True(t, ok)
	require.Len(t, pieces, 1<<(n/2))
	steps := 3
	_, a := g.search(g.full, by, &steps)
	require.Equal(t, tooHard, a)
	_, a = g.uncovered(g.full, by)
	require.Equal(t, open, a)
}
