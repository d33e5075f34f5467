package moisture

// Limits of what is accepted. Slices are those of the thermal cut below; a
// blanket of R 60 h.ft2.F/Btu makes 43 of them.
const (
	MaxLayers    = 24
	MaxSlices    = 159
	SliceRM2KW   = 0.25 // thickest slice in m2K/W (ISO 13788:2012 clause 6)
	maxLayerR    = 100.0
	maxSurfaceR  = 5.0
	maxMonthDays = 366.0

	// thinSdM: steps of less sd than this count as none, so that a layer
	// given only for its R never divides by zero.
	thinSdM = 1e-9
)

// Layer is one layer of an assembly, listed from the room outwards.
type Layer struct {
	Name  string
	RM2KW float64 // thermal resistance, m2K/W, 0 to 100
	SdM   float64 // vapour resistance as metres of still air, 0 to MaxSdM
	// SdDryingM is the sd while the assembly dries, for a layer that opens
	// when it is wet (paper facing, smart retarder); 0 means the same as SdM.
	// It counts only while water held is leaving and leaves faster for it.
	// Damp summer air pressing inwards on such a layer meets SdM: a little too
	// wet rather than too dry.
	SdDryingM float64
	// Sensitive: fiber, wood or gypsum at its faces, which moulds or sags when
	// wet. A plane is judged when a layer that touches it is sensitive.
	Sensitive bool
}

func (l Layer) dryingSdM() float64 {
	if l.SdDryingM == 0 {
		return l.SdM
	}
	return l.SdDryingM
}

func (l Layer) check() error {
	if !within(l.RM2KW, 0, maxLayerR) {
		return refuse(ErrLayer, l.Name+" R", l.RM2KW)
	}
	if !within(l.SdM, 0, MaxSdM) {
		return refuse(ErrLayer, l.Name+" sd", l.SdM)
	}
	if !within(l.SdDryingM, 0, MaxSdM) {
		return refuse(ErrLayer, l.Name+" drying sd", l.SdDryingM)
	}
	// A layer cannot be there for one direction only: the two cuts of the
	// assembly have to have the same planes.
	if l.SdDryingM > 0 && (l.SdM < thinSdM*MaxSlices || l.SdDryingM < thinSdM*MaxSlices) {
		return refuse(ErrLayer, l.Name+" drying sd", l.SdDryingM)
	}
	return nil
}

func checkSurfaces(rsi, rse float64) error {
	if !within(rsi, 0, maxSurfaceR) {
		return refuse(ErrResistance, "inside surface", rsi)
	}
	if !within(rse, 0, maxSurfaceR) {
		return refuse(ErrResistance, "outside surface", rse)
	}
	return nil
}

func (m Month) check() error {
	for _, t := range [...]float64{m.OutC, m.InC} {
		if !within(t, MinTempC, MaxTempC) {
			return refuse(ErrTemperature, "C", t)
		}
	}
	for _, p := range [...]float64{m.OutPa, m.InPa} {
		if !within(p, 0, maxPa) {
			return refuse(ErrPressure, "Pa", p)
		}
	}
	if !within(m.Days, 1e-3, maxMonthDays) {
		return refuse(ErrMonth, "days", m.Days)
	}
	return nil
}
