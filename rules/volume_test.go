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

// points counts the whole-number points of boxes that do not overlap.
func points(pieces []box) int {
	total := 0
	for _, p := range pieces {
		n := 1
		for _, s := range p {
			n *= int(math.Floor(s.hi)) - int(math.Ceil(s.lo)) + 1
		}
		total += n
	}
	return total
}

// rest gives what the boxes leave of a region as pieces that do not overlap:
// hole after hole, each filled before the next is looked for.
func rest(t *testing.T, region box, by ...box) []box {
	t.Helper()
	var out []box
	for {
		steps := maxSteps
		found, ok := hole(region, slices.Concat(by, out), &steps)
		require.True(t, ok)
		if found == nil {
			return out
		}
		out = append(out, found)
	}
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

// on makes boxes of points those of a book.
func (x aBox) on(t *testing.T, b *Book) box {
	t.Helper()
	where := Where{}
	for axis, s := range x {
		name := b.facts[axis].Name
		where = all(where, num(name, "at_least", float64(s[0])), num(name, "at_most", float64(s[1])))
	}
	tests, problems := b.tests(where)
	require.Empty(t, problems)
	return b.box(tests)
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
	var lit []box
	for i, s := range steps {
		x := s.on(t, b)
		var next []box
		for _, piece := range lit {
			next = append(next, rest(t, piece, x)...)
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
		require.Equal(t, want, points(lit), "step %d", i+1)
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
		var pieces []box
		for i, x := range boxes {
			var before []box
			for _, y := range boxes[:i] {
				before = append(before, y.on(t, b))
			}
			pieces = append(pieces, rest(t, x.on(t, b), before...)...)
		}
		want := countPoints(2, func(p []int) bool {
			return slices.ContainsFunc(boxes, func(x aBox) bool { return x.holds(p) })
		})
		require.Equal(t, want, points(pieces))
	}
}

// Source "sieve": a cube without a corner cube, in two to five dimensions.
func TestCubeWithoutCorner(t *testing.T) {
	p := readPublished(t)
	for _, c := range p.Corners.Cases {
		b := axes(t, c[0])
		cube, corner := make(aBox, c[0]), make(aBox, c[0])
		for axis := range c[0] {
			cube[axis], corner[axis] = [2]int{1, c[1]}, [2]int{1, c[2]}
		}
		left := rest(t, cube.on(t, b), corner.on(t, b))
		require.Equal(t, c[3], points(left))
		require.LessOrEqual(t, len(left), c[0]) // one slab per axis is enough
		require.Empty(t, rest(t, cube.on(t, b), append(left, corner.on(t, b))...))
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
	// Each box holds where one pair of facts is no and no.
	var by []box
	for i := 0; i < n; i += 2 {
		tests, problems := b.tests(Where{facts[i].Name: false, facts[i+1].Name: false})
		require.Empty(t, problems)
		by = append(by, b.box(tests))
	}
	steps := 3
	_, ok := hole(b.box(nil), by, &steps)
	require.False(t, ok)
	steps = maxSteps
	found, ok := hole(b.box(nil), by, &steps)
	require.True(t, ok)
	require.NotNil(t, found)
}
