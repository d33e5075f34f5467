package budget

import (
	"errors"
	"fmt"
)

// Sentinel errors; each is wrapped with the values that caused it.
var (
	// ErrNoPlaces: there is nothing to choose for.
	ErrNoPlaces = errors.New("no places")
	// ErrNoOptions: a place has no option, so no set is complete.
	ErrNoOptions = errors.New("place without options")
	// ErrID: an id is empty, or two things that must differ share one.
	ErrID = errors.New("id empty or used twice")
	// ErrSize: more places, options or price lines than MaxPlaces, MaxOptions
	// or MaxLines.
	ErrSize = errors.New("too many to weigh")
	// ErrCost: a cost is negative or above MaxCost.
	ErrCost = errors.New("cost out of range")
	// ErrValue: a value is not a number, or beyond MaxValue either way, or
	// negative where only gains make sense.
	ErrValue = errors.New("value out of range")
	// ErrPack: a pack that holds nothing or costs less than nothing, or an amount
	// of none that there is.
	ErrPack = errors.New("pack out of range")
	// ErrBudget: a budget is negative.
	ErrBudget = errors.New("budget out of range")
	// ErrTooManyStates: even an answer counted in dollars needs more states than
	// the cap.
	ErrTooManyStates = errors.New("too many states for an exact answer")
	// ErrNoLines: there is no price to add up.
	ErrNoLines = errors.New("no price lines")
	// ErrRange: a price's low, typical and high are not in that order.
	ErrRange = errors.New("prices not in order")
	// ErrShare: a share lies outside 0 to 1.
	ErrShare = errors.New("share out of range")
)

// Limits of what is accepted. They keep every sum inside 63 bits and are far
// beyond any house.
const (
	MaxPlaces  = 4_000
	MaxOptions = 1_000
	MaxLines   = 1_000
	MaxCost    = 100_000_000_000 // cents: a billion dollars for one option or line
	MaxValue   = 1_000_000.0
	// DefaultMaxStates caps the partial sets kept over all places: some 50 MB.
	DefaultMaxStates = 2_000_000
)

func wrapf(sentinel error, format string, args ...any) error {
	return fmt.Errorf("%w: "+format, append([]any{sentinel}, args...)...)
}
