package units

import (
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// ErrNotANumber says that a text is not a number a builder would write.
var ErrNotANumber = errors.New("not a number")

// ParseNumber reads "7.25", "7 1/4", "7-1/4", "1/2" or "1,120". The result is
// finite and not negative; anything else is ErrNotANumber. A comma parts
// thousands and nothing else: "8,5", a decimal comma, is refused and not read
// as 85.
func ParseNumber(text string) (float64, error) {
	s := strings.TrimSpace(text)
	s = strings.ReplaceAll(s, "-", " ")
	fields := strings.Fields(s)
	if strings.HasPrefix(strings.TrimSpace(text), "-") || len(fields) == 0 || len(fields) > 2 {
		return 0, ErrNotANumber
	}
	whole, err := 0.0, error(nil)
	if len(fields) == 2 {
		if whole, err = plain(fields[0]); err != nil || whole != math.Trunc(whole) || !strings.Contains(fields[1], "/") {
			return 0, ErrNotANumber
		}
	}
	last := fields[len(fields)-1]
	part, err := fraction(last)
	if err != nil || len(fields) == 2 && part >= 1 {
		return 0, ErrNotANumber
	}
	return whole + part, nil
}

// ParseInches reads a length and gives inches: a bare number is inches;
// `8' 2 1/2"`, "8 ft 2 in", "8ft", "96 in", "140 mm" and "2.4 m" are understood.
func ParseInches(text string) (float64, error) {
	if v, ok := ParseOther(text, "in"); ok {
		return v, nil
	}
	return parseLength(text, 1)
}

// ParseFeet reads a length and gives feet: a bare number is feet; the other
// forms are those of ParseInches.
func ParseFeet(text string) (float64, error) {
	if v, ok := ParseOther(text, "ft"); ok {
		return v, nil
	}
	in, err := parseLength(text, InchPerFoot)
	return in / InchPerFoot, err
}

func parseLength(text string, bareInches float64) (float64, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	for _, w := range []struct{ from, to string }{
		{"feet", "'"},
		{"foot", "'"},
		{"ft.", "'"},
		{"ft", "'"},
		{"inches", `"`},
		{"inch", `"`},
		{"in.", `"`},
		{"in", `"`},
		{"\u2032", "'"},
		{"\u2019", "'"},
		{"\u2033", `"`},
		{"\u201d", `"`},
	} {
		s = strings.ReplaceAll(s, w.from, w.to)
	}
	feet, rest, hasFeet := strings.Cut(s, "'")
	if !hasFeet {
		rest = feet
	}
	rest = strings.TrimSpace(rest)
	inchMark := strings.HasSuffix(rest, `"`)
	rest = strings.TrimSpace(strings.TrimSuffix(rest, `"`))
	total := 0.0
	if hasFeet {
		v, err := ParseNumber(strings.TrimSuffix(feet, "."))
		if err != nil {
			return 0, err
		}
		total = v * InchPerFoot
		if rest == "" {
			return total, nil
		}
	}
	v, err := ParseNumber(strings.TrimSuffix(rest, "."))
	if err != nil {
		return 0, err
	}
	if !hasFeet && !inchMark {
		return v * bareInches, nil
	}
	return total + v, nil
}

func fraction(s string) (float64, error) {
	top, bottom, ok := strings.Cut(s, "/")
	if !ok {
		return plain(s)
	}
	a, err := plain(top)
	if err != nil {
		return 0, err
	}
	b, err := plain(bottom)
	if err != nil || b == 0 {
		return 0, ErrNotANumber
	}
	return a / b, nil
}

var thousands = regexp.MustCompile(`^[0-9]{1,3}(,[0-9]{3})+(\.[0-9]*)?$`)

// plain reads digits with at most one point. ParseFloat alone would take
// "inf", "0x10" and "1e9", which nobody means.
func plain(s string) (float64, error) {
	if strings.Contains(s, ",") {
		if !thousands.MatchString(s) {
			return 0, ErrNotANumber
		}
		s = strings.ReplaceAll(s, ",", "")
	}
	if s == "" || len(s) > 15 || strings.Trim(s, "0123456789.") != "" {
		return 0, ErrNotANumber
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, ErrNotANumber
	}
	return v, nil
}
