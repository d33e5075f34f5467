package units

import (
	"math"
	"regexp"
	"strings"
)

// Pitch names the unit of the slope of a roof: inches of rise over 12 inches of run.
const Pitch = "in 12"

// run is how builders name the run of a roof behind its rise: 6/12, 6:12, 6 in 12.
var run = regexp.MustCompile(`^(.+?)\s*(?:[/:]|in|on|over)\s*12\s*(?:"|in\.?|inches)?$`)

// slopes are other ways to tell it, each with what turns it into a rise over a run of 1.
var slopes = []struct {
	suffix string
	rise   func(float64) float64
}{
	{"degrees", riseOfDeg},
	{"degree", riseOfDeg},
	{"deg", riseOfDeg},
	{"\u00b0", riseOfDeg},
	{"percent", func(v float64) float64 { return v / 100 }},
	{"%", func(v float64) float64 { return v / 100 }},
}

func riseOfDeg(deg float64) float64 { return math.Tan(deg * math.Pi / 180) }

// PitchDeg is the slope in degrees of a roof that rises so many inches in 12.
func PitchDeg(rise float64) float64 { return math.Atan(rise/InchPerFoot) * 180 / math.Pi }

// PitchOf is the rise in 12 of a roof that slopes so many degrees.
func PitchOf(deg float64) float64 { return riseOfDeg(deg) * InchPerFoot }

// ParsePitch reads the slope of a roof as its rise in 12: "6", "6/12", "6:12",
// "4 1/2 in 12", "27 degrees", "50 %". A fraction alone is refused: 1/3 may be a share
// of the span.
func ParsePitch(text string) (float64, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	for _, x := range slopes {
		head, ok := strings.CutSuffix(s, x.suffix)
		if !ok {
			continue
		}
		const upright = 90
		v, err := ParseNumber(head)
		if err != nil || v >= upright && x.suffix != "%" && x.suffix != "percent" {
			return 0, ErrNotANumber
		}
		return x.rise(v) * InchPerFoot, nil
	}
	if m := run.FindStringSubmatch(s); m != nil {
		return ParseInches(m[1])
	}
	if strings.Contains(s, "/") && !strings.ContainsAny(s, " -") {
		return 0, ErrNotANumber
	}
	return ParseInches(s)
}

// Pitch shows the slope of a roof that rises so many inches in 12.
func (s System) Pitch(rise float64) string {
	if s == SI {
		return num(PitchDeg(rise), 0) + " degrees"
	}
	return Fraction(rise) + " in 12"
}
