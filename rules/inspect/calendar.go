package inspect

import (
	"fmt"
	"slices"
	"time"

	"battwright/rules/catalog"
	"battwright/rules/plan"
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

// Leads are what must be done by a day in the house of a job: without what only
// other kinds of place need, what is behind the house at its stage, chimneys where
// none goes up, and without anything where no place has a plan.
func Leads(j Job) []catalog.Lead {
	var out []catalog.Lead
	for _, l := range j.Catalog().Acceptance().Leads {
		if len(l.Stages) > 0 && !slices.Contains(l.Stages, j.Plan.Stage) || l.Chimney && j.Assessment.Answered.NoChimney() {
			continue
		}
		if slices.ContainsFunc(j.Plan.Places, func(p plan.Place) bool {
			return planned(p) && (l.Needs == "" || requires(p, l.Needs)) && (len(l.Kinds) == 0 || slices.Contains(l.Kinds, p.Surface.Kind.ID))
		}) {
			out = append(out, l)
		}
	}
	return out
}

// Calendar counts from the day the drywall starts: calendar days, and what
// falls on a weekend is due the Friday before, or the Monday after where it
// comes after the drywall; the drywall itself stays. What comes before
// something else never falls on its day: it is due the working day before.
// Earliest first; person "" is everybody.
func Calendar(leads []catalog.Lead, drywall time.Time, person string) []Due {
	leads = slices.Clone(leads)
	slices.SortStableFunc(leads, func(a, b catalog.Lead) int { return b.Days - a.Days })
	days := make([]time.Time, len(leads))
	for i := len(leads) - 1; i >= 0; i-- {
		days[i] = workday(drywall.AddDate(0, 0, -leads[i].Days), leads[i].Days)
		if i == len(leads)-1 {
			continue
		}
		switch next := days[i+1]; {
		case leads[i].Days == leads[i+1].Days:
			days[i] = next
		case leads[i].Days > 0 && !days[i].Before(next):
			days[i] = workday(next.AddDate(0, 0, -1), 1)
		}
	}
	var out []Due
	for i, l := range leads {
		if person == "" || l.Person == person {
			out = append(out, Due{days[i], l})
		}
	}
	return out
}

// workday moves a day off the weekend: back before the drywall, on after it.
// What falls on the drywall itself stays.
func workday(day time.Time, before int) time.Time {
	saturday, sunday := day.Weekday() == time.Saturday, day.Weekday() == time.Sunday
	move := 0
	switch {
	case before == 0:
	case before > 0 && saturday:
		move = -1
	case before > 0 && sunday:
		move = -2
	case saturday:
		move = 2
	case sunday:
		move = 1
	}
	return day.AddDate(0, 0, move)
}
