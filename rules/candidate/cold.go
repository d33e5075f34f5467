package candidate

import (
	"slices"

	"battwright/rules/catalog"
)

// Cold is a place in steady cold: the mean of the coldest month, through the blanket
// and not through the wood.
type Cold struct {
	InC, OutC float64
	Layers    []string  // names, inside first
	InnerC    []float64 // temperature at the inner face of each
}

// Coldest works it out; false where what lies beyond is no air and no soil that
// anybody knows: under a roof, beside a chimney, without a climate.
func (r *PlaceResult) Coldest(a *Assessed) (Cold, bool) {
	s := r.Surface
	if s.Kind.Airway != "" || s.Kind.Boundary == "none" || !r.site.HasClimate {
		return Cold{}, false
	}
	out := Cold{InC: r.c.Settings.HeatingC, OutC: slices.Min(r.site.MeanC[:])}
	if s.Kind.Boundary == "soil" {
		out.OutC = r.site.coldestSoil(r.c.Settings.SoilAmpShare)
	}
	list := coldLayers(s, r.c, a, r.Target)
	outer := s.Kind.OutsideFilmR
	if s.Cladding.ID != "direct" && s.Kind.HasLayer(catalog.RoleCladding) {
		outer = s.Kind.InsideFilmR // the air behind it is still
	}
	all := s.Kind.InsideFilmR + outer
	for _, l := range list {
		all += l.r
	}
	passed := s.Kind.InsideFilmR
	for _, l := range list {
		out.Layers = append(out.Layers, l.name)
		out.InnerC = append(out.InnerC, out.InC+(out.OutC-out.InC)*passed/all)
		passed += l.r
	}
	return out, true
}

type coldLayer struct {
	name string
	r    float64
}

// coldLayers are the layers from the room outwards. A cladding with air behind it
// holds no heat.
func coldLayers(s Surface, c *catalog.Catalog, a *Assessed, t Target) []coldLayer {
	var out []coldLayer
	add := func(name string, r float64) { out = append(out, coldLayer{name, r}) }
	for _, l := range s.Kind.Layers {
		switch l.Role {
		case catalog.RoleBlanket:
			if f, ok := c.Facing(a.Facing.Retarder()); ok && f.ID != "none" {
				add(f.Name, 0)
			}
			add(a.Material.Name, a.CavityR)
		case catalog.RoleSheathing:
			add(s.Sheathing.Name.In(s.System), s.Sheathing.R)
		case catalog.RoleBoard:
			if r := s.CIR + t.AddR; r > 0 {
				add(c.Foam.Name, r)
			}
		case catalog.RoleCladding:
			if s.Cladding.ID == "direct" {
				add(s.Cladding.Name.In(s.System), s.Cladding.R)
			}
		default:
			add(l.Name.In(s.System), l.R)
		}
	}
	return out
}
