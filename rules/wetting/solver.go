package wetting

import "math"

// cell is one slice of a section.
type cell struct {
	tab   *table
	thick float64 // m
	half  float64 // m
	heat  float64 // J/(m2 K), dry
	air   *Air    // for moving air
	leak  float64 // m3/(m2 s) of room air

	t, u       float64 // C; RH + water/ref
	told, uold float64 // at the beginning of the step
	stored     float64 // kg/m2 of water, as the balance has it

	// Looked up at t and u.
	phi, dPhi float64 // humidity and its slope by u
	pot, dPot float64 // potential of liquid flow and its slope by u
	hv, hk    float64 // resistance of half the cell to vapor and heat
	sat       float64 // saturation pressure
	p, pT, pU float64 // vapor pressure and its slopes by t and u

	// What air brings in this step: outdoor air, then air of the room.
	ventK, ventG, leakK, leakG float64

	warm               float64 // J/(m2 K), dry material and its water
	d11, d12, d21, d22 float64 // balance of heat and moisture by t and u
	n11, n12, n21, n22 float64 // how the change here follows that of the next cell
	r1, r2             float64 // what is out of balance; then the change

	// Where the pass went: u, humidity, vapor pressure and potential of liquid.
	ulin, philin, plin, potlin float64
}

// link joins a cell to the one before it; the first is the face of the room,
// the last the outer face.
type link struct {
	sheets  []*sheet
	liquid  float64 // 1/m between cells of one material, else 0
	g, k, l float64 // conductance to vapor, heat, liquid
}

// sheet is the resistance of a sheet over its mean humidity.
type sheet struct {
	r [sheetParts + 1]float64 // m2 s Pa/kg
}

const sheetParts = 64

func newSheet(perm Curve) *sheet {
	s := &sheet{}
	for i := range s.r {
		s.r[i] = 1 / perm.at(float64(i)/sheetParts)
	}
	return s
}

// at is the resistance at a humidity of 0 to 1.
func (s *sheet) at(phi float64) float64 {
	x := min(max(phi, 0), 1) * sheetParts
	k := min(int(x), sheetParts-1)
	return s.r[k] + (s.r[k+1]-s.r[k])*(x-float64(k))
}

// solver is a section ready to be stepped. Steps do not allocate.
type solver struct {
	sat   *saturations
	cells []cell
	links []link // one more than cells
	first []int  // first cell of each layer, of a sheet the cell after it
	airy  []int  // cells that air comes into

	// What went in so far, kg/m2 and J/m2, and water that ran off.
	vaporIn, liquidIn, heatIn, runoff float64
	heatKept                          float64 // J/m2 that warmed the section

	room, out beyond // behind the two faces in this step
	passes    int
}

func newSolver(sec *Section) *solver {
	s := &solver{sat: newSaturations()}
	tables := map[*Material]*table{}
	var pending []*sheet
	var last *Material
	for i := range sec.Layers {
		l := &sec.Layers[i]
		s.first = append(s.first, len(s.cells))
		if len(l.Sheet) > 0 {
			pending, last = append(pending, newSheet(l.Sheet)), nil
			continue
		}
		m := l.Of
		if m == nil {
			m = airMaterial(l.Air, l.ThickM)
		}
		if tables[m] == nil {
			tables[m] = newTable(m)
		}
		for _, d := range sec.cut(i) {
			s.add(cell{tab: tables[m], thick: d, half: d / 2, heat: d * m.DensityKGM3 * m.HeatJKGK, air: l.Air}, pending, m == last)
			pending, last = nil, m
		}
	}
	s.first = append(s.first, len(s.cells))
	s.links = append(s.links, link{sheets: pending})
	for _, k := range sec.Leaks {
		c := &s.cells[s.first[k.Layer]]
		c.leak += k.M3M2H / secPerHour
	}
	for i := range s.cells {
		if c := &s.cells[i]; c.air != nil || c.leak > 0 {
			s.airy = append(s.airy, i)
		}
	}
	s.start(sec.StartC, sec.StartRH)
	return s
}

func (s *solver) add(c cell, before []*sheet, same bool) {
	k := link{sheets: before}
	if same && len(s.cells) > 0 {
		k.liquid = 1 / (c.half + s.cells[len(s.cells)-1].half)
	}
	s.cells, s.links = append(s.cells, c), append(s.links, k)
}

// start puts the whole section to one temperature and one humidity.
func (s *solver) start(tC, rh float64) {
	for i := range s.cells {
		c := &s.cells[i]
		c.t, c.u = tC, c.tab.uAt(rh)
		s.evaluate(i)
		c.stored = c.thick * c.tab.ref * (c.u - c.phi)
	}
}

// water is what the section holds, kg/m2.
func (s *solver) water() float64 {
	sum := 0.0
	for i := range s.cells {
		sum += s.cells[i].stored
	}
	return sum
}

// evaluate looks up the functions of a cell and joins it to the one before.
func (s *solver) evaluate(i int) {
	c := &s.cells[i]
	g := c.tab.find(c.u)
	du := c.u - g.from
	c.phi, c.dPhi = g.phi+g.dPhi*du, g.dPhi
	c.pot, c.dPot = g.pot+g.dPot*du, g.dPot
	c.hv, c.hk = (g.rv+g.dRv*du)*c.half, (g.rk+g.dRk*du)*c.half
	sat, slope := s.sat.at(c.t)
	c.sat, c.p, c.pT, c.pU = sat, c.phi*sat, c.phi*slope, c.dPhi*sat
	if i == 0 {
		return
	}
	b, k := &s.cells[i-1], &s.links[i]
	rv, rk := b.hv+c.hv+k.resist((b.phi+c.phi)/2), b.hk+c.hk
	both := 1 / (rv * rk) // one division for two
	k.g, k.k = rk*both, rv*both
	k.l = k.liquid
}

// resist is the resistance of the sheets of a link to vapor.
func (k *link) resist(phi float64) float64 {
	sum := 0.0
	for _, s := range k.sheets {
		sum += s.at(phi)
	}
	return sum
}

// beyond is what stands behind an outer face: temperature, vapor pressure,
// potential of liquid.
type beyond struct{ t, p, pot float64 }

// face joins an outer cell to what it meets there.
func (s *solver) face(k *link, c *cell, e *Edge) beyond {
	k.g = 1 / (1/e.VaporKG + k.resist(c.phi) + c.hv)
	k.k = 1 / (1/e.HeatWM2K + c.hk)
	k.l = 0
	b := beyond{t: e.AirC + e.AbsorbedWM2/e.HeatWM2K, p: e.VaporPa}
	if math.IsInf(e.VaporKG, 1) && len(k.sheets) == 0 {
		sat, _ := s.sat.at(b.t)
		u := c.tab.uAt(min(1, e.VaporPa/sat))
		g := c.tab.find(u)
		k.l, b.pot = 1/c.half, g.pot+g.dPot*(u-g.from)
	}
	return b
}
