package moisture

import "math"

// minFactorK is the least difference between room and outside for which a
// temperature factor means anything.
const minFactorK = 0.1

// FRsi is the temperature factor of an inside surface at surfaceC between a
// room at inC and outside at outC: 1 when it is as warm as the room, 0 when
// as cold as outdoors (ISO 13788; read in a university script).
// ErrTemperature, ErrFactor when the two sides differ by less than 0.1 K.
func FRsi(surfaceC, inC, outC float64) (float64, error) {
	for _, t := range [...]float64{surfaceC, inC, outC} {
		if !within(t, MinTempC, MaxTempC) {
			return 0, refuse(ErrTemperature, "C", t)
		}
	}
	if math.Abs(inC-outC) < minFactorK {
		return 0, refuse(ErrFactor, "difference K", inC-outC)
	}
	return (surfaceC - outC) / (inC - outC), nil
}

// PlaneFRsi is the temperature factor of a plane part of total resistance
// totalRM2KW (both surfaces included) with inside surface resistance rsi.
// Use 0.25 m2K/W for rsi on opaque parts (corners, furniture), as the
// standards do for mold. ErrResistance.
func PlaneFRsi(rsi, totalRM2KW float64) (float64, error) {
	if !within(rsi, 0, maxSurfaceR) {
		return 0, refuse(ErrResistance, "inside surface", rsi)
	}
	if !within(totalRM2KW, math.Max(rsi, 1e-6), maxLayerR*MaxLayers) {
		return 0, refuse(ErrResistance, "total", totalRM2KW)
	}
	return 1 - rsi/totalRM2KW, nil
}

// SurfaceLimits are the judgements of a surface check.
type SurfaceLimits struct {
	MaxRH float64 // monthly mean relative humidity at the surface, above 0 to 1; mold: 0.8
	// MinDifferenceK: months in which outside is not at least this much colder
	// than the room ask for no factor (the quotient loses its meaning), K.
	MinDifferenceK float64
}

// SurfaceCheck is a year at the inside surface. Months count 1 to 12, 0 none.
type SurfaceCheck struct {
	FRsi        float64 // the factor checked
	NeededFRsi  float64 // the largest any counted month asks for
	NeededMonth int
	WorstRH     float64 // pressure over saturation at the surface; above 1 = dew
	WorstMonth  int
	WorstTempC  float64 // surface temperature in that month
	Over        bool    // WorstRH is above the limit
	Dew         bool
}

// CheckSurface judges the inside surface of a part with temperature factor
// fRsi (0 to 1) over the months given, by ISO 13788:2012 clause 5 (from
// memory; the critical humidity read in a university script): the surface
// must be warm enough for its monthly humidity to stay under limits.MaxRH.
// Errors wrap ErrFactor, ErrLimit, ErrMonth, ErrTemperature or ErrPressure.
func CheckSurface(fRsi float64, months [Months]Month, limits SurfaceLimits) (SurfaceCheck, error) {
	if !within(fRsi, 0, 1) {
		return SurfaceCheck{}, refuse(ErrFactor, "fRsi", fRsi)
	}
	if !within(limits.MaxRH, 0.01, 1) {
		return SurfaceCheck{}, refuse(ErrLimit, "surface RH", limits.MaxRH)
	}
	if !within(limits.MinDifferenceK, minFactorK, MaxTempC) {
		return SurfaceCheck{}, refuse(ErrLimit, "difference K", limits.MinDifferenceK)
	}
	s := SurfaceCheck{FRsi: fRsi}
	for m := range months {
		if err := months[m].check(); err != nil {
			return SurfaceCheck{}, err
		}
		s.add(&months[m], m+1, limits)
	}
	s.Over, s.Dew = s.WorstRH > limits.MaxRH, s.WorstRH >= 1
	return s, nil
}

func (s *SurfaceCheck) add(m *Month, month int, limits SurfaceLimits) {
	t := m.OutC + s.FRsi*(m.InC-m.OutC)
	pa := min(m.InPa, satPa(m.InC))
	if rh := pa / satPa(t); rh > s.WorstRH {
		s.WorstRH, s.WorstMonth, s.WorstTempC = rh, month, t
	}
	if m.InC-m.OutC < limits.MinDifferenceK {
		return
	}
	// Bone-dry air asks for nothing; keep the logarithm in its range.
	dew, err := DewPointC(max(pa/limits.MaxRH, satPa(MinTempC)))
	if err != nil {
		return // above saturation at 90 C: cannot be after the cap
	}
	if f := (dew - m.OutC) / (m.InC - m.OutC); f > s.NeededFRsi {
		s.NeededFRsi, s.NeededMonth = f, month
	}
}
