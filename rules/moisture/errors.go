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
)

// within is written so that NaN fails it.
func within(x, lo, hi float64) bool { return x >= lo && x <= hi }

// refuse wraps a sentinel with the name and value of what was wrong.
func refuse(kind error, what string, value float64) error {
	return fmt.Errorf("%w: %s %v", kind, what, value)
}
