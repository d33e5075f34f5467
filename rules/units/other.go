package units

import (
	"math"
	"strings"
)

// Other is a unit that is understood where one of ours is asked for.
type Other struct {
	Suffix string  // of a key, or behind or before a number
	Per    float64 // of the unit asked for in one of this
}

var others = map[string][]Other{
	"in":  {{"mm", 1 / MmPerInch}, {"cm", 10 / MmPerInch}, {"m", 1000 / MmPerInch}},
	"ft":  {{"mm", 0.001 / MPerFoot}, {"cm", 0.01 / MPerFoot}, {"m", 1 / MPerFoot}},
	"ft2": {{"m2", 1 / M2PerFt2}, {"m\u00b2", 1 / M2PerFt2}, {"sqm", 1 / M2PerFt2}},
	"R":   {{"rsi", RIPPerRSI}, {"m2k/w", RIPPerRSI}},
}

// Others are the other units of a unit asked for: in, ft, ft2 or R. Money of
// other countries is not turned into dollars: nobody knows the rate of the day.
func Others(unit string) []Other { return others[unit] }

// ParseOther reads "140 mm", "RSI 3.7" or "25 m2" for a unit asked for; ok is
// false for what is not in one of its other units.
func ParseOther(text, unit string) (v float64, ok bool) {
	s := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), " ", ""))
	for _, o := range others[unit] {
		head, has := strings.CutSuffix(s, o.Suffix)
		if !has {
			head, has = strings.CutPrefix(s, o.Suffix)
			head = strings.TrimLeft(head, "-=:") // RSI-3.7
		}
		if !has {
			continue
		}
		if n, err := ParseNumber(head); err == nil {
			return n * o.Per, true
		}
	}
	return 0, false
}

// HoursText writes a span of hours in whole ones, the quick end at least one:
// "2 to 7 hours".
func HoursText(low, high float64) string {
	from, to := max(1, math.Floor(low+0.5)), max(1, math.Ceil(high))
	switch {
	case from < to:
		return num(from, 0) + " to " + num(to, 0) + " hours"
	case to == 1:
		return "about an hour"
	}
	return "about " + num(to, 0) + " hours"
}
