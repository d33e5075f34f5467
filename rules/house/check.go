package house

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"battwright/rules/strict"
)

// ErrAnswer wraps every refusal of Check and Parse; its text is for the person.
var ErrAnswer = errors.New("that answer does not fit")

func refuse(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrAnswer, fmt.Sprintf(format, args...))
}

// Check says whether an answer fits the question, in words for the builder.
func (q Question) Check(a Answer) error {
	switch a.State {
	case Absent:
		return nil
	case Unknown:
		if !q.DontKnow {
			return refuse(`"don't know" is not offered here; %s`, q.Accepted())
		}
		return nil
	}
	switch q.Kind {
	case Choice:
		if !slices.Contains(q.values(), a.Text) {
			return refuse("found %q; want %s", strict.Cut(a.Text), q.Accepted())
		}
	case Many:
		for _, v := range a.List {
			if !slices.Contains(q.values(), v) {
				return refuse("found %q; want %s", strict.Cut(v), q.Accepted())
			}
		}
	case NumberKind:
		return q.checkNumber(a.Number)
	case Numbers:
		return q.checkNumbers(a.List)
	case Sizes:
		return q.checkOpenings(a.List)
	case TextKind:
		if _, changed := strict.CleanText(a.Text); changed || len([]rune(a.Text)) > MaxText {
			return refuse("want %s, without control characters", q.Accepted())
		}
		if q.Valid != nil {
			if err := q.Valid(a.Text); err != nil {
				return refuse("%v", err)
			}
		}
	}
	return nil
}

func (q Question) checkNumber(v float64) error {
	if math.IsNaN(v) || math.IsInf(v, 0) || v < q.Min || v > q.Max {
		return refuse("found %s; want %s", formatNumber(v), q.Accepted())
	}
	if q.Whole && v != math.Trunc(v) {
		return refuse("found %s; want %s", formatNumber(v), q.Accepted())
	}
	return nil
}

func (q Question) checkNumbers(list []string) error {
	if !q.rightCount(len(list)) {
		return refuse("found %d numbers; want %s", len(list), q.Accepted())
	}
	for _, s := range list {
		v, err := numberIn(s)
		if err != nil || v < q.Min || v > q.Max {
			return refuse("found %q; want %s", strict.Cut(s), q.Accepted())
		}
	}
	return nil
}
