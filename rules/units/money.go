// Package units holds the one definition of every unit factor, of money and of
// the ways a number is shown. Every number a person sees passes through a
// System method; the files and the calculators keep US units throughout.
package units

import (
	"fmt"
	"math"
	"strconv"
)

// Cents is an amount of money in whole US cents.
type Cents int64

// FromDollars rounds a dollar amount to whole cents, half away from zero.
// Amounts beyond what an int64 of cents can hold are clamped.
func FromDollars(usd float64) Cents {
	c := math.Round(usd * 100)
	switch {
	case math.IsNaN(c):
		return 0
	case c >= math.MaxInt64:
		return math.MaxInt64
	case c <= math.MinInt64:
		return math.MinInt64
	}
	return Cents(c)
}

// Dollars gives the amount as a float for ratios; money itself stays in cents.
func (c Cents) Dollars() float64 { return float64(c) / 100 }

// Number is what a Range can be made of.
type Number interface {
	~int | ~int64 | ~float64
}

// Range is an estimate: the low, the typical and the high figure.
type Range[T Number] struct {
	Low     T `toml:"low,required"`
	Typical T `toml:"typical,required"`
	High    T `toml:"high,required"`
}

// Rises reports whether the figures are in order.
func (r Range[T]) Rises() bool { return r.Low <= r.Typical && r.Typical <= r.High }

// Same is a range without spread.
func Same[T Number](v T) Range[T] { return Range[T]{v, v, v} }

// Plus adds two ranges end by end: the widest honest sum, as if all prices
// moved together.
func (r Range[T]) Plus(o Range[T]) Range[T] {
	return Range[T]{r.Low + o.Low, r.Typical + o.Typical, r.High + o.High}
}

// CentsOver multiplies a range of dollars per unit by an amount of that unit.
func CentsOver(usdPerUnit Range[float64], amount float64) Range[Cents] {
	return Range[Cents]{
		FromDollars(usdPerUnit.Low * amount),
		FromDollars(usdPerUnit.Typical * amount),
		FromDollars(usdPerUnit.High * amount),
	}
}

// smallMoney, in cents: below it the cents are a good part of an amount.
const smallMoney = 1000

// Money shows an amount in whole dollars with thousands marks: "$1,240"; a small
// one with its cents, as they would be rounded away: "$0.50". It is for amounts
// somebody typed: a budget, a bid. What is worked out from rough
// prices is shown by MoneyRange, MoneyOf or MoneyAbout.
func (s System) Money(c Cents) string {
	if c%100 != 0 && max(c, -c) < smallMoney {
		return s.MoneyExact(c)
	}
	d := int64(math.Round(float64(c) / 100))
	if d < 0 {
		return "-$" + grouped(-d)
	}
	return "$" + grouped(d)
}

// MoneyExact shows an amount to the cent: "$1.25". Used for prices per area.
func (System) MoneyExact(c Cents) string {
	sign := ""
	if c < 0 {
		sign, c = "-", -c
	}
	return fmt.Sprintf("%s$%s.%02d", sign, grouped(int64(c)/100), int64(c)%100)
}

// roughStep is the step, in cents, to which an amount is rounded that is known
// as well as a spread says: two figures, or finer where three such steps are
// wider than the spread, because most of the amount is at prices somebody was
// told. Never less than a dollar.
func roughStep(c, spread Cents) Cents {
	size := Cents(100)
	for most := max(c, -c); size <= most/100; {
		size *= 10
	}
	for size > 100 && size > spread/3 {
		size /= 10
	}
	return size
}

func roundTo(c, step Cents) Cents {
	if c < 0 {
		return -roundTo(-c, step)
	}
	return (c + step/2) / step * step
}

// MoneyOf shows one amount of a range with two figures, or finer where the
// spread of the range is small: "$5,500".
func (s System) MoneyOf(c Cents, r Range[Cents]) string {
	if r.Low == r.High && max(c, -c) < smallMoney {
		return s.Money(c) // told, not worked out from rough prices
	}
	return s.Money(roundTo(c, roughStep(c, r.High-r.Low)))
}

// MoneyGap is by how much two amounts differ of which one is worked out as well
// as a range says; 0 when that cannot be told.
func MoneyGap(gap Cents, r Range[Cents]) Cents {
	return roundTo(gap, roughStep(r.Typical, r.High-r.Low))
}

// MoneyAbout shows an amount worked out from rough prices with two figures:
// "$1,100", "$84". What would round to nothing is "less than $1".
func (s System) MoneyAbout(c Cents) string {
	if size := max(c, -c); size > 0 && size < 50 {
		return "less than $1"
	}
	return s.Money(roundTo(c, roughStep(c, max(c, -c))))
}

// MoneyRange shows low to high with two figures, or finer where the spread is
// small: "$340 to $470". An amount without a spread is shown to the dollar;
// ends that round to the same, as one.
func (s System) MoneyRange(r Range[Cents]) string {
	low, high := s.MoneyOf(r.Low, r), s.MoneyOf(r.High, r)
	if low == high {
		return low
	}
	return low + " to " + high
}

// PerArea shows a price given in dollars per square foot: "$1.15 a ft2".
func (s System) PerArea(usd float64) string {
	if s == SI {
		return s.MoneyExact(FromDollars(perArea.turn(usd))) + " a m2"
	}
	return s.MoneyExact(FromDollars(usd)) + " a ft2"
}

func grouped(n int64) string {
	s := strconv.FormatInt(n, 10)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
