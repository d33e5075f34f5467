package wetting

import "math"

// Class is how readily mold grows on a surface: the classes of the improved
// Finnish mold model (Ojanen, Viitanen and others 2010).
type Class int

// The classes. Wood-based boards, paper and studs are sensitive.
const (
	NoClass Class = iota
	VerySensitive
	Sensitive
	MediumResistant
	Resistant
)

func (c Class) valid() bool { return c > NoClass && c <= Resistant }

// growth holds the constants of a class as read in the open file of the Finnish
// mold growth model (Tampere University, 2011-2016). decline is from memory.
type growth struct {
	below1, from1 float64 // k1 below and from index 1
	a, b, c       float64 // of the highest index
	leastRH       float64 // percent
	decline       float64 // share of the decline on pine sapwood
}

func (c Class) growth() growth {
	return [...]growth{
		{},
		{1, 2, 1, 7, 2, 80, 1},
		{0.578, 0.386, 0.3, 6, 1, 80, 0.5},
		{0.072, 0.097, 0, 5, 1.5, 85, 0.25},
		{0.033, 0.014, 0, 3, 1, 85, 0.1},
	}[c]
}

// mold is the mold index of one surface as the hours pass: 0 none, 1 seen
// under the microscope, 3 seen by eye, 6 all over.
type mold struct {
	class Class
	index float64
	still float64 // hours since growth stopped
}

// Times and rates of the decline: hours, index for each hour.
const (
	firstStillH  = 6.0
	pauseStillH  = 24.0
	declineFirst = 0.032 / 24
	declineLater = 0.016 / 24
	weekH        = 7 * 24.0
	hottestMoldC = 50.0
)

// pass goes dtH hours on at tC and a relative humidity of 0 to 1.
func (m *mold) pass(dtH, tC, rh float64) {
	g := m.class.growth()
	percent := 100 * min(max(rh, 0), 1)
	critical := criticalRH(tC, g.leastRH)
	if tC > 0 && tC < hottestMoldC && percent >= critical {
		m.still = 0
		m.index += dtH * g.rate(m.index, tC, percent, critical)
		return
	}
	from := m.still
	m.still += dtH
	first := min(m.still, firstStillH) - min(from, firstStillH)
	later := max(m.still, pauseStillH) - max(from, pauseStillH)
	m.index = max(0, m.index-g.decline*(declineFirst*first+declineLater*later))
}

// criticalRH is the percent below which nothing grows at tC.
func criticalRH(tC, least float64) float64 {
	if tC <= 0 {
		return 100
	}
	return max(least, ((-0.00267*tC+0.160)*tC-3.13)*tC+100)
}

// rate is the growth of the index in an hour.
func (g *growth) rate(index, tC, percent, critical float64) float64 {
	x := 1.0
	if critical < 100 {
		x = (critical - percent) / (critical - 100)
	}
	most := g.a + g.b*x - g.c*x*x
	k2 := max(0, 1-math.Exp(2.3*(index-most)))
	k1 := g.below1
	if index >= 1 {
		k1 = g.from1
	}
	weeks := math.Exp(-0.68*math.Log(tC) - 13.9*math.Log(percent) + 66.02)
	return k1 * k2 / (weeks * weekH)
}
