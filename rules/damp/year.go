package damp

import "battwright/rules/wetting"

// Year is the year of the section that comes out worst, month by month from
// January: built as it should be, and with holes. Of wood the water in it, kg/kg;
// where there is no wood, the humidity at the plane with the most mold, 0 to 1.
type Year struct {
	Wood        bool
	Well, Holes Months
}

// Months are twelve months of one run.
type Months struct {
	Case string
	Of   [12]float64 // means
	Mold [12]float64 // highest mold index of all planes, at the end of the month
}

// daysOf are the days of each month; years are typical ones, of 365 days.
var daysOf = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// yearOf are the years of the runs that come out worst.
func yearOf(jobs []job, wood bool) Year {
	y := Year{Wood: wood}
	y.Well, y.Holes = worstYear(jobs, wood, false), worstYear(jobs, wood, true)
	return y
}

func worstYear(jobs []job, wood, holed bool) Months {
	at, most := -1, -1.0
	for i := range jobs {
		if jobs[i].holed != holed {
			continue
		}
		if worst := worstIn(&jobs[i].result, wood); worst > most {
			at, most = i, worst
		}
	}
	if at < 0 {
		return Months{}
	}
	return monthsOf(&jobs[at], wood)
}

// worstIn is the moisture of the wettest wood, or the most mold.
func worstIn(r *wetting.Result, wood bool) float64 {
	worst := 0.0
	for _, s := range r.Skins {
		if wood {
			worst = max(worst, s.Worst)
		}
	}
	for _, p := range r.Planes {
		if !wood {
			worst = max(worst, p.Mold)
		}
	}
	return worst
}

func monthsOf(x *job, wood bool) Months {
	out := Months{Case: x.name}
	values := daysToDraw(&x.result, wood)
	day := 0
	for m, n := range daysOf {
		for range n {
			if day < len(values) {
				out.Of[m] += values[day] / float64(n)
			}
			for _, p := range x.result.Planes {
				if day < len(p.Days) {
					out.Mold[m] = max(out.Mold[m], p.Days[day].Mold)
				}
			}
			day++
		}
	}
	return out
}

// daysToDraw are the days of the wettest wood, or the humidity where most mold is.
func daysToDraw(r *wetting.Result, wood bool) []float64 {
	var out []float64
	most := -1.0
	for _, s := range r.Skins {
		if wood && s.Worst > most {
			most, out = s.Worst, s.Days
		}
	}
	for _, p := range r.Planes {
		if wood || p.Mold <= most {
			continue
		}
		most, out = p.Mold, nil
		for _, d := range p.Days {
			out = append(out, d.RH)
		}
	}
	return out
}
