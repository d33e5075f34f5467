package chart

import (
	"fmt"
	"strconv"
	"strings"
)

// Step is one rung: what a sum buys.
type Step struct {
	Title string
	Price string // ready text: "$4,210" or "+$140"
	Here  bool   // the step the plan stands on
}

// Ladder draws steps one below the other, the cheapest first as the caller
// gives them. The step one stands on has a sign and the word HERE, the one
// after it the word "next".
func (p Pen) Ladder(steps []Step, width int) Drawing {
	p, width = p.ready(), clampWidth(width)
	if len(steps) == 0 {
		return p.empty(width)
	}
	digits := len(strconv.Itoa(len(steps)))
	open := " " + p.Glyphs.rail + blank(digits+2) + p.Glyphs.rail
	es := make([]entry, len(steps))
	for i, s := range steps {
		es[i] = entry{
			first: p.rung(i, digits, s.Here), more: open,
			head: stepWord(steps, i) + clean(s.Title), right: s.Price,
		}
	}
	var lines []string
	for i, group := range p.entries(es, width) {
		if i > 0 {
			lines = append(lines, open)
		}
		lines = append(lines, group...)
	}
	return p.finish(width, lines, ladderSentence(steps))
}

func (p Pen) rung(i, digits int, here bool) string {
	sign, bar := " ", p.Glyphs.rung
	if here {
		sign, bar = p.Glyphs.here, p.Glyphs.hereRung
	}
	number := p.padLeft(strconv.Itoa(i+1), digits)
	return sign + p.Glyphs.rail + bar + strings.ReplaceAll(number, " ", bar) + bar + p.Glyphs.rail
}

func stepWord(steps []Step, i int) string {
	switch {
	case steps[i].Here:
		return "HERE: "
	case i > 0 && steps[i-1].Here:
		return "next: "
	}
	return ""
}

func ladderSentence(steps []Step) string {
	parts := make([]string, len(steps))
	for i, s := range steps {
		part := strconv.Itoa(i + 1)
		if s.Here {
			part += " (you are here)"
		}
		parts[i] = strings.Join(present(part, aside(unstop(clean(s.Title)), s.Price)), " ")
	}
	noun := "steps"
	if len(steps) == 1 {
		noun = "step"
	}
	return fmt.Sprintf("A ladder of %d %s: %s.", len(steps), noun, strings.Join(parts, "; "))
}
