package wetting

import (
	"fmt"
	"math"
)

// How exactly a step is settled: RH as a share, vapor pressure as a share of
// saturation. What is left of it is carried into the next step, so no water is
// lost by it.
const (
	settledRH    = 0.002
	settledPa    = 0.005
	mostPasses   = 14
	mostTurnC    = 30.0 // of a pass
	mostHalvings = 8
)

// step goes dt seconds on between two edges. A step that does not settle is
// taken in halves; ErrUnsettled after too many.
func (s *solver) step(dt float64, room, out *Edge) error { return s.halve(dt, room, out, 0) }

func (s *solver) halve(dt float64, room, out *Edge, depth int) error {
	if s.settle(dt, room, out) {
		return nil
	}
	if depth == mostHalvings {
		return fmt.Errorf("%w: %v s", ErrUnsettled, dt)
	}
	for range 2 {
		if err := s.halve(dt/2, room, out, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// settle tries one step of backward Euler by Newton's method, heat and moisture
// together. It leaves everything as it was when it fails.
func (s *solver) settle(dt float64, room, out *Edge) bool {
	for i := range s.cells {
		c := &s.cells[i]
		c.told, c.uold = c.t, c.u
		c.warm = c.heat + waterJKGK*c.stored
	}
	for range mostPasses {
		s.pass(dt, room, out)
		if s.update() {
			s.commit(dt, room, out)
			return true
		}
	}
	for i := range s.cells {
		c := &s.cells[i]
		c.t, c.u = c.told, c.uold
		s.evaluate(i)
	}
	return false
}

// pass solves the linear balance of all cells around the present state: two
// unknowns for each cell, the change of temperature and of u.
func (s *solver) pass(dt float64, room, out *Edge) {
	s.passes++
	n := len(s.cells)
	s.room = s.face(&s.links[0], &s.cells[0], room)
	s.out = s.face(&s.links[n], &s.cells[n-1], out)
	s.assemble(1 / dt)
	for _, i := range s.airy {
		s.cells[i].draw(room, out)
	}
	s.eliminate()
}

// assemble writes the balance of each cell: what is stored, and what flows
// through its two sides. The heat rows have the moisture rows times the heat
// of evaporation taken off, so that of the vapor only its storage is in them.
func (s *solver) assemble(per float64) {
	c, k := &s.cells[0], &s.links[0]
	heat, liquid := k.k*(s.room.t-c.t), k.l*(s.room.pot-c.pot)
	moist := k.g*(s.room.p-c.p) + liquid
	last := len(s.cells) - 1
	for i := range s.cells {
		c, k, r := &s.cells[i], &s.links[i], &s.links[i+1]
		full := c.thick * c.tab.ref * per
		grow := full * (1 - c.dPhi)
		owed := full*(c.u-c.phi) - c.stored*per
		g, l := k.g+r.g, (k.l+r.l)*c.dPot
		c.d11, c.d12 = c.warm*per+k.k+r.k, -latentJKG*(grow+l)
		c.d21, c.d22 = g*c.pT, grow+g*c.pU+l
		c.r1 = latentJKG*(owed-liquid) - c.warm*per*(c.t-c.told) + heat
		c.r2 = moist - owed
		next := s.out
		if i < last {
			x := &s.cells[i+1]
			next = beyond{x.t, x.p, x.pot}
		}
		heat, liquid = r.k*(c.t-next.t), r.l*(c.pot-next.pot)
		moist = r.g*(c.p-next.p) + liquid
		c.r1 -= heat - latentJKG*liquid
		c.r2 -= moist
	}
}

// draw adds what moving air brings to the balance of a cell. Outdoor air and
// leaks into a layer of air go both ways; a leak into a material only wets it.
func (c *cell) draw(room, out *Edge) {
	perKG := 1 / (vaporGas * (c.t + zeroK))
	c.ventK, c.ventG, c.leakK, c.leakG = 0, 0, 0, c.leak*perKG
	if c.air != nil {
		flow := (c.air.PerHour + c.air.PerHourPerMS*out.WindMS) * c.thick / secPerHour
		c.ventK, c.ventG = airDensity*airHeat*flow, flow*perKG
		c.leakK = airDensity * airHeat * c.leak
	} else if room.VaporPa <= c.p {
		c.leakG = 0
	}
	c.d11 += c.ventK + c.leakK
	c.r1 += c.ventK*(out.AirC-c.t) + c.leakK*(room.AirC-c.t)
	g := c.ventG + c.leakG
	c.d21 += g * c.pT
	c.d22 += g * c.pU
	c.r2 += c.ventG*(out.VaporPa-c.p) + c.leakG*(room.VaporPa-c.p)
}

// eliminate solves the rows from the room outwards and back. What follows is
// the change of t in r1 and of u in r2.
func (s *solver) eliminate() {
	cells, links := s.cells, s.links
	var n11, n12, n21, n22, z1, z2, bT, bU, bPot float64 // of the cell before
	for i := range cells {
		c, k := &cells[i], &links[i]
		// What is known of the cell before, put into the rows of this one.
		a12, a21 := -latentJKG*k.l*bPot, k.g*bT
		a22 := k.g*bU + k.l*bPot
		d11, d12 := c.d11-k.k*n11-a12*n21, c.d12-k.k*n12-a12*n22
		d21, d22 := c.d21-a21*n11-a22*n21, c.d22-a21*n12-a22*n22
		r1, r2 := c.r1+k.k*z1+a12*z2, c.r2+a21*z1+a22*z2
		inv := 1 / (d11*d22 - d12*d21)
		d11, d12, d21, d22 = d22*inv, -d12*inv, -d21*inv, d11*inv
		z1, z2 = d11*r1+d12*r2, d21*r1+d22*r2
		c.r1, c.r2 = z1, z2
		if i+1 == len(cells) {
			break
		}
		x, r := &cells[i+1], &links[i+1]
		c12, c21 := -latentJKG*r.l*x.dPot, r.g*x.pT
		c22 := r.g*x.pU + r.l*x.dPot
		n11, n12 = d11*r.k+d12*c21, d11*c12+d12*c22
		n21, n22 = d21*r.k+d22*c21, d21*c12+d22*c22
		c.n11, c.n12, c.n21, c.n22 = n11, n12, n21, n22
		bT, bU, bPot = c.pT, c.pU, c.dPot
	}
	for i := len(cells) - 2; i >= 0; i-- {
		c := &cells[i]
		z1, z2 = c.r1+c.n11*z1+c.n12*z2, c.r2+c.n21*z1+c.n22*z2
		c.r1, c.r2 = z1, z2
	}
}

// update takes the change of a pass and says whether the balance is settled:
// whether the straight lines the pass went along still hold where it came to.
// A cell that would pass saturation stops there first; one that would leap stops
// short.
func (s *solver) update() bool {
	settled := true
	for i := range s.cells {
		c := &s.cells[i]
		tab := c.tab
		c.philin, c.potlin = c.phi+c.dPhi*c.r2, c.pot+c.dPot*c.r2
		c.plin = c.p + c.pT*c.r1 + c.pU*c.r2
		c.ulin = c.u + c.r2
		u := c.ulin
		if wet := u >= tab.top; wet != (c.u >= tab.top) && math.Abs(u-tab.top) > settledRH {
			settled = false
			if u = tab.top; !wet {
				u -= 1e-12
			}
		}
		turn := min(max(c.r1, -mostTurnC), mostTurnC)
		if turn != c.r1 || u < -settledRH {
			settled, u = false, max(u, 0)
		}
		c.t, c.u = c.t+turn, min(u, tab.full)
		s.evaluate(i)
		if math.Abs(c.phi-c.philin) > settledRH && c.ulin < tab.full || math.Abs(c.p-c.plin) > settledPa*c.sat {
			settled = false
		}
	}
	return settled
}

// commit books the water of the step as the pass balanced it.
func (s *solver) commit(dt float64, room, out *Edge) {
	for i := range s.cells {
		c := &s.cells[i]
		c.stored = c.thick * c.tab.ref * (c.ulin - c.philin)
		s.heatKept += c.warm * (c.t - c.told)
		if c.ulin > c.tab.full {
			left := c.thick * c.tab.ref * (c.tab.full - 1)
			s.runoff += c.stored - left
			c.stored = left
		}
	}
	for _, i := range s.airy {
		c := &s.cells[i]
		s.vaporIn += dt * (c.ventG*(out.VaporPa-c.plin) + c.leakG*(room.VaporPa-c.plin))
		s.heatIn += dt * (c.ventK*(out.AirC-c.t) + c.leakK*(room.AirC-c.t))
	}
	n := len(s.cells)
	s.enter(dt, &s.links[0], &s.cells[0], s.room)
	s.enter(dt, &s.links[n], &s.cells[n-1], s.out)
}

// enter books what came in through an outer face.
func (s *solver) enter(dt float64, k *link, c *cell, b beyond) {
	s.heatIn += dt * k.k * (b.t - c.t)
	s.vaporIn += dt * k.g * (b.p - c.plin)
	s.liquidIn += dt * k.l * (b.pot - c.potlin)
}
