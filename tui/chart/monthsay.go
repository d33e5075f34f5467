package chart

import "strings"

// nearZero is the share of the tallest month below which an amount counts as
// gone: what is left of rounding, not water.
const nearZero = 1e-6

// monthSentence says what the bars show: the tallest month, when it is gone or
// back under the limit, and what is missing.
func monthSentence(values [12]float64, o MonthsOpts) string {
	top, missing := -1, []int{}
	for m, v := range values {
		switch {
		case !known(v):
			missing = append(missing, m)
		case top < 0 || v > values[top]:
			top = m
		}
	}
	if top < 0 {
		return o.What + ": no figures."
	}
	parts := []string{o.What + " " + highest(values, top, o)}
	if o.Held && values[top] > 0 {
		parts = append(parts, gone(values, top))
	}
	if o.Limit > 0 {
		parts = append(parts, againstLimit(values, top, o))
	}
	if len(missing) > 0 {
		parts = append(parts, "there is no figure for "+list(spans(missing)))
	}
	return strings.Join(parts, "; ") + "."
}

func highest(values [12]float64, top int, o MonthsOpts) string {
	if o.Held && values[top] <= 0 {
		return "is nothing in any month"
	}
	// Months that are written alike are equal to the reader.
	text := o.Text(values[top])
	var same []int
	for m, v := range values {
		if known(v) && o.Text(v) == text {
			same = append(same, m)
		}
	}
	if len(same) == 12 {
		return "is the same in every month, " + text
	}
	return "is highest in " + list(spans(same)) + ", " + text
}

// gone finds the first month after the tallest, going round the year, that
// ends with nothing held.
func gone(values [12]float64, top int) string {
	for step := 1; step < 12; step++ {
		m := (top + step) % 12
		if known(values[m]) && values[m] <= nearZero*values[top] {
			return "it is gone by " + monthNames[m]
		}
	}
	return "it does not clear in any month of the year"
}

func againstLimit(values [12]float64, top int, o MonthsOpts) string {
	limit := "the limit of " + o.Text(o.Limit)
	var over []int
	for m, v := range values {
		if known(v) && v > o.Limit {
			over = append(over, m)
		}
	}
	switch len(over) {
	case 0:
		return "it is never over " + limit
	case 12:
		return "it is over " + limit + " in every month"
	}
	said := "it is over " + limit + " in " + list(spans(over))
	for step := 1; step < 12; step++ {
		if m := (top + step) % 12; known(values[m]) && values[m] <= o.Limit {
			return said + " and back within it in " + monthNames[m]
		}
	}
	return said
}

// spans names runs of months, December and January being neighbors: "November
// to March".
func spans(months []int) []string {
	var in [12]bool
	for _, m := range months {
		in[m] = true
	}
	if len(months) == 12 {
		return []string{"every month"}
	}
	var said []string
	for m := range in {
		if !in[m] || in[(m+11)%12] {
			continue // not the first month of a run
		}
		last := m
		for in[(last+1)%12] {
			last = (last + 1) % 12
		}
		switch {
		case last == m:
			said = append(said, monthNames[m])
		case last == (m+1)%12:
			said = append(said, monthNames[m], monthNames[last])
		default:
			said = append(said, monthNames[m]+" to "+monthNames[last])
		}
	}
	return said
}
