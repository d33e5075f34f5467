package units

import (
	"math"
	"strconv"
)

// measure is a quantity as the SI system shows it: worked out and in prose.
type measure struct {
	si     string // the unit behind the figure
	places int    // decimals
	turn   func(us float64) float64
}

func times(factor float64) func(float64) float64 {
	return func(us float64) float64 { return us * factor }
}

var (
	inches      = &measure{" mm", 0, times(MmPerInch)}
	feet        = &measure{" m", 2, times(MPerFoot)}
	area        = &measure{" m2", 1, times(M2PerFt2)}
	perArea     = &measure{" per m2", 2, times(1 / M2PerFt2)}
	load        = &measure{" kg/m2", 1, times(KgPerLb / M2PerFt2)}
	temperature = &measure{" C", 0, FToC}
	difference  = &measure{" C", 1, times(1 / 1.8)} // of two temperatures
	permeance   = &measure{" ng/(s.m2.Pa)", 1, times(NgPerPerm)}
	resistance  = &measure{"", 2, times(1 / RIPPerRSI)}
	// A blanket is some 100 mm thick: a figure for one inch would be small, for
	// one metre beyond any house.
	perInch = &measure{" for each 100 mm", 2, times(100 / MmPerInch / RIPPerRSI)}
	mils    = &measure{" mm", 2, times(MmPerInch / 1000)}
)

func (m *measure) show(us float64) string { return m.figure(us) + m.si }

// figure is the SI figure alone, rounded to the nearest.
func (m *measure) figure(us float64) string { return num(m.turn(us), m.places) }

// bound is the SI figure alone, never below what is given where least is set
// and never above it where it is not: a clearance must not shrink by rounding.
func (m *measure) bound(us float64, least bool) string {
	v := m.turn(us)
	step := math.Pow10(m.places)
	const slack = 1e-9 // what binary fractions add to a whole figure
	if least {
		v = math.Ceil(v*step-slack) / step
	} else {
		v = math.Floor(v*step+slack) / step
	}
	return num(v, m.places)
}

// fine is figure for what the usual decimals would show as nothing.
func (m *measure) fine(us float64) string {
	s := m.figure(us)
	if v := m.turn(us); s == "0" && v != 0 {
		return strconv.FormatFloat(v, 'g', 2, 64)
	}
	return s
}
