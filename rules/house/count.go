package house

import "slices"

// LaterAsked are the questions of the house that are asked with what matters.
func (q Question) LaterAsked() bool {
	return q.Scope == Top && (q.Key == "rule_out" || q.Key == "rule_out_reason")
}

// OfMatters are what is out of the question and what counts most.
func (l *QuestionList) OfMatters() []Question {
	return slices.Concat(l.pick(Question.LaterAsked), l.In(Priorities, ""))
}

// ToOrder are the questions about one place that must be answered before its
// blankets can be ordered: first how wide a gap a chimney needs, without which
// nothing is planned, then size and frame, each size asked one way only. The list
// is taken anew after each answer.
func (a Answered) ToOrder(p *Place) []Question {
	var first, out, after []Question
	for _, q := range a.List.In(PlaceScope, p.Kind) {
		if !q.ToOrder || !a.Asked(q, p) || a.otherwiseSized(q.Key, p) {
			continue
		}
		switch q.Key {
		case "chimney", "clearance_in", "gap_in":
			first = append(first, q)
		case "openings_ft2": // in one sum only where they are not listed one by one
			after = append(after, q)
		default:
			out = append(out, q)
		}
	}
	return slices.Concat(first, out, after)
}

// otherwiseSized reports whether what a question asks is told by another answer.
func (a Answered) otherwiseSized(key string, p *Place) bool {
	given := func(key string) bool { return p.Answers[key].State == Given }
	switch key {
	case "length_ft":
		return given("lengths_ft")
	case "lengths_ft":
		return given("length_ft")
	case "area_ft2":
		return a.measured(p)
	case "clearance_in":
		// Brick and stone have no listing. It stays away when it was given, too: a
		// question must not leave while its answer is taken away to type another.
		brick, ok := a.Masonry(p)
		return ok && brick
	case "openings":
		return given("openings_ft2")
	case "openings_ft2":
		return given("openings")
	}
	return false
}

// Counts are how many questions are asked about a new house of the usual shape.
type Counts struct {
	House, Matters int
	Places         int // that are proposed
	Sizes          int // about size and frame, all places together
}

// Counts works out how many questions the rough look asks, or all of them.
func (l *QuestionList) Counts(rough bool) Counts {
	a := Answered{List: l, House: New()}
	count := func(qs []Question) (n int) {
		for _, q := range qs {
			if a.Asked(q, nil) && (!rough || q.Rough) {
				n++
			}
		}
		return n
	}
	out := Counts{House: count(l.OfHouse())}
	rough = false // what matters is asked in full
	out.Matters = count(l.OfMatters())
	Propose(l, a.House)
	out.Places = len(a.House.Places)
	for i := range a.House.Places {
		out.Sizes += len(a.ToOrder(&a.House.Places[i]))
	}
	return out
}
