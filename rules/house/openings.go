package house

import (
	"fmt"
	"strconv"
	"strings"

	"battwright/rules/strict"
	"battwright/rules/units"
)

// Limits of what one place may list. They are far beyond any house and keep a
// slip of the pen from becoming an order.
const (
	MaxRuns          = 60
	MaxOpenings      = 60
	maxOpeningsAlike = 200
	minOpeningIn     = 6.0
	maxOpeningIn     = 480.0
)

// Opening is a number of windows or doors of one size, in inches of the rough
// opening.
type Opening struct {
	Count             int
	WidthIn, HeightIn float64
}

var wantOpening = fmt.Sprintf(`, each like "2 of 36 in x 48 in" (how many, width, height; 1 to %d alike, %s in to %s ft each way; a bare number is inches)`,
	maxOpeningsAlike, formatNumber(minOpeningIn), formatNumber(maxOpeningIn/units.InchPerFoot))

// ParseOpening reads `2 of 36 in x 48 in`, `3' x 6'8"` (one of it) and the
// like. A bare number is inches. The error's text is for the person.
func ParseOpening(s string) (Opening, error) {
	o := Opening{Count: 1}
	count, size, hasCount := strings.Cut(strings.ToLower(s), " of ")
	if !hasCount {
		size = count
	} else if n, err := strconv.Atoi(strings.TrimSpace(count)); err == nil {
		o.Count = n
	} else {
		return Opening{}, refuse("found %q; want%s", strict.Cut(s), strings.TrimPrefix(wantOpening, ","))
	}
	width, height, two := strings.Cut(strings.ReplaceAll(size, "\u00d7", "x"), "x")
	var errW, errH error
	o.WidthIn, errW = units.ParseInches(strings.TrimSpace(width))
	o.HeightIn, errH = units.ParseInches(strings.TrimSpace(height))
	o.WidthIn, o.HeightIn = sixteenth(o.WidthIn), sixteenth(o.HeightIn)
	if !two || errW != nil || errH != nil || !o.sane() {
		return Opening{}, refuse("found %q; want%s", strict.Cut(s), strings.TrimPrefix(wantOpening, ","))
	}
	return o, nil
}

func (o Opening) sane() bool {
	side := func(in float64) bool { return in >= minOpeningIn && in <= maxOpeningIn }
	return o.Count >= 1 && o.Count <= maxOpeningsAlike && side(o.WidthIn) && side(o.HeightIn)
}

// String writes an opening as the house file keeps it.
func (o Opening) String() string {
	return fmt.Sprintf("%d of %s in x %s in", o.Count, units.Fraction(o.WidthIn), units.Fraction(o.HeightIn))
}

// sixteenth: nobody measures finer, and a fraction is written as it is read.
func sixteenth(in float64) float64 { return roundTo(in, 1.0/16) }

// OpeningsOf are the openings a place lists, none when it lists none.
func OpeningsOf(p *Place) []Opening {
	if p == nil {
		return nil
	}
	var out []Opening
	for _, s := range p.Answers["openings"].List {
		if o, err := ParseOpening(s); err == nil {
			out = append(out, o)
		}
	}
	return out
}

func openingsFt2(list []string) float64 {
	in2 := 0.0
	for _, s := range list {
		if o, err := ParseOpening(s); err == nil {
			in2 += float64(o.Count) * o.WidthIn * o.HeightIn
		}
	}
	return in2 / (units.InchPerFoot * units.InchPerFoot)
}

func (q Question) checkOpenings(list []string) error {
	if len(list) > q.Most {
		return refuse("found %d openings; want at most %d lines", len(list), q.Most)
	}
	for _, s := range list {
		if _, err := ParseOpening(s); err != nil {
			return err
		}
	}
	return nil
}

func (q Question) parseOpenings(s string) (Answer, error) {
	if strings.EqualFold(s, "none") {
		return List(), nil
	}
	var out []string
	for _, part := range parted(s) {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		o, err := ParseOpening(part)
		if err != nil {
			return Answer{}, err
		}
		out = append(out, o.String())
	}
	return List(out...), nil
}

// openingsAnswer reads the list of a house file, each line with its own
// mistake.
func (r *reader) openingsAnswer(path []any, list []any) Answer {
	out := make([]string, 0, len(list))
	good := true
	for i, e := range list {
		s, _ := e.(string)
		clean, changed := strict.CleanText(s)
		o, err := ParseOpening(clean)
		if err != nil || changed {
			r.bad(below(path, i), e, "an opening"+wantOpening)
			good = false
			continue
		}
		out = append(out, o.String())
	}
	if !good {
		return Answer{}
	}
	return List(out...)
}

// rightCount: a list of numbers has its fixed count, or 1 to Most.
func (q Question) rightCount(n int) bool {
	if q.Count > 0 {
		return n == q.Count
	}
	return n >= 1 && n <= q.Most
}

// parseLengths reads feet or inches as builders write them, with commas
// between: "40, 12 ft 6 in". A thousands comma has no place here.
func (q Question) parseLengths(s string) (Answer, error) {
	read := units.ParseFeet
	if q.Unit == "in" {
		read = units.ParseInches
	}
	var out []string
	parts := parted(s)
	if q.halfOther(parts) {
		return Answer{}, refuse("found %q; a comma parts two figures: write a unit behind each, and 12.5 m with a point", strict.Cut(s))
	}
	for _, part := range parts {
		v, err := read(strings.TrimSpace(part))
		if err != nil {
			return Answer{}, refuse("found %q; want %s", strict.Cut(part), q.Accepted())
		}
		out = append(out, formatNumber(v))
	}
	return List(out...), nil
}

// halfOther reports a bare number beside a figure in another unit: "12,5 m" is
// most likely one length with a comma for its point, and must not be read as
// 12 of our unit and 5 of the other.
func (q Question) halfOther(parts []string) bool {
	bareOnes, others := 0, 0
	for _, part := range parts {
		if _, err := units.ParseNumber(strings.TrimSpace(part)); err == nil {
			bareOnes++
		}
		if _, ok := units.ParseOther(part, q.Unit); ok {
			others++
		}
	}
	return bareOnes > 0 && others > 0
}

// showOpenings writes each opening in a system of units.
func showOpenings(list []string, s units.System) string {
	words := make([]string, len(list))
	for i, text := range list {
		o, err := ParseOpening(text)
		if words[i] = text; err == nil && s == units.SI {
			words[i] = fmt.Sprintf("%d of %s x %s", o.Count, s.Inches(o.WidthIn), s.Inches(o.HeightIn))
		}
	}
	return joinList(words)
}

func (q Question) showNumbers(list []string, s units.System) string {
	words := make([]string, len(list))
	for i, text := range list {
		v, err := numberIn(text)
		if err != nil {
			return joinList(list)
		}
		words[i] = q.showNumber(v, s)
	}
	return joinList(words)
}

// LengthsFt are the straight pieces of a place: the list, or the one length.
func (a Answered) LengthsFt(p *Place) []float64 {
	if p == nil {
		return nil
	}
	if list := a.Value(PlaceScope, p, "lengths_ft"); list.Source == FromAnswer {
		out := make([]float64, 0, len(list.Answer.List))
		for _, s := range list.Answer.List {
			if v, err := numberIn(s); err == nil {
				out = append(out, v)
			}
		}
		return out
	}
	if v, ok := said(p, "length_ft"); ok {
		return []float64{v}
	}
	return nil
}

// LongFt is the length of a place, all its straight pieces together; ok is
// false when none was said.
func (a Answered) LongFt(p *Place) (ft float64, ok bool) {
	for _, v := range a.LengthsFt(p) {
		ft += v
	}
	return ft, ft > 0
}
