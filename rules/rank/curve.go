package rank

import (
	"fmt"
	"math"
)

// Point is one corner of a Curve: at quantity X the value is V.
type Point struct{ X, V float64 }

// Curve turns a measured quantity into a value: straight lines between points
// in rising X, held at the first and the last value beyond them. Values either
// never rise or never fall along it, so that more of the quantity is never good
// and bad.
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
// last point. A quantity that is no number, or a curve that fails Check, gives
// NaN, which Score refuses: an unknown must not pass for a bad value.
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
	v = a.V + (b.V-a.V)*((x-a.X)/(b.X-a.X))
	return min(max(v, min(a.V, b.V)), max(a.V, b.V)), false
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
