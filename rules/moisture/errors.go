package moisture

import (
	"errors"
	"fmt"
)

// Sentinel errors. Every error returned by this package wraps one of them and
// carries the value that was refused.
var (
	ErrTemperature = errors.New("temperature outside the range of the formula")
	ErrPressure    = errors.New("impossible vapor pressure")
	ErrHumidity    = errors.New("impossible relative humidity")
	ErrLayer       = errors.New("impossible layer")
	ErrResistance  = errors.New("impossible resistance")
	ErrMonth       = errors.New("impossible month")
	ErrLimit       = errors.New("impossible limit")
	ErrTooMany     = errors.New("too many layers or slices")
)

// within is written so that NaN fails it.
func within(x, lo, hi float64) bool { return x >= lo && x <= hi }

// refuse wraps a sentinel with the name and value of what was wrong.
func refuse(kind error, what string, value float64) error {
	return fmt.Errorf("%w: %s %v", kind, what, value)
}
