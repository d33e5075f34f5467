// Package heat works out how much heat goes through a surface, what a blanket
// is worth once it is in place, and what that costs in a year.
//
// Numbers in, numbers out: nothing here reads a file, keeps a state or knows a
// material by name. Every thermal resistance R is in h.ft2.F/Btu, every
// transmittance U in Btu/(h.ft2.F), thicknesses in inches, depths in feet,
// temperatures in degrees Fahrenheit and heat in Btu unless a name says
// otherwise. Resistances of films, boards and blankets are passed in.
//
// No function panics. An input that cannot be (not a number, infinite,
// negative where that has no sense, beyond the limit) gives one of the errors
// below, wrapped with the name of the input and its value.
package heat

import (
	"errors"
	"fmt"
	"math"
)

// The ways an input can be impossible.
var (
	ErrOutOfRange   = errors.New("number out of range")
	ErrShares       = errors.New("area shares must each be 0 to 1 and add up to 1")
	ErrNoResistance = errors.New("no thermal resistance between the two sides")
	ErrTooManyPaths = errors.New("too many heat paths")
	ErrTooSqueezed  = errors.New("blanket squeezed beyond what the curve covers")
	ErrLabel        = errors.New("label R too high for its thickness: better than still air")
	ErrNoRoom       = errors.New("no room left for the blanket")
	ErrDepths       = errors.New("the lower depth must be below the upper one")
)

// limit bounds every input. It is far above anything in a house and low enough
// that products and quotients of a few inputs stay finite.
const limit = 1e9

// leastR is the R below which two sides count as touching: quotients by
// anything smaller would not stay finite.
const leastR = 1 / limit

// shareSlack is how far shares may miss 1 and still be taken as whole: typed
// percentages add up to this, a forgotten path does not.
const shareSlack = 1e-6

// within says whether v is a number from low to high; NaN is not.
func within(name string, v, low, high float64) error {
	if v >= low && v <= high {
		return nil
	}
	return fmt.Errorf("%w: %s is %v, want %v to %v", ErrOutOfRange, name, v, low, high)
}

// named pairs an input with the word used for it in an error.
type named struct {
	name string
	v    float64
}

// amounts checks that every input is a number from 0 to the limit.
func amounts(inputs ...named) error {
	for _, in := range inputs {
		if err := within(in.name, in.v, 0, limit); err != nil {
			return err
		}
	}
	return nil
}

// positive checks that every input is a number above 0, up to the limit. The
// floor keeps a quotient by the input finite.
func positive(inputs ...named) error {
	for _, in := range inputs {
		if err := within(in.name, in.v, 1/limit, limit); err != nil {
			return err
		}
	}
	return nil
}

// whole checks that shares add up to 1.
func whole(sum float64) error {
	if math.Abs(sum-1) <= shareSlack {
		return nil
	}
	return fmt.Errorf("%w: they add up to %v", ErrShares, sum)
}
