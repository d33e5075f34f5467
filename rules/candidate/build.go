package candidate

import (
	"cmp"

	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/moisture"
	"battwright/rules/units"
)

// DampHouse is the house around a place for the hourly check of damp. Where the
// builder typed monthly figures of their own, no hourly year is like them.
func (s Site) DampHouse(surface Surface, c *catalog.Catalog) damp.House {
	none := ""
	if s.HasClimate {
		none = "you typed monthly weather, and no hourly year is like it; a listed US place has one"
	}
	return damp.House{
		NoClimate: none,
		Climate:   s.Climate, HasClimate: s.HasClimate && s.Climate.ID != "" && s.MeanC == s.Climate.MeanC, Marine: s.Marine,
		Indoor: s.indoor(surface, c), SoilAtShare: c.Settings.SoilAmpShare,
	}
}

// indoor is how the rooms beside a place are kept.
func (s Site) indoor(surface Surface, c *catalog.Catalog) moisture.Indoor {
	set := c.Settings
	in := moisture.Indoor{
		Class: s.class(), HeatingC: set.HeatingC, Cooled: s.Cooled, CoolingC: set.CoolingC, CoolAboveC: set.CoolAboveC,
		MaxRHCooled: set.RHCapCooled, MaxRH: set.RHCap,
	}
	if surface.Dehumid {
		in.DriedRH = set.RHDehumidified
	}
	return in
}

// DampBuild is a place with a candidate in it, its board and its sheets, there
// or to buy, for the hourly check of damp. Where board is still to be bought, its
// kind is open whatever is there.
func DampBuild(s Surface, c *catalog.Catalog, b Blankets, f Facing, t Target) damp.Build {
	out := damp.Build{
		Sections: s.Kind.Damp, NotJudged: s.Kind.NotJudged.In(s.System),
		HeightM: s.HeightFt * units.MPerFoot, AboveM: s.AboveFt * units.MPerFoot, Cover: s.Cover,
	}
	if t.AddR == 0 {
		out.Board = s.BoardKind
	}
	if s.Pitch != nil {
		deg := units.PitchDeg(*s.Pitch)
		out.PitchDeg = &deg
	}
	add := func(role damp.Role, name string, layers ...catalog.DampLayer) {
		out.Parts = append(out.Parts, damp.Part{Role: role, Name: name, Layers: layers})
	}
	for _, l := range s.Kind.Layers {
		name := l.Name.In(s.System)
		switch l.Role {
		case catalog.RoleBlanket:
			out.Parts = append(out.Parts, blanketParts(s, c, b, f)...)
		case catalog.RoleSheathing:
			add(damp.Bearer, s.Sheathing.Name.In(s.System), s.Sheathing.Damp...)
		case catalog.RoleBoard:
			if r := s.CIR + t.AddR; r > 0 {
				out.Parts = append(out.Parts, damp.Part{Role: damp.Board, Name: name, R: r})
			}
		case catalog.RoleCladding:
			add(damp.Shell, s.Cladding.Name.In(s.System), s.Cladding.Damp...)
		case catalog.RoleWrap:
			add(damp.Shell, name, l.Damp...)
		case catalog.RoleLining:
			add(damp.Lining, name, l.Damp...)
		case catalog.RoleBearer, catalog.RoleConcrete:
			add(damp.Bearer, name, l.Damp...)
		case catalog.RoleFinish:
			if !s.Exposed {
				add(damp.Covered, name, l.Damp...)
			}
			out.Bare = s.Exposed && f.Retarder() == "none"
		}
	}
	return out
}

// blanketParts are the blanket, or that there is none, with what lies on its two sides, as blanketDamp
// has them, and what a rule requires there.
func blanketParts(s Surface, c *catalog.Catalog, b Blankets, f Facing) []damp.Part {
	if b.Material == nil {
		return []damp.Part{{Role: damp.Blanket, None: true}}
	}
	out := faceParts(c, f.Retarder())
	if s.OldIn > 0 {
		out = append(out, fiber(c.DampLayers().OldBlanket, s.OldIn))
	}
	out = append(out, fiber(cmp.Or(b.Material.Damp, b.Material.ID), b.HeightIn))
	if f.Turned {
		out = append(out, faceParts(c, f.OnBlanket)...)
	}
	if s.FoamInBays {
		l := c.DampLayers()
		out = append(out, damp.Part{Role: damp.Lining, Name: "foam in the bays", Layers: []catalog.DampLayer{{Of: l.BayFoam, MM: l.BayFoamMM}}})
	}
	if s.UnderJoists {
		out = append(out, damp.Part{Role: damp.Shell, Name: "the layer under the joists", Layers: []catalog.DampLayer{{Perm: c.Settings.UnderJoistsPerm}}})
	}
	return out
}

func fiber(id string, thickIn float64) damp.Part {
	return damp.Part{Role: damp.Blanket, Name: id, Layers: []catalog.DampLayer{{Of: id, MM: thickIn * units.MmPerInch}}}
}

func faceParts(c *catalog.Catalog, id string) []damp.Part {
	record, ok := c.Facing(id)
	if !ok || record.ID == "none" {
		return nil
	}
	sheet := catalog.DampLayer{Of: record.Damp}
	if record.Damp == "" {
		sheet.Perm = record.Perm
	}
	return []damp.Part{{Role: damp.Lining, Name: record.Name, Layers: []catalog.DampLayer{sheet}}}
}
