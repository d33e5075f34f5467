package candidate

import "battwright/rules/catalog"

// Roles of a layer in the picture of a place.
const (
	RoleBoard     = "board"
	RoleFiber     = "fiber"
	RoleRetarder  = "retarder"
	RoleSheathing = "sheathing"
	RoleCladding  = "cladding"
	RoleGap       = "gap"
	RoleConcrete  = "concrete"
)

// StackLayer is one layer of a finished place, from inside to outside.
type StackLayer struct {
	Name, Note, Role string
}

// Stack lists the layers of a place with this candidate in it.
func (a Assessed) Stack(s Surface, c *catalog.Catalog, t Target) []StackLayer {
	var out []StackLayer
	add := func(role, name, note string) { out = append(out, StackLayer{name, note, role}) }
	for _, l := range s.Kind.Layers {
		switch l.Role {
		case catalog.RoleBlanket:
			if record, ok := c.Facing(a.Facing.Retarder()); ok && record.ID != "none" {
				add(RoleRetarder, record.Name, a.Facing.Side)
			}
			for _, b := range a.Layers {
				note := s.System.R(b.Product.NominalR) + " on the bag, " + s.System.Inches(b.RoomIn)
				if b.Across {
					note += ", across the joists"
				}
				add(RoleFiber, a.Material.Name, note)
			}
			if s.FoamInBays {
				add(RoleBoard, "unfaced foam cut to each bay", "to be bought; the temperatures leave it out")
			}
			if s.UnderJoists {
				add(RoleBoard, "the layer under the joists", "to be bought")
			}
		case catalog.RoleSheathing:
			add(RoleSheathing, s.Sheathing.Name.In(s.System), "")
		case catalog.RoleBoard:
			if r := s.CIR + t.AddR; r > 0 {
				note := s.System.R(r)
				switch {
				case t.AddR > 0 && s.CIR == 0:
					note += ", to be bought"
				case t.AddR > 0:
					note += ", of which " + s.System.R(t.AddR) + " is still to be bought"
				}
				add(RoleBoard, c.Foam.Name, note)
			}
		case catalog.RoleCladding:
			add(RoleCladding, s.Cladding.Name.In(s.System), "")
		case catalog.RoleConcrete:
			add(RoleConcrete, l.Name.In(s.System), "")
		default:
			add(RoleBoard, l.Name.In(s.System), "")
		}
	}
	switch {
	case s.Kind.Airway != "":
		add(RoleGap, "airway under the roof", "kept open")
	case s.Kind.BesideChimney:
		add(RoleGap, "GAP, EMPTY", s.System.Clearance(s.Clearance.Inches)+" to the chimney")
	}
	return out
}
