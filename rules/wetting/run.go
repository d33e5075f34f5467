package wetting

import (
	"fmt"
	"math"
)

// Course says how a run goes. The empty one is that of a verdict.
type Course struct {
	Runs    int     // times the hours are gone through; the last is judged
	StepH   float64 // length of a step: a whole part of an hour, or whole hours
	CoarseH float64 // length of a step before the last run; 0: the same
}

// Judged is the course that a verdict rests on: the typical year twice, the
// first time coarsely.
var judged = Course{Runs: 2, StepH: 1, CoarseH: 3}

// PlaneYear is a watched plane in the judged run.
type PlaneYear struct {
	Mold    float64 // highest mold index; it counts on from run to run
	WorstRH float64 // highest 30-day mean, 0 to 1
	FreeGM2 float64 // most free water in the cells on both sides, g/m2
	Days    []DayAt
}

// DayAt is one day at a plane: means, and the mold index at its end.
type DayAt struct{ TempC, RH, Mold float64 }

// SkinYear is a watched skin in the judged run: kg of water for each kg of dry
// material.
type SkinYear struct {
	Worst float64 // highest 30-day mean
	Days  []float64
	Means []float64 // 30-day means that end on the last so many of the days
}

// Result is a run.
type Result struct {
	Planes    []PlaneYear // in the order of Section.Watch
	Skins     []SkinYear  // in the order of Section.Skins
	RunoffGM2 float64     // water that ran off full cells in all runs
	DriftGM2  float64     // what water came in, less what is there: 0 but for rounding
	DriftJM2  float64     // the same of heat
}

// MonthD is the days of a running mean.
const MonthD = 30

// Limits of a run.
const (
	maxHours = 24 * 366 * 3
	maxRuns  = 10
	dayH     = 24
)

func (c *Course) check(hours int) error {
	if c.Runs < 1 || c.Runs > maxRuns {
		return fmt.Errorf("%w: %d runs; want 1 to %d", ErrStep, c.Runs, maxRuns)
	}
	for _, h := range []float64{c.StepH, c.CoarseH} {
		if h == 0 && c.StepH > 0 {
			continue
		}
		whole := func(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-9 }
		if !within(h, 1.0/60, dayH) || h < 1 && !whole(1/h) || h > 1 && !(whole(h) && dayH%int(h) == 0) {
			return fmt.Errorf("%w: %v h; want a whole part of an hour, or hours that a day is made of", ErrStep, h)
		}
	}
	if hours == 0 || hours%dayH != 0 || hours > maxHours {
		return fmt.Errorf("%w: %d hours; want whole days, at most %d", ErrClimate, hours, maxHours/dayH)
	}
	return nil
}

// Run goes through the hours of both edges, which are as many, and says what
// became of the section. ErrSection, ErrMaterial, ErrClimate, ErrStep say what
// was wrong with what was given; ErrUnsettled that no step was short enough.
func Run(sec Section, room, out []Edge, course Course) (Result, error) {
	if err := sec.check(); err != nil {
		return Result{}, err
	}
	if len(room) != len(out) {
		return Result{}, fmt.Errorf("%w: %d hours inside, %d outside", ErrClimate, len(room), len(out))
	}
	if course == (Course{}) {
		course = judged
	}
	if err := course.check(len(out)); err != nil {
		return Result{}, err
	}
	for _, edges := range [][]Edge{room, out} {
		for i := range edges {
			if err := edges[i].check(i); err != nil {
				return Result{}, err
			}
		}
	}
	r := newRunner(&sec, course.Runs*len(out)/dayH)
	for i := range course.Runs {
		step := course.StepH
		r.judged = i+1 == course.Runs
		if !r.judged && course.CoarseH > 0 {
			step = course.CoarseH
		}
		if err := r.through(room, out, step); err != nil {
			return Result{}, err
		}
	}
	return r.result(len(out) / dayH), nil
}
