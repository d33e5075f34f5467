package budget

import (
	"math"

	"battwright/rules/units"
)

// A price known as low, typical and high is taken as triangular: nothing
// outside low to high, most likely at typical, falling in straight lines to
// both ends. Each end may coincide with the typical price, and all three may
// be one fixed price.

func checkPrice(r units.Range[units.Cents]) error {
	if r.Low < 0 || r.High > MaxCost {
		return wrapf(ErrCost, "%d to %d cents", int64(r.Low), int64(r.High))
	}
	if r.Low > r.Typical || r.Typical > r.High {
		return wrapf(ErrRange, "low %d, typical %d, high %d cents", int64(r.Low), int64(r.Typical), int64(r.High))
	}
	return nil
}

// triangle is a price measured from its low end: it spreads from 0 to width
// and peaks at mode. Measured so, squares of large amounts never cancel.
type triangle struct{ width, mode float64 }

func triangleOf(r units.Range[units.Cents]) triangle {
	return triangle{width: float64(r.High - r.Low), mode: float64(r.Typical - r.Low)}
}

func (t triangle) mean() float64 { return (t.width + t.mode) / 3 }

func (t triangle) variance() float64 {
	return (t.width*t.width + t.mode*t.mode - t.width*t.mode) / 18
}

// share is the distribution function.
func (t triangle) share(x float64) float64 {
	switch {
	case x >= t.width: // first: a fixed price is reached at once
		return 1
	case x <= 0:
		return 0
	case x <= t.mode:
		return x * x / (t.width * t.mode)
	}
	rest := t.width - x
	return 1 - rest*rest/(t.width*(t.width-t.mode))
}

// area is the integral of share from the low end to x.
func (t triangle) area(x float64) float64 {
	switch {
	case x <= 0:
		return 0
	case x >= t.width:
		return x - t.mean()
	case x <= t.mode:
		return x * x * x / (3 * t.width * t.mode)
	}
	rest := t.width - x
	return x - t.mean() + rest*rest*rest/(3*t.width*(t.width-t.mode))
}

// point is the inverse of share for u in 0 to 1.
func (t triangle) point(u float64) float64 {
	if t.width == 0 {
		return 0
	}
	if u*t.width <= t.mode {
		return math.Sqrt(u * t.width * t.mode)
	}
	return t.width - math.Sqrt((1-u)*t.width*(t.width-t.mode))
}
