package inspect

import (
	"fmt"
	"slices"
	"time"

	"battwright/rules/catalog"
)

// Due is what must be done by a day.
type Due struct {
	Day  time.Time
	Lead catalog.Lead
}

// ParseDay reads a day written YYYY-MM-DD, from 1900 to 2200. The error wraps
// ErrDate.
func ParseDay(text string) (time.Time, error) {
	d, err := time.Parse(time.DateOnly, text)
	if err != nil || d.Year() < 1900 || d.Year() > 2200 {
		return time.Time{}, fmt.Errorf("%w: found %q, want a day like 2026-05-04", ErrDate, text)
	}
	return d, nil
}

// Calendar counts back from the day the drywall starts: calendar days, and
// what falls on a weekend is due the Friday before, but the drywall itself
// stays. Earliest first; person "" is everybody.
func Calendar(leads []catalog.Lead, drywall time.Time, person string) []Due {
	var out []Due
	for _, l := range leads {
		if person != "" && l.Person != person {
			continue
		}
		day := drywall.AddDate(0, 0, -l.Days)
		switch {
		case l.Days == 0:
		case day.Weekday() == time.Saturday:
			day = day.AddDate(0, 0, -1)
		case day.Weekday() == time.Sunday:
			day = day.AddDate(0, 0, -2)
		}
		out = append(out, Due{day, l})
	}
	slices.SortStableFunc(out, func(a, b Due) int { return a.Day.Compare(b.Day) })
	return out
}
