package rank

import "fmt"

// Strength is the word for how firmly an option wins.
type Strength int

// The three words, weakest first.
const (
	CloseCall Strength = iota
	FairlyClear
	Clear
)

// The bounds, in ways of a hundred to weigh the priorities, are this project's
// own convention; no source sets them.
const (
	clearFrom       = 80
	fairlyClearFrom = 60
)

// String gives the word itself.
func (s Strength) String() string {
	switch s {
	case Clear:
		return "clear"
	case FairlyClear:
		return "fairly clear"
	}
	return "close call"
}

// StrengthOf gives the word for an option that wins in winsOf100 of 100 ways
// to weigh the priorities. It takes the rounded count, the one the reader sees,
// so that word and number never disagree. shaky says that the winner changes
// when weak figures take their low or high end: "clear" is then barred.
// ErrShare outside 0..100.
func StrengthOf(winsOf100 int, shaky bool) (Strength, error) {
	switch {
	case winsOf100 < 0 || winsOf100 > 100:
		return CloseCall, fmt.Errorf("%w: %d of 100", ErrShare, winsOf100)
	case winsOf100 >= clearFrom && !shaky:
		return Clear, nil
	case winsOf100 >= fairlyClearFrom:
		return FairlyClear, nil
	}
	return CloseCall, nil
}
