package rank

import (
	"fmt"
	"math"
)

// Scale turns a measured quantity into a value: 1 at Best, 0 at Worst, a
// straight line between, held at 0 and 1 beyond. Best may lie below Worst
// (dollars) or above (decibels). Both anchors are in the quantity's own unit.
type Scale struct{ Best, Worst float64 }

// Check reports anchors that are no finite numbers or coincide (ErrScale).
func (s Scale) Check() error {
	if !finite(s.Best) || !finite(s.Worst) || s.Best == s.Worst {
		return fmt.Errorf("%w: best %v, worst %v", ErrScale, s.Best, s.Worst)
	}
	return nil
}

// Value gives the value of x, 0 to 1, and whether x lay beyond an anchor and
// was held there. A quantity that is no number, or a scale that fails Check,
// gives NaN, which Score refuses: an unknown must not pass for a bad value.
func (s Scale) Value(x float64) (v float64, clamped bool) {
	if math.IsNaN(x) || s.Check() != nil {
		return math.NaN(), false
	}
	rising := s.Best > s.Worst
	switch {
	case x == s.Best:
		return 1, false
	case x == s.Worst:
		return 0, false
	case (x > s.Best) == rising:
		return 1, true
	case (x < s.Worst) == rising:
		return 0, true
	}
	return along(s.Worst, s.Best, x), false
}

// At gives the quantity whose value is v, with v held to 0..1: the way back
// from "the value it would need" to "the price it would need". NaN as Value.
func (s Scale) At(v float64) float64 {
	if math.IsNaN(v) || s.Check() != nil {
		return math.NaN()
	}
	v = clamp(v, 0, 1)
	return s.Worst*(1-v) + s.Best*v
}

// Point is one corner of a Curve: at quantity X the value is V.
type Point struct{ X, V float64 }

// Curve is a scale with corners: straight lines between points in rising X,
// held at the first and the last value beyond them. Values either never rise
// or never fall along it, so that more of the quantity is never good and bad.
type Curve []Point

// Check reports fewer than two points, X that do not rise, values outside 0..1
// or values that turn back (ErrScale).
func (c Curve) Check() error {
	if len(c) < 2 {
		return fmt.Errorf("%w: %d points, at least 2", ErrScale, len(c))
	}
	up, down := false, false
	for i, p := range c {
		if !finite(p.X) || !(p.V >= 0 && p.V <= 1) {
			return fmt.Errorf("%w: point %d is (%v, %v)", ErrScale, i, p.X, p.V)
		}
		if i == 0 {
			continue
		}
		if p.X <= c[i-1].X {
			return fmt.Errorf("%w: %v follows %v", ErrScale, p.X, c[i-1].X)
		}
		up, down = up || p.V > c[i-1].V, down || p.V < c[i-1].V
	}
	if up && down {
		return fmt.Errorf("%w: values rise and fall", ErrScale)
	}
	return nil
}

// Value gives the value of x, 0 to 1, and whether x lay beyond the first or
// last point. NaN as for Scale.
func (c Curve) Value(x float64) (v float64, clamped bool) {
	if math.IsNaN(x) || c.Check() != nil {
		return math.NaN(), false
	}
	last := len(c) - 1
	switch {
	case x < c[0].X:
		return c[0].V, true
	case x > c[last].X:
		return c[last].V, true
	}
	i := 1
	for x > c[i].X {
		i++
	}
	a, b := c[i-1], c[i]
	if x == b.X {
		return b.V, false
	}
	// Rounding must not carry the value past its neighbours: the curve would
	// then turn back by one last digit.
	v = a.V + (b.V-a.V)*along(a.X, b.X, x)
	return clamp(v, math.Min(a.V, b.V), math.Max(a.V, b.V)), false
}

// along gives how far x lies on the way from a to b. Halving first keeps
// anchors at opposite ends of the float range from overflowing.
func along(a, b, x float64) float64 {
	span := b - a
	if math.IsInf(span, 0) {
		return (x/2 - a/2) / (b/2 - a/2)
	}
	return (x - a) / span
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func clamp(x, low, high float64) float64 { return math.Min(math.Max(x, low), high) }
