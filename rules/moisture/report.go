package moisture

// report turns the recorded year into a Result.
func (w *Workspace) report(months *[Months]Month, begin *[maxPoints]float64, years int, settled bool, opts Options) Result {
	res := Result{
		Years: years, Settled: settled, Wettest: -1, WettestJudged: -1,
		InCapped: w.inCap, OutCapped: w.outCap, InSurfaceWet: w.inWet, OutSurfaceWet: w.outWet,
	}
	w.planes(&res, begin, opts.StartMonth)
	w.interfaces(&res, months)
	res.sum()
	res.damp(months, opts)
	res.decide(opts.Limits)
	return res
}

// planes lists every node that held water.
func (w *Workspace) planes(res *Result, begin *[maxPoints]float64, start int) {
	count := 0
	for k := 1; k < w.grid.last; k++ {
		if w.wet(k, begin) {
			count++
		}
	}
	if count == 0 {
		return
	}
	res.Planes = make([]Plane, 0, count)
	for k := 1; k < w.grid.last; k++ {
		if w.wet(k, begin) {
			res.Planes = append(res.Planes, w.plane(k, begin[k], start))
		}
	}
}

func (w *Workspace) wet(k int, begin *[maxPoints]float64) bool {
	if begin[k] > 0 {
		return true
	}
	for m := range Months {
		if w.gain[m][k] != 0 {
			return true
		}
	}
	return false
}

// plane describes node k, which held begin kg/m2 when the year started.
func (w *Workspace) plane(k int, begin float64, start int) Plane {
	p := w.grid.place(k)
	var net float64
	for m := range Months {
		p.GainGM2[m] = w.gain[m][k] * gPerKg
		net += w.gain[m][k]
	}
	held := begin
	if net > growKgM2 {
		p.RemainderGM2 = net * gPerKg
		start = afterDriest(&p.GainGM2)
		held = 0
	}
	held *= gPerKg
	for i := range Months {
		m := (start + i) % Months
		held = max(0, held+p.GainGM2[m])
		p.HeldGM2[m] = held
	}
	p.PeakGM2, p.PeakMonth, p.ClearMonth = peak(&p.HeldGM2)
	if p.RemainderGM2 > 0 {
		p.ClearMonth = 0
	}
	return p
}

// place says where in the assembly node k lies.
func (g *grid) place(k int) Plane {
	a := g.first[k]
	b := a
	for b+1 < g.points && g.node[b+1] == k {
		b++
	}
	in := g.innerOf[a]
	p := Plane{Inner: in, Outer: g.outerOf[b], Judged: g.judged[k], Share: 1}
	if from, to := g.between[in], g.between[in+1]; to > from {
		p.Share = float64(a-from) / float64(to-from)
	}
	return p
}

// afterDriest is the month to start a growing year in so that what is held
// never falls below the start: the one after the running sum is lowest.
func afterDriest(gain *[Months]float64) int {
	sum, lowest, start := 0.0, 0.0, 0
	for m := range Months {
		sum += gain[m]
		if sum < lowest {
			lowest, start = sum, (m+1)%Months
		}
	}
	return start
}

// peak finds the most held at a month's end, and the first month after it
// that ends dry.
func peak(held *[Months]float64) (most float64, month, clear int) {
	for m, h := range held {
		if h > most {
			most, month = h, m+1
		}
	}
	if month == 0 {
		return 0, 0, 0
	}
	for i := range Months {
		if m := (month + i) % Months; held[m] <= dryGM2 {
			return most, month, m + 1
		}
	}
	return most, month, 0
}

// dryGM2 swallows rounding: a millionth of a gram is dry.
const dryGM2 = 1e-6

// interfaces fills temperature, pressure and humidity at the layers' faces.
func (w *Workspace) interfaces(res *Result, months *[Months]Month) {
	g := &w.grid
	res.Interfaces = make([]Interface, g.layers+1)
	for i := range res.Interfaces {
		f, point := &res.Interfaces[i], g.between[i]
		k := g.node[point]
		f.Judged = i > 0 && i < g.layers && g.judged[k]
		for m := range months {
			f.TempC[m] = g.tempC(point, months[m].InC, months[m].OutC)
			f.Pa[m] = w.mean[m][k]
			// Points that share a node have one pressure and the lowest
			// saturation of them, so this is at most 1 but for rounding.
			f.RH[m] = min(1, f.Pa[m]/satPa(f.TempC[m]))
		}
	}
}

// sum adds the planes up.
func (res *Result) sum() {
	var judged, all [Months]float64
	for i := range res.Planes {
		p := &res.Planes[i]
		if res.Wettest < 0 || p.PeakGM2 > res.Planes[res.Wettest].PeakGM2 {
			res.Wettest = i
		}
		if p.Judged {
			res.RemainderGM2 += p.RemainderGM2
			if res.WettestJudged < 0 || p.PeakGM2 > res.Planes[res.WettestJudged].PeakGM2 {
				res.WettestJudged = i
			}
		}
		for m, h := range p.HeldGM2 {
			all[m] += h
			if p.Judged {
				judged[m] += h
			}
		}
	}
	res.PeakGM2, res.PeakMonth, res.ClearMonth = peak(&judged)
	res.TotalPeakGM2, _, _ = peak(&all)
	if res.RemainderGM2 > 0 {
		res.ClearMonth = 0
	}
}

// damp finds the dampest months at the judged interfaces.
func (res *Result) damp(months *[Months]Month, opts Options) {
	for m := range months {
		outRH := min(1, months[m].OutPa/satPa(months[m].OutC))
		over := false
		for i := range res.Interfaces {
			f := &res.Interfaces[i]
			if !f.Judged {
				continue
			}
			res.Worst.raise(f.RH[m], m, i)
			if f.TempC[m] <= opts.Limits.MoldAboveC || opts.OutsideAir && f.RH[m] <= outRH {
				continue
			}
			res.WorstWarm.raise(f.RH[m], m, i)
			over = over || f.RH[m] > opts.Limits.MoldRH
		}
		if over {
			res.MoldMonths++
		}
	}
}

func (s *Spot) raise(rh float64, m, i int) {
	if rh > s.RH {
		*s = Spot{RH: rh, Month: m + 1, Interface: i}
	}
}

// decide draws the verdict from the judged planes alone.
func (res *Result) decide(l Limits) {
	switch held := res.PeakGM2 > l.TraceGM2; {
	case held && res.RemainderGM2 > 0:
		res.Verdict = StaysWet
	case res.PeakGM2 > l.PeakGM2, res.MoldMonths >= max(1, l.MoldMonths):
		res.Verdict = MoldRisk
	case held:
		res.Verdict = BuildsUpAndDries
	default:
		res.Verdict = NoBuildUp
	}
}
