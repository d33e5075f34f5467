package units

import (
	"math"
	"strconv"
	"strings"
)

// System is the way figures are shown: US customary units, or SI. It changes
// only the display; files and calculators keep US units.
type System int

// The systems. US is the default.
const (
	US System = iota
	SI
)

// num rounds to at most places decimals and drops trailing zeros.
func num(v float64, places int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	s := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// R shows a thermal resistance given in h.ft2.F/Btu: "R-21". Whole numbers
// from R-10 up and one decimal below, as labels do; the half of a board, R-12.5, is
// kept.
func (s System) R(rIP float64) string {
	if s == SI {
		return s.RName() + resistance.figure(rIP)
	}
	if half := math.Mod(rIP, 1) == 0.5; rIP >= 10 && !half {
		return "R-" + num(rIP, 0)
	}
	return "R-" + num(rIP, 1)
}

// RName is what R writes before its figure: "R-" or "RSI ".
func (s System) RName() string {
	if s == SI {
		return "RSI "
	}
	return "R-"
}

// PlainR is R without its name, for "R-20 + 5".
func (s System) PlainR(rIP float64) string {
	if s == SI {
		return resistance.figure(rIP)
	}
	return num(rIP, 1)
}

// Inches shows a length given in inches, in sixteenths when it falls on them:
// "5 1/2 in".
func (s System) Inches(in float64) string {
	if s == SI {
		return inches.show(in)
	}
	return Fraction(in) + " in"
}

// Clearance shows a length given in inches that must stay empty: in SI it is
// rounded up, so that nobody builds closer for a figure that was rounded.
func (s System) Clearance(in float64) string {
	if s == SI {
		return inches.bound(in, true) + inches.si
	}
	return s.Inches(in)
}

// Fraction writes a number of inches as carpenters do: "5 1/2". A figure that
// is not close to a sixteenth is written with decimals.
func Fraction(in float64) string {
	if in < 0 {
		return "-" + Fraction(-in)
	}
	if in > 1e12 || math.IsNaN(in) {
		return num(in, 2)
	}
	n := int64(math.Round(in * 16))
	if math.Abs(float64(n)/16-in) > 0.004 {
		return num(in, 2)
	}
	whole, part, den := n/16, n%16, int64(16)
	for part != 0 && part%2 == 0 {
		part, den = part/2, den/2
	}
	switch {
	case part == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return strconv.FormatInt(part, 10) + "/" + strconv.FormatInt(den, 10)
	}
	return strconv.FormatInt(whole, 10) + " " + strconv.FormatInt(part, 10) + "/" + strconv.FormatInt(den, 10)
}

// FeetAbout shows a length that is only known roughly: in SI in whole meters.
func (s System) FeetAbout(ft float64) string {
	if s == SI {
		return groupedFloat(math.Round(ft*MPerFoot)) + " m"
	}
	return s.Feet(ft)
}

// Feet shows a length given in feet.
func (s System) Feet(ft float64) string {
	if s == SI {
		return feet.show(ft)
	}
	if whole := math.Floor(ft); ft < 1e6 && ft-whole > 1e-9 {
		if in := (ft - whole) * InchPerFoot; math.Abs(in-math.Round(in*2)/2) < 1e-6 {
			return num(whole, 0) + " ft " + Fraction(in) + " in"
		}
	}
	if ft == math.Trunc(ft) {
		return groupedFloat(ft) + " ft"
	}
	return num(ft, 1) + " ft"
}

// Area shows an area given in square feet.
func (s System) Area(ft2 float64) string {
	if s == SI {
		return area.show(ft2)
	}
	return groupedFloat(ft2) + " ft2"
}

// AreaMost shows an area given in square feet that must not be passed: in SI it is
// rounded down, as {500 ft2 max} in prose is.
func (s System) AreaMost(ft2 float64) string {
	if s == SI {
		return area.bound(ft2, false) + area.si
	}
	return s.Area(ft2)
}

// Volume shows a volume given in cubic feet with two figures: it says what kind
// of truck.
func (s System) Volume(ft3 float64) string {
	if s == SI {
		if v := ft3 * M3PerFt3; v < 10 {
			return "about " + num(v, 1) + " m3"
		}
		return "about " + groupedFloat(twoFigures(ft3*M3PerFt3)) + " m3"
	}
	return "about " + groupedFloat(twoFigures(ft3)) + " ft3"
}

// Load shows a weight on a ceiling given in lb/ft2.
func (s System) Load(lbPerFt2 float64) string {
	if s == SI {
		return load.show(lbPerFt2)
	}
	return num(lbPerFt2, 1) + " lb/ft2"
}

// Temp shows a temperature given in Celsius, the unit of the climate data.
func (s System) Temp(c float64) string {
	if s == SI {
		return temperature.show(CToF(c))
	}
	return num(CToF(c), 0) + " F"
}

// CentsForR shows what an area costs for each R it gets, given in cents per
// square foot and h.ft2.F/Btu.
func (s System) CentsForR(cents float64) string {
	if s == SI {
		return "about " + num(twoFigures(cents/M2PerFt2*RIPPerRSI), 0) + " cents/m2/RSI"
	}
	return "about " + num(cents, 0) + " cents/ft2/R"
}

// Moisture shows condensate given in grams per square metre. What is there and
// would round to nothing is a trace.
func (s System) Moisture(gPerM2 float64) string {
	v, unit := num(gPerM2*M2PerFt2/28.349523125, 1), " oz/ft2"
	if s == SI {
		v, unit = num(gPerM2, 0), " g/m2"
	}
	if v == "0" && gPerM2 > 0 {
		return "a trace"
	}
	return v + unit
}

// Leak shows how much air comes through a surface, given in m3/(m2 h).
func (s System) Leak(m3M2H float64) string {
	if s == SI {
		return num(m3M2H, 2) + " m3/m2 an hour"
	}
	return num(m3M2H/MPerFoot, 1) + " ft3/ft2 an hour"
}

// Energy shows heat given in MMBtu.
func (s System) Energy(mmbtu float64) string {
	if s == SI {
		return num(mmbtu*MJPerMMBtu/3.6, 0) + " kWh"
	}
	return num(mmbtu, 1) + " MMBtu"
}

// DegreeDays shows degree days given in F-days: no winter repeats itself to
// better than two figures.
func (s System) DegreeDays(fDays float64) string {
	if s == SI {
		return "about " + groupedFloat(twoFigures(fDays/1.8)) + " K-days"
	}
	return "about " + groupedFloat(twoFigures(fDays)) + " F-days"
}

// twoFigures rounds to two figures, half away from zero.
func twoFigures(v float64) float64 {
	size := 1.0
	for size*100 <= math.Abs(v) && size < 1e12 {
		size *= 10
	}
	return math.Round(v/size) * size
}

// HeatOfFire shows what can burn in an area, given in MJ/m2, with two figures.
func (s System) HeatOfFire(mjPerM2 float64) string {
	if s == SI {
		return "about " + num(twoFigures(mjPerM2), 0) + " MJ/m2"
	}
	return "about " + groupedFloat(twoFigures(mjPerM2/MJPerMMBtu*1e6*M2PerFt2)) + " Btu/ft2"
}

// Of shows a figure by the name of the unit it is given in, as data and
// questions name them; ok is false for a unit that has no form of its own.
func (s System) Of(v float64, unit string) (text string, ok bool) {
	switch unit {
	case "in":
		return s.Inches(v), true
	case Pitch:
		return s.Pitch(v), true
	case "ft":
		return s.Feet(v), true
	case "ft2":
		return s.Area(v), true
	case "R":
		return s.R(v), true
	case "lb/ft2":
		return s.Load(v), true
	case "kg/m2":
		return s.Load(v * M2PerFt2 / KgPerLb), true
	case "g/m2":
		return s.Moisture(v), true
	case "MJ/m2":
		return s.HeatOfFire(v), true
	case "usd":
		return s.Money(FromDollars(v)), true
	}
	return "", false
}

// Measured shows a figure of a criterion, given in one of the SI units that
// the data file of the criteria uses: C, MJ/m2, g/m2 or kg/m2.
func (s System) Measured(v float64, unit string) string {
	if unit == "C" { // where a fiber gives way: known to two figures at best
		if s == SI {
			return "about " + groupedFloat(twoFigures(v)) + " C"
		}
		return "about " + groupedFloat(twoFigures(CToF(v))) + " F"
	}
	if text, ok := s.Of(v, unit); ok {
		return text
	}
	return num(v, 1) + " " + unit
}

// Percent shows a share of one: 0.8 is "80 %".
func (System) Percent(share float64) string { return num(share*100, 0) + " %" }

func groupedFloat(v float64) string {
	r := math.Round(v)
	if math.IsNaN(r) || math.Abs(r) > 1e15 {
		return num(v, 0)
	}
	if r < 0 {
		return "-" + grouped(int64(-r))
	}
	return grouped(int64(r))
}
