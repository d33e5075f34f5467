package moisture

// Profile is an assembly in conditions that do not change: what one month of
// Year sees at its start, when nothing is wet yet.
type Profile struct {
	HeatWM2                     float64 // heat flow outwards
	TotalRM2KW                  float64 // both surface resistances included
	TotalSdM                    float64
	TempC                       []float64 // at the layers' faces, inside surface first
	SatPa, Pa                   []float64 // at the same faces
	Planes                      []WetPlane
	InKgM2S                     float64 // vapour entering from the room, negative when it leaves
	OutKgM2S                    float64 // vapour leaving to the outside
	InCapped                    bool    // pressure given above saturation
	OutCapped                   bool
	InSurfaceWet, OutSurfaceWet bool // dew on the surface itself
}

// WetPlane is a plane at which vapour condenses, placed as in Plane.
type WetPlane struct {
	Inner, Outer int
	Share        float64
	Judged       bool
	RateKgM2S    float64
}

// Steady gives temperatures, pressures and condensation for one set of
// conditions (m.Days only has to be valid). It is the check by the sd diagram
// that DIN 4108-3 and ISO 13788 build on. Errors as for Year.
func Steady(layers []Layer, rsi, rse float64, m Month) (Profile, error) {
	var w Workspace
	g := &w.grid
	if err := g.cut(layers, rsi, rse); err != nil {
		return Profile{}, err
	}
	if err := m.check(); err != nil {
		return Profile{}, err
	}
	var months [Months]Month
	for i := range months {
		months[i] = m
	}
	if err := w.prepare(&months); err != nil {
		return Profile{}, err
	}
	bar := &w.bar[0]
	w.wetting.pull(g.last, &g.sdWetM, bar, &w.held)
	w.wetting.addPressure(&g.sdWetM, bar, 1, &w.mean[0])
	return w.profile(&m), nil
}

func (w *Workspace) profile(m *Month) Profile {
	g, r, y := &w.grid, &w.wetting, &w.bar[0]
	p := Profile{
		HeatWM2: (m.InC - m.OutC) / g.rTotal, TotalRM2KW: g.rTotal, TotalSdM: g.sdWetM[g.last],
		TempC: make([]float64, g.layers+1), SatPa: make([]float64, g.layers+1), Pa: make([]float64, g.layers+1),
		InCapped: w.inCap[0], OutCapped: w.outCap[0], InSurfaceWet: w.inWet[0], OutSurfaceWet: w.outWet[0],
	}
	for i := range p.TempC {
		point := g.between[i]
		p.TempC[i] = g.tempC(point, m.InC, m.OutC)
		p.SatPa[i] = satPa(p.TempC[i])
		p.Pa[i] = w.mean[0][g.node[point]]
	}
	for i := 1; i < r.len-1; i++ {
		at := g.place(r.at[i])
		p.Planes = append(p.Planes, WetPlane{at.Inner, at.Outer, at.Share, at.Judged, r.rate[i]})
	}
	a, b := r.at[1], r.at[r.len-2]
	p.InKgM2S = DeltaAir * (y[0] - y[a]) / g.sdWetM[a]
	p.OutKgM2S = DeltaAir * (y[b] - y[g.last]) / (g.sdWetM[g.last] - g.sdWetM[b])
	return p
}
