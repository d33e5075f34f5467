package wetting

// runner is a run on its way.
type runner struct {
	s      *solver
	planes []planeRun
	skins  []skinRun
	judged bool
	start  float64 // kg/m2 of water at the beginning
}

type planeRun struct {
	spot
	mold mold
	year PlaneYear
	sum  DayAt   // of the day so far, times hours
	days []DayAt // of all runs
}

type skinRun struct {
	bit
	sum  float64
	days []float64
}

func newRunner(sec *Section, days int) *runner {
	r := &runner{s: newSolver(sec)}
	for _, w := range sec.Watch {
		r.planes = append(r.planes, planeRun{spot: r.s.spotOf(sec, w.Plane), mold: mold{class: w.Class}, days: make([]DayAt, 0, days)})
	}
	for _, k := range sec.Skins {
		r.skins = append(r.skins, skinRun{bit: r.s.bitOf(sec, k), days: make([]float64, 0, days)})
	}
	r.start = r.s.water()
	return r
}

// through goes once through the hours in steps of so many.
func (r *runner) through(room, out []Edge, stepH float64) error {
	hours, parts := max(1, int(stepH)), max(1, int(1/stepH+0.5))
	for i := 0; i < len(out); i += hours {
		a, b := mean(room[i:min(i+hours, len(room))]), mean(out[i:min(i+hours, len(out))])
		for range parts {
			if err := r.s.step(stepH*secPerHour, &a, &b); err != nil {
				return err
			}
			r.look(stepH, &a, &b)
		}
		if (i+hours)%dayH == 0 {
			r.endDay()
		}
	}
	return nil
}

// mean is the mean of some hours.
func mean(hours []Edge) Edge {
	if len(hours) == 1 {
		return hours[0]
	}
	var m Edge
	share := 1 / float64(len(hours))
	for i := range hours {
		h := &hours[i]
		m.AirC += share * h.AirC
		m.VaporPa += share * h.VaporPa
		m.AbsorbedWM2 += share * h.AbsorbedWM2
		m.HeatWM2K += share * h.HeatWM2K
		m.VaporKG += share * h.VaporKG
		m.WindMS += share * h.WindMS
	}
	return m
}

// look notes what is watched after a step.
func (r *runner) look(stepH float64, room, out *Edge) {
	for i := range r.planes {
		p := &r.planes[i]
		tC, rh := r.s.at(p.spot, room, out)
		p.mold.pass(stepH, tC, rh)
		p.sum.TempC += stepH * tC
		p.sum.RH += stepH * rh
		if r.judged {
			p.year.Mold = max(p.year.Mold, p.mold.index)
			p.year.FreeGM2 = max(p.year.FreeGM2, gPerKG*r.s.freeAt(p.spot))
		}
	}
	for i := range r.skins {
		k := &r.skins[i]
		k.sum += stepH * r.s.moisture(k.bit)
	}
}

const gPerKG = 1000.0

func (r *runner) endDay() {
	for i := range r.planes {
		p := &r.planes[i]
		p.days = append(p.days, DayAt{p.sum.TempC / dayH, p.sum.RH / dayH, p.mold.index})
		p.sum = DayAt{}
	}
	for i := range r.skins {
		k := &r.skins[i]
		k.days = append(k.days, k.sum/dayH)
		k.sum = 0
	}
}

// result tells the last so many days.
func (r *runner) result(days int) Result {
	s := r.s
	out := Result{RunoffGM2: gPerKG * s.runoff}
	gained := s.water() - r.start
	out.DriftGM2 = gPerKG * (s.vaporIn + s.liquidIn - s.runoff - gained)
	out.DriftJM2 = s.heatIn + latentJKG*(gained+s.runoff-s.liquidIn) - s.heatKept
	for i := range r.planes {
		p := &r.planes[i]
		from := len(p.days) - days
		p.year.Days = p.days[from:]
		p.year.WorstRH = worstMonth(len(p.days), from, func(i int) float64 { return p.days[i].RH })
		out.Planes = append(out.Planes, p.year)
	}
	for _, k := range r.skins {
		from := len(k.days) - days
		at := func(i int) float64 { return k.days[i] }
		out.Skins = append(out.Skins, SkinYear{Worst: worstMonth(len(k.days), from, at), Days: k.days[from:], Means: means(len(k.days), from, at)})
	}
	return out
}

// worstMonth is the highest of the means.
func worstMonth(days, from int, at func(int) float64) float64 {
	worst := 0.0
	for _, mean := range means(days, from, at) {
		worst = max(worst, mean)
	}
	return worst
}

// means are the running means of MonthD days, or of all when there are fewer,
// that end on day from or later.
func means(days, from int, at func(int) float64) []float64 {
	span := min(MonthD, days)
	var out []float64
	sum := 0.0
	for i := range days {
		sum += at(i)
		if i >= span {
			sum -= at(i - span)
		}
		if i >= max(from, span-1) {
			out = append(out, sum/float64(span))
		}
	}
	return out
}
