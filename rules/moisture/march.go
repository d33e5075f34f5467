package moisture

// Workspace holds the scratch arrays of Year so that a run over many
// candidates does not allocate them again. The zero value is ready. It must
// not be used by two goroutines at once; results do not refer to it.
type Workspace struct {
	grid grid
	sat  [Months][maxPoints]float64 // saturation per node, for reports
	bar  [Months][maxPoints]float64 // what the string may not pass, with the ends
	held [maxPoints]float64         // kg/m2 at each node now
	gain [Months][maxPoints]float64 // kg/m2 collected at each node by month
	was  [Months][maxPoints]float64 // the same a year before
	mean [Months][maxPoints]float64 // mean pressure by month
	// rope with the usual sd, and with the drying sd.
	wetting, drying rope
	span            [Months]float64 // seconds
	inWet, outWet   [Months]bool
	inCap, outCap   [Months]bool
}

// prepare works out all that does not depend on the water held.
func (w *Workspace) prepare(months *[Months]Month) error {
	for m := range months {
		in := &months[m]
		if err := in.check(); err != nil {
			return err
		}
		w.grid.saturate(in.InC, in.OutC, &w.sat[m])
		w.bar[m] = w.sat[m]
		last := w.grid.last
		w.bar[m][0], w.inCap[m], w.inWet[m] = end(in.InPa, satPa(in.InC), w.sat[m][0])
		w.bar[m][last], w.outCap[m], w.outWet[m] = end(in.OutPa, satPa(in.OutC), w.sat[m][last])
		w.span[m] = in.Days * secPerDay
	}
	return nil
}

// end is the pressure at a surface: that of the air beside it, at most what
// the air can hold (capped) and at most what the surface can (wet: water
// condenses on it in the open, which is not part of the balance inside).
func end(pa, airSat, surfaceSat float64) (at float64, capped, wet bool) {
	capped = pa > airSat
	at = min(pa, airSat)
	return min(at, surfaceSat), capped, at > surfaceSat
}

// month carries the held water through one month. When a plane dries out on
// the way, the rest of the month goes on without it. With record set it also
// keeps the mean pressures.
func (w *Workspace) month(m int, record bool) {
	g, bar := &w.grid, &w.bar[m]
	left := w.span[m]
	for k := range g.last + 1 {
		w.gain[m][k] = 0
	}
	if record {
		w.mean[m] = [maxPoints]float64{}
	}
	// Every pass but the last dries one plane out for good; the limit is only
	// there so that rounding can never make this run on.
	for pass := 0; left > 0 && pass < 4*maxPoints; pass++ {
		r, sdM := w.tight(bar)
		step, dries := firstDry(r, &w.held, left)
		w.collect(m, r, step)
		if dries != noLayer {
			w.gain[m][dries] -= w.held[dries]
			w.held[dries] = 0
		}
		if record {
			r.addPressure(sdM, bar, step/w.span[m], &w.mean[m])
		}
		left -= step
	}
}

// tight pulls the string as things stand. A layer that opens when wet counts
// with its usual sd while the assembly gains water or holds none, and with
// its drying sd while water held is leaving and leaves faster for it.
func (w *Workspace) tight(bar *[maxPoints]float64) (*rope, *[maxPoints]float64) {
	g := &w.grid
	w.wetting.pull(g.last, &g.sdWetM, bar, &w.held)
	if !g.opens || w.dry() {
		return &w.wetting, &g.sdWetM
	}
	gain := w.wetting.total()
	if gain >= 0 {
		return &w.wetting, &g.sdWetM
	}
	w.drying.pull(g.last, &g.sdDryM, bar, &w.held)
	if w.drying.total() < gain {
		return &w.drying, &g.sdDryM
	}
	return &w.wetting, &g.sdWetM
}

// dry tells whether no water is held anywhere.
func (w *Workspace) dry() bool {
	for k := range w.grid.last + 1 {
		if w.held[k] > 0 {
			return false
		}
	}
	return true
}

// firstDry is how long the string stays as it is: until the first held plane
// has given up its water, or to the end of what is left of the month.
func firstDry(r *rope, held *[maxPoints]float64, left float64) (step float64, node int) {
	step, node = left, noLayer
	for i := 1; i < r.len-1; i++ {
		// A dry plane the string only just touches can show a rate a rounding
		// error below 0; it has nothing to give.
		k := r.at[i]
		if held[k] > 0 && held[k] < -r.rate[i]*step {
			step, node = held[k]/-r.rate[i], k
		}
	}
	return step, node
}

// collect moves the held water on by step seconds.
func (w *Workspace) collect(m int, r *rope, step float64) {
	for i := 1; i < r.len-1; i++ {
		k := r.at[i]
		change := max(r.rate[i]*step, -w.held[k])
		w.held[k] += change
		w.gain[m][k] += change
	}
}
