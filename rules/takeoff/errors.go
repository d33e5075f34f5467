package takeoff

import (
	"errors"
	"fmt"
	"math"
)

// Sentinel errors; each is wrapped with the values that caused it.
var (
	// ErrSize: a size is not a number, not positive, or too large to be a house.
	ErrSize = errors.New("size out of range")
	// ErrCount: a count is negative, zero where one is needed, or too large.
	ErrCount = errors.New("count out of range")
	// ErrShare: a share lies outside its range.
	ErrShare = errors.New("share out of range")
	// ErrConvention: a way of counting that the method does not know.
	ErrConvention = errors.New("convention not accepted here")
	// ErrOpenings: openings are larger than the wall or cannot stand in it.
	ErrOpenings = errors.New("openings do not fit the wall")
	// ErrTooWide: a bay is wider than every product offered.
	ErrTooWide = errors.New("bay wider than the product")
	// ErrStock: a piece to cut is longer than the stock it is cut from.
	ErrStock = errors.New("piece longer than stock")
	// ErrNothing: no bay is left to fill.
	ErrNothing = errors.New("nothing to insulate")
	// ErrUncovered: pieces do not cover the bays they were cut for.
	ErrUncovered = errors.New("bays left uncovered")
)

const (
	maxSizeIn  = 120_000.0 // 10,000 ft: longer is a typing mistake
	maxHighIn  = 1_200.0   // 100 ft of wall height
	maxOpening = 10_000    // openings in one wall
	maxBays    = 200_000   // bays in one layout
	maxRuns    = 1_000     // lengths in one wall
	maxAreaFt2 = 10_000_000.0
)

func sizeBetween(name string, v, low, high float64) error {
	if math.IsNaN(v) || v < low || v > high {
		return fmt.Errorf("%w: %s %v, accepted %v to %v", ErrSize, name, v, low, high)
	}
	return nil
}

// positive accepts sizes above 1/64 in up to high.
func positive(name string, v, high float64) error {
	return sizeBetween(name, v, 1.0/64, high)
}

func countBetween(name string, v, low, high int) error {
	if v < low || v > high {
		return fmt.Errorf("%w: %s %d, accepted %d to %d", ErrCount, name, v, low, high)
	}
	return nil
}

func shareBetween(name string, v, low, high float64) error {
	if math.IsNaN(v) || v < low || v > high {
		return fmt.Errorf("%w: %s %v, accepted %v to %v", ErrShare, name, v, low, high)
	}
	return nil
}

func wrapf(sentinel error, format string, args ...any) error {
	return fmt.Errorf("%w: "+format, append([]any{sentinel}, args...)...)
}
