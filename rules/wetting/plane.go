package wetting

// spot is where a watched plane lies: between the cells of a link, behind so
// many of its sheets.
type spot struct {
	link   int
	sheets int
}

// spotOf finds plane k of a section.
func (s *solver) spotOf(sec *Section, k int) spot {
	p := spot{link: s.first[k]}
	for j := k - 1; j >= 0 && len(sec.Layers[j].Sheet) > 0; j-- {
		p.sheets++
	}
	return p
}

// side is what lies on one side of a plane: resistance to it, temperature,
// vapor pressure, humidity.
type side struct{ hv, hk, t, p, phi float64 }

func (s *solver) sideOf(i int, room, out *Edge) side {
	switch {
	case i < 0:
		return side{1 / room.VaporKG, 1 / room.HeatWM2K, s.room.t, s.room.p, -1}
	case i >= len(s.cells):
		return side{1 / out.VaporKG, 1 / out.HeatWM2K, s.out.t, s.out.p, -1}
	}
	c := &s.cells[i]
	return side{c.hv, c.hk, c.t, c.p, c.phi}
}

// at gives temperature in C and relative humidity, 0 to 1, at a plane: what
// heat and vapor flow lay between the middles of the cells on both sides.
func (s *solver) at(p spot, room, out *Edge) (tC, rh float64) {
	k := &s.links[p.link]
	a, b := s.sideOf(p.link-1, room, out), s.sideOf(p.link, room, out)
	phi := (a.phi + b.phi) / 2
	if a.phi < 0 {
		phi = b.phi
	} else if b.phi < 0 {
		phi = a.phi
	}
	before, after := a.hv, b.hv
	for i, sheet := range k.sheets {
		if r := sheet.at(phi); i < p.sheets {
			before += r
		} else {
			after += r
		}
	}
	tC, pa := a.t, a.p
	if sum := a.hk + b.hk; sum > 0 {
		tC += (b.t - a.t) * a.hk / sum
	}
	if sum := before + after; sum > 0 {
		pa += (b.p - a.p) * before / sum
	}
	sat, _ := s.sat.at(tC)
	return tC, min(1, pa/sat)
}

// freeAt is the free water in kg/m2 in the two cells at a plane.
func (s *solver) freeAt(p spot) float64 {
	sum := 0.0
	for i := max(0, p.link-1); i <= min(p.link, len(s.cells)-1); i++ {
		if c := &s.cells[i]; c.u > c.tab.top {
			sum += c.thick * c.tab.ref * (c.u - c.tab.top)
		}
	}
	return sum
}

// bit is a skin: its cells and the mass of their dry material.
type bit struct {
	from, to int
	dryKGM2  float64
}

func (s *solver) bitOf(sec *Section, k Skin) bit {
	from, to := s.first[k.Layer], s.first[k.Layer+1]
	b := bit{from: from, to: from}
	if k.Outer {
		b = bit{from: to, to: to}
	}
	const hair = 1e-9
	for deep := 0.0; deep < k.DepthM-hair && b.to-b.from < to-from; {
		if k.Outer {
			b.from--
			deep += s.cells[b.from].thick
		} else {
			deep += s.cells[b.to].thick
			b.to++
		}
	}
	for i := b.from; i < b.to; i++ {
		b.dryKGM2 += s.cells[i].thick * sec.Layers[k.Layer].Of.DensityKGM3
	}
	return b
}

// moisture is the water of a skin as a share of its dry mass.
func (s *solver) moisture(b bit) float64 {
	sum := 0.0
	for i := b.from; i < b.to; i++ {
		sum += s.cells[i].stored
	}
	return sum / b.dryKGM2
}
