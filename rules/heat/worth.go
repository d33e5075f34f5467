package heat

import (
	"fmt"
	"math"
)

// Rates are yearly and real (without inflation): 0.03 is 3 %. They may be
// negative down to -50 %; years may be broken, 0 to 200.

// SimplePayback is how many years the yearly saving takes to return the cost,
// both in dollars, no interest. A cost of nothing is paid back at once.
// Errors: ErrOutOfRange, ErrNoSaving.
func SimplePayback(cost, savedPerYear float64) (float64, error) {
	if err := amounts(named{"cost", cost}); err != nil {
		return 0, err
	}
	if err := within("yearly saving", savedPerYear, -limit, limit); err != nil {
		return 0, err
	}
	if cost == 0 {
		return 0, nil
	}
	if savedPerYear <= 1/limit {
		return 0, fmt.Errorf("%w: %v a year", ErrNoSaving, savedPerYear)
	}
	return cost / savedPerYear, nil
}

// SinglePresentWorth is what a dollar in that many years is worth today:
// 1/(1+d)^n. Error: ErrOutOfRange.
func SinglePresentWorth(rate, years float64) (float64, error) {
	if err := terms(rate, years); err != nil {
		return 0, err
	}
	return math.Exp(-years * math.Log1p(rate)), nil
}

// PresentWorth is what a dollar at the end of each year is worth today:
// (1-(1+d)^-n)/d, n when d is 0. Error: ErrOutOfRange.
func PresentWorth(rate, years float64) (float64, error) {
	return GrowingPresentWorth(rate, 0, years)
}

// GrowingPresentWorth is PresentWorth for a saving that grows by growth a
// year, as when fuel gets dearer: with q = (1+e)/(1+d), the sum
// q + q^2 + ... + q^n; n when both rates are equal. Error: ErrOutOfRange.
func GrowingPresentWorth(rate, growth, years float64) (float64, error) {
	if err := terms(rate, years); err != nil {
		return 0, err
	}
	if err := within("price growth", growth, -0.5, 1); err != nil {
		return 0, err
	}
	q := math.Log1p(growth) - math.Log1p(rate)
	if q == 0 {
		return years, nil
	}
	// The closed form q(1-q^n)/(1-q), written so that nearly equal rates do
	// not cancel.
	return math.Exp(q) * math.Expm1(years*q) / math.Expm1(q), nil
}

// DiscountedPayback is SimplePayback with interest: the years n at which the
// present worth of the savings equals the cost. Errors: ErrOutOfRange,
// ErrNoSaving when the saving never covers the interest.
func DiscountedPayback(cost, savedPerYear, rate float64) (float64, error) {
	simple, err := SimplePayback(cost, savedPerYear)
	if err != nil {
		return 0, err
	}
	if err := terms(rate, 0); err != nil {
		return 0, err
	}
	if rate == 0 {
		return simple, nil
	}
	left := 1 - rate*simple
	if left <= 0 {
		return 0, fmt.Errorf("%w: interest takes all of %v a year", ErrNoSaving, savedPerYear)
	}
	return -math.Log(left) / math.Log1p(rate), nil
}

// terms checks a discount rate and a number of years.
func terms(rate, years float64) error {
	if err := within("discount rate", rate, -0.5, 1); err != nil {
		return err
	}
	return within("years", years, 0, 200)
}
