package heat

import (
	"fmt"
	"math"
)

// MaxPaths is how many ways straight through an assembly may have: four
// bridged layers of eight parts each, more than any wall drawn by hand.
const MaxPaths = 4096

// Bounds are the R of one assembly by the two simple assumptions about how
// heat spreads sideways, and their mean. The R a full two-dimensional solution
// finds is never below Isothermal nor above Parallel.
type Bounds struct {
	Isothermal float64 // every layer boundary at one temperature: heat spreads freely
	Mean       float64 // ISO 6946: the mean of the two limits
	Parallel   float64 // no sideways flow at all: the usual figure for wood frame in the US
}

// BoundsOf gives the three R of an assembly listed from one side to the other,
// films included. Two or more bridged layers are taken as lying across each
// other, so the share of each combined path is the product of the shares
// (ISO 6946).
//
// Errors: ErrOutOfRange, ErrShares, ErrTooManyPaths, ErrNoResistance.
func BoundsOf(layers []Layer) (Bounds, error) {
	if err := checkLayers(layers); err != nil {
		return Bounds{}, err
	}
	low := 0.0
	for _, l := range layers {
		low += l.isothermalR()
	}
	high := 1 / sumU(layers, 1, 0)
	if high < leastR {
		return Bounds{}, fmt.Errorf("%w: one path has none", ErrNoResistance)
	}
	// Without bridging both are the same sum, worked out in another order;
	// the last digit must not turn the bounds round.
	high = math.Max(high, low)
	return Bounds{Isothermal: low, Mean: low + (high-low)/2, Parallel: high}, nil
}

// checkLayers checks each layer and how many paths they make together.
func checkLayers(layers []Layer) error {
	paths := 1
	for i, l := range layers {
		if err := l.check(); err != nil {
			return fmt.Errorf("layer %d: %w", i+1, err)
		}
		if paths *= len(l); paths > MaxPaths {
			return fmt.Errorf("%w: more than %d", ErrTooManyPaths, MaxPaths)
		}
	}
	return nil
}

// sumU adds up the transmittances of all paths through the layers, without
// listing the paths. A path without any R makes it infinite.
func sumU(layers []Layer, share, r float64) float64 {
	for i, l := range layers {
		if len(l) == 1 {
			r += l[0].R
			continue
		}
		u := 0.0
		for _, p := range l {
			if p.Share > 0 {
				u += sumU(layers[i+1:], share*p.Share, r+p.R)
			}
		}
		return u
	}
	return share / r
}
