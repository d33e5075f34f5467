package inspect

import (
	"fmt"
	"strconv"
	"strings"

	"battwright/rules/house"
	"battwright/rules/units"
)

// otherKeys are keys that hold the same in other units: thickness_mm for
// thickness_in, rsi for r.
func otherKeys(q house.Question) map[string]float64 {
	out := map[string]float64{}
	for _, f := range units.Others(q.Unit) {
		switch {
		case q.Unit == "R" && f.Suffix == "rsi" && (q.Key == "r" || strings.HasSuffix(q.Key, "_r")):
			out[strings.TrimSuffix(q.Key, "r")+"rsi"] = f.Per
		case strings.HasSuffix(q.Key, "_"+q.Unit) && !strings.ContainsAny(f.Suffix, "\u00b2/"):
			out[strings.TrimSuffix(q.Key, q.Unit)+f.Suffix] = f.Per
		}
	}
	return out
}

// readNumber takes a TOML value for a number; note says when another unit was
// read.
func (r *reader) readNumber(q house.Question, v any, per float64) (n float64, note string, ok bool) {
	switch x := v.(type) {
	case int64:
		n, ok = float64(x), true
	case float64:
		n, ok = x, true
	case string:
		one := q
		one.Kind, one.Count, one.Most = house.NumberKind, 0, 0
		if n, ok = units.ParseOther(x, q.Unit); ok {
			return n, shown(q, n, r.system), true
		}
		if a, err := one.Parse(x); err == nil && a.State == house.Given {
			n, ok = a.Number, true
			break
		}
		if n, err := units.ParseNumber(x); err == nil && per != 1 {
			return n * per, shown(q, n*per, r.system), true
		}
		return 0, "", false
	}
	if ok && per != 1 {
		return n * per, shown(q, n*per, r.system), true
	}
	return n, "", ok
}

func shown(q house.Question, v float64, s units.System) string {
	switch q.Unit {
	case "in":
		return s.Inches(v)
	case "ft2":
		return s.Area(v)
	case "R":
		return s.R(v)
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
		l, err := units.ParseInches(long)
		w, err2 := units.ParseInches(wide)
		if !two || err != nil || err2 != nil || l > maxGapIn || w > maxGapIn {
			return 0, fmt.Errorf("%w: found %q; want some like 12 x 1/2 (inches, at most %d each way)", ErrGaps, part, maxGapIn)
		}
		sum += l * w
	}
	return sum, nil
}

const maxGapIn = 2400 // 200 ft
