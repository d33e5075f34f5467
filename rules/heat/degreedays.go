package heat

import (
	"fmt"
	"math"
)

// monthDays are the days of each month, February as it is on average.
var monthDays = [12]float64{31, 28.25, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

const (
	// The spread of one month's mean temperature from year to year, F, by
	// Erbs, Klein and Beckman (1983): 1.45 - 0.0290 Tm + 0.0664 sy in C.
	// Cold months vary more, and so do places with a strong yearly swing.
	spreadBaseF  = 1.45*1.8 + 0.0290*32
	spreadPerF   = 0.0290
	spreadPerSwF = 0.0664

	// daySteepness shapes their bell of daily means around the month's mean,
	// in units of (month spread x root of days).
	daySteepness = 1.698
)

// DegreeDaysFromMonths estimates the heating and cooling degree days of a year
// (F-days) to the base baseF from the twelve monthly mean temperatures in F,
// January first. Days scatter around their month's mean, so months near the
// base give both kinds.
//
// The method is that of Erbs, Klein and Beckman (1983). Their steepness factor
// is often quoted times the root of the days in the month; that would leave
// single days within 1.5 F of the month's mean, which no weather record shows,
// so it is used here without. Expect 1 to 3 % on heating in most climates and
// too much of both where the sea keeps days alike.
//
// Error: ErrOutOfRange for a mean or base outside -150 to 150 F.
func DegreeDaysFromMonths(meansF [12]float64, baseF float64) (heating, cooling float64, err error) {
	if err := yearOf(meansF, baseF); err != nil {
		return 0, 0, err
	}
	swing := deviation(meansF)
	for i, t := range meansF {
		// Beyond 120 F the fitted spread would turn negative.
		month := math.Max(0, spreadBaseF-spreadPerF*t+spreadPerSwF*swing)
		spread := month * math.Sqrt(monthDays[i])
		heating += monthDays[i] * meanExcess(baseF-t, spread)
		cooling += monthDays[i] * meanExcess(t-baseF, spread)
	}
	return heating, cooling, nil
}

// yearOf checks twelve monthly means and a base, all in F.
func yearOf(meansF [12]float64, baseF float64) error {
	if err := within("base temperature", baseF, -150, 150); err != nil {
		return err
	}
	for i, t := range meansF {
		if err := within("mean temperature", t, -150, 150); err != nil {
			return fmt.Errorf("month %d: %w", i+1, err)
		}
	}
	return nil
}

// meanExcess is the mean of max(0, gap + scatter) over days that scatter with
// the given spread: spread (h/2 + ln(exp(-ah)+exp(ah))/(2a)), h = gap/spread,
// written so that no exponential can overflow.
func meanExcess(gap, spread float64) float64 {
	if spread == 0 {
		return math.Max(0, gap)
	}
	ah := math.Abs(daySteepness * gap / spread)
	if math.IsInf(ah, 0) {
		return math.Max(0, gap)
	}
	return math.Max(0, gap) + spread*math.Log1p(math.Exp(-2*ah))/(2*daySteepness)
}

// deviation is the population standard deviation of the monthly means.
func deviation(v [12]float64) float64 {
	mean, sum := 0.0, 0.0
	for _, x := range v {
		mean += x / 12
	}
	for _, x := range v {
		sum += (x - mean) * (x - mean)
	}
	return math.Sqrt(sum / 12)
}
