package budget

import (
	"math"

	"battwright/rules/units"
)

// Option is one way to do a place.
type Option struct {
	ID    string      // not empty, its own within the place
	Cost  units.Cents // 0 to MaxCost
	Value float64     // points, -MaxValue to MaxValue, counted to nine decimals
}

// Place is one surface of the house with the options it may get; exactly one
// of them is chosen.
type Place struct {
	ID      string // not empty, its own within the house
	Options []Option
}

// Set is one option for each place.
type Set struct {
	Cost  units.Cents
	Value float64
	// Picks holds, for each place in the order given, the index of its option
	// in Place.Options.
	Picks []int
	// IDs holds the same options by id.
	IDs []string
}

func checkPlaces(places []Place) error {
	if len(places) == 0 {
		return ErrNoPlaces
	}
	if len(places) > MaxPlaces {
		return wrapf(ErrSize, "%d places, accepted up to %d", len(places), MaxPlaces)
	}
	seen := make(map[string]bool, len(places))
	for i, p := range places {
		if p.ID == "" || seen[p.ID] {
			return wrapf(ErrID, "place %d, id %q", i+1, p.ID)
		}
		seen[p.ID] = true
		if err := checkOptions(p); err != nil {
			return err
		}
	}
	return nil
}

func checkOptions(p Place) error {
	if len(p.Options) == 0 {
		return wrapf(ErrNoOptions, "%q", p.ID)
	}
	if len(p.Options) > MaxOptions {
		return wrapf(ErrSize, "%d options at %q, accepted up to %d", len(p.Options), p.ID, MaxOptions)
	}
	seen := make(map[string]bool, len(p.Options))
	for i, o := range p.Options {
		if o.ID == "" || seen[o.ID] {
			return wrapf(ErrID, "option %d at %q, id %q", i+1, p.ID, o.ID)
		}
		seen[o.ID] = true
		if o.Cost < 0 || o.Cost > MaxCost {
			return wrapf(ErrCost, "%d cents for %q at %q", int64(o.Cost), o.ID, p.ID)
		}
		if math.IsNaN(o.Value) || math.Abs(o.Value) > MaxValue {
			return wrapf(ErrValue, "%v for %q at %q", o.Value, o.ID, p.ID)
		}
	}
	return nil
}
