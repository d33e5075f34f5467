package wetting

import "math"

// parts is into how many pieces the range up to saturation is cut.
const parts = 256

// segment is one straight piece of the functions of u: value at its beginning
// and slope.
type segment struct {
	phi, dPhi float64 // relative humidity
	pot, dPot float64 // integral of liquid diffusivity over water, kg/(m s)
	rv, dRv   float64 // resistivity to vapor, m s Pa/kg
	rk, dRk   float64 // resistivity to heat, m K/W
	from      float64 // where it begins
}

// table holds a material as functions of u = RH + water/ref, in which both RH
// and water rise, neither of them steeper than 1 or ref: dry fiber, wood and
// free water need no switching. Up to top the sorption curve holds; above it
// RH is 1 and all the rise is water.
type table struct {
	ref  float64 // kg/m3
	top  float64 // u at saturation
	full float64 // u when full
	per  float64 // pieces for each unit of u
	seg  [parts + 1]segment
}

// newTable works out the table of a checked material. It allocates; steps do
// not.
func newTable(m *Material) *table {
	const leastRef = 1.0 // kg/m3: keeps free water in fiber from being all of u
	atSat := m.waterAt(1)
	t := &table{ref: max(atSat, leastRef)}
	t.top = 1 + atSat/t.ref
	t.full = 1 + m.FullKGM3/t.ref
	t.per = parts / t.top
	at := func(u float64) (phi, pot, rv, rk float64) {
		phi = m.humidityAt(u, t.ref)
		w := max(0, (u-phi)*t.ref)
		return phi, m.potentialAt(w), 1 / m.Vapor.at(phi), 1 / (m.LambdaWMK + m.LambdaPerKGM3*w)
	}
	fill := func(s *segment, u0, u1 float64) {
		s.from = u0
		var e segment
		s.phi, s.pot, s.rv, s.rk = at(u0)
		e.phi, e.pot, e.rv, e.rk = at(u1)
		du := u1 - u0
		s.dPhi, s.dPot = (e.phi-s.phi)/du, (e.pot-s.pot)/du
		s.dRv, s.dRk = (e.rv-s.rv)/du, (e.rk-s.rk)/du
	}
	for i := range parts {
		fill(&t.seg[i], t.top*float64(i)/parts, t.top*float64(i+1)/parts)
	}
	if t.full > t.top {
		fill(&t.seg[parts], t.top, t.full)
	} else {
		s := &t.seg[parts]
		s.from = t.top
		s.phi, s.pot, s.rv, s.rk = at(t.top)
	}
	t.seg[parts].phi, t.seg[parts].dPhi = 1, 0
	return t
}

// find is the piece in which u lies.
func (t *table) find(u float64) *segment {
	k := int(u * t.per)
	if k > parts || u >= t.top {
		k = parts
	}
	return &t.seg[max(0, k)]
}

// uAt is u at a relative humidity of 0 to 1.
func (t *table) uAt(rh float64) float64 {
	for i := range parts {
		if s := &t.seg[i]; i == parts-1 || rh < t.seg[i+1].phi {
			return min(t.top, s.from+(rh-s.phi)/s.dPhi)
		}
	}
	return t.top
}

// humidityAt is the relative humidity at which RH + water/ref is u.
func (m *Material) humidityAt(u, ref float64) float64 {
	x0, u0 := 0.0, 0.0
	for _, p := range m.Sorption {
		u1 := p.X + p.Y/ref
		if u <= u1 && u1 > u0 {
			return x0 + (p.X-x0)*(u-u0)/(u1-u0)
		}
		x0, u0 = p.X, u1
	}
	return 1
}

// potentialAt is the integral of the liquid diffusivity from no water to w.
func (m *Material) potentialAt(w float64) float64 {
	if len(m.Liquid) == 0 {
		return 0
	}
	first, last := m.Liquid[0], m.Liquid[len(m.Liquid)-1]
	sum := first.Y * min(w, first.X)
	for i := 1; i < len(m.Liquid) && w > m.Liquid[i-1].X; i++ {
		sum += geometric(m.Liquid[i-1], m.Liquid[i], min(w, m.Liquid[i].X))
	}
	return sum + last.Y*max(0, w-last.X)
}

// geometric is the integral from a.X to x of the curve that rises by the same
// factor over each equal stretch from a to b.
func geometric(a, b Point, x float64) float64 {
	rate := math.Log(b.Y/a.Y) / (b.X - a.X)
	if math.Abs(rate*(b.X-a.X)) < 1e-9 {
		return a.Y * (x - a.X)
	}
	return a.Y * math.Expm1(rate*(x-a.X)) / rate
}
