package wetting

import (
	"errors"
	"fmt"
)

// Sentinel errors. Every error of this package wraps one of them and names the
// value that was refused.
var (
	ErrMaterial  = errors.New("impossible material")
	ErrSection   = errors.New("impossible section")
	ErrClimate   = errors.New("impossible climate")
	ErrStep      = errors.New("impossible time step")
	ErrUnsettled = errors.New("the balance of a step did not settle")
)

// within is written so that NaN fails it.
func within(x, low, high float64) bool { return x >= low && x <= high }

// need gives an error of that kind unless x lies in low to high.
func need(kind error, what string, x, low, high float64) error {
	if within(x, low, high) {
		return nil
	}
	return fmt.Errorf("%w: %s %v; want %v to %v", kind, what, x, low, high)
}
