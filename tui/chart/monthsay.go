package chart

import "strings"

// monthsSentence says what the words under the bars say, run by run.
func monthsSentence(o MonthsOpts) string {
	head := o.What + ", October to September"
	if o.Limit > 0 {
		head += ", against the line of " + o.LimitName + " at " + o.LimitText
	} else {
		head += "; the full height is " + o.LimitText
	}
	parts := []string{unstop(head)}
	for _, r := range o.Runs {
		parts = append(parts, upperFirst(r.Name)+": "+unstop(strings.Join(stretches(r.Words), ", ")))
	}
	return strings.Join(parts, ". ") + "."
}

func upperFirst(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return strings.ToUpper(string(r[0])) + string(r[1:])
}

// stretches are neighboring months of one word, from October on: "dry until
// January", "damp in February and March", "dry from April on".
func stretches(words [12]MonthWord) []string {
	var out []string
	for from := 0; from < 12; {
		word := words[monthAt(from)].Text
		to := from
		for to < 11 && words[monthAt(to+1)].Text == word {
			to++
		}
		out = append(out, word+" "+span(from, to))
		from = to + 1
	}
	return out
}

// span names months by their places in the drawing.
func span(from, to int) string {
	first, last := monthNames[monthAt(from)], monthNames[monthAt(to)]
	switch {
	case from == 0 && to == 11:
		return "in all twelve months"
	case from == to:
		return "in " + first
	case from == 0:
		return "until " + last
	case to == 11:
		return "from " + first + " on"
	case to == from+1:
		return "in " + first + " and " + last
	}
	return "from " + first + " to " + last
}
