package rank

import "math"

// flat is the size below which a lead or its slope is taken for 0. Values are
// at most 1 and levels at most 5, so it stands far above their rounding.
const flat = 1e-12

// line is one option's lead over one rival as a single figure t moves:
// at0 + slope*t. Everything in this package that asks "how far until another
// option wins" comes down to where such lines cross 0.
type line struct{ at0, slope float64 }

// span is the stretch of t in which every lead is at least 0. lowBy and highBy
// are the lines that end it, -1 where it reaches the end of what was asked.
type span struct {
	low, high     float64
	lowBy, highBy int
}

// leads gives the span of low..high in which all lines are at least 0; ok is
// false when there is none.
func leads(lines []line, low, high float64) (s span, ok bool) {
	s = span{low: low, high: high, lowBy: -1, highBy: -1}
	for i, l := range lines {
		if math.Abs(l.slope) <= flat {
			if l.at0 < -flat {
				return s, false
			}
			continue
		}
		cut := -l.at0 / l.slope
		if l.slope > 0 {
			s.raise(lines, i, cut)
		} else {
			s.lower(lines, i, cut)
		}
	}
	return s, s.low <= s.high+flat
}

// raise moves the lower end up to cut. Of lines that cross at one point the
// steepest takes over beyond it, so that one is kept.
func (s *span) raise(lines []line, i int, cut float64) {
	same := s.lowBy >= 0 && math.Abs(cut-s.low) <= flat
	if cut > s.low+flat || same && lines[i].slope > lines[s.lowBy].slope {
		s.low, s.lowBy = cut, i
	}
}

func (s *span) lower(lines []line, i int, cut float64) {
	same := s.highBy >= 0 && math.Abs(cut-s.high) <= flat
	if cut < s.high-flat || same && lines[i].slope < lines[s.highBy].slope {
		s.high, s.highBy = cut, i
	}
}

// around widens the span, if need be, to hold t: rounding may put a tie at t
// itself a hair to the wrong side of it.
func (s span) around(t float64) span {
	s.low, s.high = math.Min(s.low, t), math.Max(s.high, t)
	return s
}

// nearest gives the end of the span that t has to move to in order to enter it.
func (s span) nearest(t float64) float64 { return clamp(t, s.low, s.high) }

// farthest gives the other end.
func (s span) farthest(t float64) float64 {
	if math.Abs(s.low-t) > math.Abs(s.high-t) {
		return s.low
	}
	return s.high
}
