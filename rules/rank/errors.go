package rank

import "errors"

// Sentinel errors; each is wrapped with the offending figure.
var (
	// ErrEmpty says that there is nothing to work on.
	ErrEmpty = errors.New("rank: nothing given")
	// ErrLength says that two lists that belong together differ in length.
	ErrLength = errors.New("rank: lengths differ")
	// ErrScale says that a scale's anchors cannot order anything.
	ErrScale = errors.New("rank: unusable scale")
	// ErrValue says that a value lies outside 0..1 or is no number.
	ErrValue = errors.New("rank: value outside 0 to 1")
	// ErrWeight says that weights are negative, no numbers or do not add up to 1.
	ErrWeight = errors.New("rank: unusable weights")
	// ErrLevel says that a priority level lies outside 0..5 or is no number.
	ErrLevel = errors.New("rank: priority level outside 0 to 5")
	// ErrID says that an option's id is empty or used twice.
	ErrID = errors.New("rank: unusable option id")
	// ErrNoContender says that no option is left to win.
	ErrNoContender = errors.New("rank: every option is excluded")
	// ErrShare says that shares are negative, no numbers or do not add up to 1.
	ErrShare = errors.New("rank: unusable shares")
	// ErrParts says that parts are no finite numbers of a size that can be rounded.
	ErrParts = errors.New("rank: unusable parts")
	// ErrBox says that a low/high range does not hold its option's values.
	ErrBox = errors.New("rank: range does not hold the value")
)
