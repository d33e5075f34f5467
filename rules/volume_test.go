package rules

import (
	"math"
	"slices"
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

// aBox is a box of whole-number points, both ends included, on each axis.
type aBox [][2]int

func (x aBox) holds(point []int) bool {
	for axis, s := range x {
		if point[axis] < s[0] || point[axis] > s[1] {
			return false
		}
	}
	return true
}

// countPoints counts one by one the whole-number points from -20 to 20 on each
// axis for which a question is answered yes.
func countPoints(axes int, ask func([]int) bool) int {
	n, point := 0, make([]int, axes)
	var walk func(int)
	walk = func(axis int) {
		if axis == axes {
			if ask(point) {
				n++
			}
			return
		}
		for v := -20; v <= 20; v++ {
			point[axis] = v
			walk(axis + 1)
		}
	}
	walk(0)
	return n
}

// spans turns boxes of points into the tests of a book.
func spans(t *testing.T, b *Book, boxes []aBox) [][]test {
	t.Helper()
	var all [][]test
	for _, x := range boxes {
		var tests []test
		for axis, s := range x {
			tests = append(tests, span(b, t, axis, float64(s[0]), float64(s[1]))...)
		}
		all = append(all, tests)
	}
	return all
}

// Points in use while bays are filled and chimneys are cut out of them, each
// step against a count point by point.
func TestSubtractionCountsPoints(t *testing.T) {
	steps := []struct {
		fill bool
		aBox
	}{
		{true, aBox{{-4, 9}, {2, 8}, {0, 5}}},
		{true, aBox{{6, 14}, {-3, 4}, {3, 11}}},
		{false, aBox{{5, 7}, {0, 20}, {-2, 4}}},
		{true, aBox{{7, 7}, {3, 3}, {-20, 20}}},
		{false, aBox{{-20, 20}, {4, 4}, {2, 9}}},
		{true, aBox{{5, 7}, {4, 6}, {4, 4}}},
	}
	b := axes(t, 3)
	var boxes []aBox
	for _, s := range steps {
		boxes = append(boxes, s.aBox)
	}
	all := spans(t, b, boxes)
	g := b.grid(all...)
	var lit []box
	for i, s := range steps {
		x := g.box(all[i])
		var next []box
		for _, piece := range lit {
			next = append(next, g.without(piece, x)...)
		}
		if s.fill {
			next = append(next, x)
		}
		lit = next
		want := countPoints(3, func(p []int) bool {
			in := false
			for _, s := range steps[:i+1] {
				if s.holds(p) {
					in = s.fill
				}
			}
			return in
		})
		require.Equal(t, want, points(g, lit), "step %d", i+1)
	}
}

// Areas of unions as unit squares, apart, touching, crossing and one inside
// another, against a count square by square.
func TestUnionOfRectangles(t *testing.T) {
	for _, boxes := range [][]aBox{
		{{{-6, -2}, {1, 3}}, {{-1, 4}, {1, 3}}},
		{{{-8, 8}, {0, 1}}, {{0, 1}, {-7, 7}}},
		{{{-9, 5}, {-9, 9}}, {{-2, 2}, {-2, 2}}, {{3, 11}, {8, 12}}},
		{{{1, 4}, {1, 9}}, {{3, 7}, {5, 12}}, {{2, 6}, {2, 6}}, {{-5, 5}, {6, 6}}},
	} {
		b := axes(t, 2)
		all := spans(t, b, boxes)
		g := b.grid(all...)
		want := countPoints(2, func(p []int) bool {
			return slices.ContainsFunc(boxes, func(x aBox) bool { return x.holds(p) })
		})
		require.Equal(t, want, points(g, union(t, g, g.boxes(all))))
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
