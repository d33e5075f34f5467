package house_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"

	"battwright/rules/house"
)

// randomHouse answers a random part of the question list with answers that
// every question takes: "don't know" where it is offered, the ends of ranges,
// and texts with all that a text may hold.
func randomHouse(l *house.QuestionList, r *rand.Rand) *house.House {
	h := house.New()
	for _, s := range []house.Scope{house.Top, house.Site, house.Shape, house.Drawings, house.Priorities, house.Budget} {
		randomAnswers(r, l.In(s, ""), h.Answers, true)
	}
	kinds := l.PlaceKinds()
	for range r.IntN(6) {
		p := h.Add(kinds[r.IntN(len(kinds))])
		if r.IntN(2) == 0 {
			p.ID = fmt.Sprintf("%s \"%d\"", randomText(r), len(h.Places))
		}
		qs := l.In(house.PlaceScope, p.Kind)
		randomAnswers(r, qs, p.Answers, false)
		for _, q := range qs {
			if r.IntN(8) == 0 {
				p.Measured = append(p.Measured, q.Key)
			}
		}
	}
	for i := range r.IntN(3) {
		v := house.Variant{Name: fmt.Sprint(randomText(r), i), Answers: house.Answers{}}
		randomAnswers(r, l.In(house.Priorities, ""), v.Answers, true)
		randomAnswers(r, l.In(house.Budget, ""), v.Answers, true)
		h.Variants = append(h.Variants, v)
	}
	for range r.IntN(3) {
		h.SetQuote(randomQuote(l, r))
	}
	return h
}

// randomQuote is a label as the store has it, with or without a price.
func randomQuote(l *house.QuestionList, r *rand.Rand) house.Quote {
	products := l.Catalog().Products
	p := products[r.IntN(len(products))]
	q := house.Quote{Product: p.ID, Pieces: 1 + r.IntN(40), WidthIn: 6 + 54*r.Float64(), LengthIn: 12 + float64(r.IntN(1000))}
	if len(p.Facings) > 0 && r.IntN(2) == 0 {
		q.Facing = p.Facings[r.IntN(len(p.Facings))]
	}
	switch r.IntN(3) {
	case 0:
		q.USD, q.Per = 0.01+500*r.Float64(), house.PerPackage
	case 1:
		q.USD, q.Per = 0.01+5*r.Float64(), house.PerFt2
	}
	if face := q.FaceFt2(); r.IntN(2) == 0 && face > 1 && face < 8000 {
		q.CoverageFt2 = face * (0.9 + 0.2*r.Float64())
	}
	q.Have = r.IntN(20)
	return q
}

func randomAnswers(r *rand.Rand, qs []house.Question, into house.Answers, full bool) {
	for _, q := range qs {
		if r.IntN(3) == 0 {
			continue
		}
		key := q.Key
		if full {
			key = q.FullKey()
		}
		into.Set(key, randomAnswer(r, q))
	}
}

func randomAnswer(r *rand.Rand, q house.Question) house.Answer {
	if q.DontKnow && r.IntN(4) == 0 {
		return house.DontKnow()
	}
	switch q.Kind {
	case house.Choice:
		return house.Text(q.Options[r.IntN(len(q.Options))].Value)
	case house.YesNoKind:
		return house.YesNo(r.IntN(2) == 0)
	case house.NumberKind:
		return house.Number(randomNumber(r, q))
	case house.Numbers:
		var list []string
		for range max(q.Count, 1+r.IntN(q.Most+1)) {
			if n := max(q.Count, q.Most); len(list) == n {
				break
			}
			list = append(list, plainNumber(randomNumber(r, q)))
		}
		return house.List(list...)
	case house.Sizes:
		var list []string
		for range r.IntN(4) {
			side := func() float64 { return math.Round((6+474*r.Float64())*16) / 16 }
			list = append(list, house.Opening{Count: 1 + r.IntN(9), WidthIn: side(), HeightIn: side()}.String())
		}
		return house.List(list...)
	case house.Many:
		var list []string
		for _, o := range q.Options {
			if r.IntN(2) == 0 {
				list = append(list, o.Value)
			}
		}
		return house.List(list...)
	}
	if q.Valid != nil {
		return house.Text("burlington-vt")
	}
	text := randomText(r)
	if q.Normalize != nil {
		text = q.Normalize(text)
	}
	return house.Text(text)
}

func randomNumber(r *rand.Rand, q house.Question) float64 {
	v := q.Min + r.Float64()*(q.Max-q.Min)
	switch r.IntN(6) {
	case 0:
		v = q.Min
	case 1:
		v = q.Max
	case 2:
		v = math.Round(v*16) / 16
	case 3:
		v = q.Min + math.Ldexp(q.Max-q.Min, -r.IntN(60)) // very near the lower end
	}
	if q.Whole {
		v = math.Round(v)
	}
	return min(max(v, q.Min), q.Max)
}

func randomText(r *rand.Rand) string {
	parts := []string{"a", "Z", "7", "\"", "'", "\\", "#", "=", "[", "]", "{", "é", "e\u0301", "ß", "中", "🏠", "=\"x\"", "\\u0041", "-", ".", ",", "unknown", "true"}
	var b strings.Builder
	for range 1 + r.IntN(12) {
		b.WriteString(parts[r.IntN(len(parts))])
		if r.IntN(3) == 0 {
			b.WriteString(" ")
		}
	}
	text := strings.TrimSpace(b.String())
	if text == "unknown" { // to a question that offers it, this is no text
		return "unknown house"
	}
	return text
}
