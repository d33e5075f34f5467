package inspect

import (
	"fmt"
	"strconv"
	"strings"

	"battwright/rules/house"
	"battwright/rules/units"
)

// foreign is a unit that is understood where another was asked for.
type foreign struct {
	suffix string  // of a key, or behind a number
	per    float64 // of the unit asked for in one of this
}

// foreigns are the other units of each unit asked for. Money of other
// countries is not turned into dollars: nobody knows the rate of the day.
var foreigns = map[string][]foreign{
	"in":  {{"mm", 1 / units.MmPerInch}, {"cm", 10 / units.MmPerInch}, {"m", 1000 / units.MmPerInch}},
	"ft2": {{"m2", 1 / units.M2PerFt2}, {"m\u00b2", 1 / units.M2PerFt2}, {"sqm", 1 / units.M2PerFt2}},
	"R":   {{"rsi", units.RIPPerRSI}, {"m2k/w", units.RIPPerRSI}},
}

// inOther reads "140 mm", "RSI 3.7" or "25 m2" for a unit asked for.
func inOther(text, unit string) (v float64, ok bool) {
	s := strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), " ", ""))
	for _, f := range foreigns[unit] {
		head, has := strings.CutSuffix(s, f.suffix)
		if !has {
			head, has = strings.CutPrefix(s, f.suffix)
		}
		if !has {
			continue
		}
		if n, err := units.ParseNumber(strings.TrimLeft(head, "-=:")); err == nil {
			return n * f.per, true
		}
	}
	return 0, false
}

// otherKeys are keys that hold the same in other units: thickness_mm for
// thickness_in, rsi for r.
func otherKeys(q house.Question) map[string]float64 {
	out := map[string]float64{}
	for _, f := range foreigns[q.Unit] {
		switch {
		case q.Unit == "R" && f.suffix == "rsi" && (q.Key == "r" || strings.HasSuffix(q.Key, "_r")):
			out[strings.TrimSuffix(q.Key, "r")+"rsi"] = f.per
		case strings.HasSuffix(q.Key, "_"+q.Unit) && !strings.ContainsAny(f.suffix, "\u00b2/"):
			out[strings.TrimSuffix(q.Key, q.Unit)+f.suffix] = f.per
		}
	}
	return out
}

// readNumber takes a TOML value for a number; note says when another unit was
// read.
func readNumber(q house.Question, v any, per float64) (n float64, note string, ok bool) {
	switch x := v.(type) {
	case int64:
		n, ok = float64(x), true
	case float64:
		n, ok = x, true
	case string:
		one := q
		one.Kind, one.Count, one.Most = house.NumberKind, 0, 0
		if a, err := one.Parse(x); err == nil && a.State == house.Given {
			n, ok = a.Number, true
			break
		}
		if n, ok = inOther(x, q.Unit); ok {
			return n, shown(q, n), true
		}
		if n, err := units.ParseNumber(x); err == nil && per != 1 {
			return n * per, shown(q, n*per), true
		}
		return 0, "", false
	}
	if ok && per != 1 {
		return n * per, shown(q, n*per), true
	}
	return n, "", ok
}

func shown(q house.Question, v float64) string {
	switch q.Unit {
	case "in":
		return units.US.Inches(v)
	case "ft2":
		return units.US.Area(v)
	case "R":
		return units.US.R(v)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// numbersOf reads a list of numbers as an answer keeps it.
func numbersOf(a house.Answer) []float64 {
	var out []float64
	for _, s := range a.List {
		if v, err := strconv.ParseFloat(s, 64); err == nil {
			out = append(out, v)
		}
	}
	return out
}

// GapsIn2 is the area of gaps written as "12 x 1/2, 93 x 1/4" in inches. The
// error wraps ErrGaps.
func GapsIn2(text string) (float64, error) {
	sum := 0.0
	for _, part := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		part = strings.ToLower(strings.TrimSpace(part))
		if part == "" || part == "none" {
			continue
		}
		long, wide, two := strings.Cut(strings.ReplaceAll(part, "\u00d7", "x"), "x")
		l, err := units.ParseInches(strings.TrimSpace(long))
		w, err2 := units.ParseInches(strings.TrimSpace(wide))
		if !two || err != nil || err2 != nil || l > maxGapIn || w > maxGapIn {
			return 0, fmt.Errorf("%w: found %q, want some like 12 x 1/2 (inches, at most %d each way)", ErrGaps, part, maxGapIn)
		}
		sum += l * w
	}
	return sum, nil
}

const maxGapIn = 2400 // 200 ft
