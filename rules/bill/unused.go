package bill

import (
	"slices"
)

// unused lists the blankets that a label or a price was typed for and that no
// place takes as the plan is now. A price that was mistyped can turn the plan
// away from its blanket; the quote must stay where it can be put right.
func (m *maker) unused() {
	for _, q := range m.a.House.Quotes {
		bought := slices.ContainsFunc(m.out.Lines, func(l Line) bool {
			return l.Product.ID == q.Product && (q.Facing == "" || l.Facing == q.Facing)
		})
		p, ok := m.c.Product(q.Product)
		if bought || !ok {
			continue
		}
		facing := q.Facing
		if facing == "" {
			facing = p.Facings[0]
		}
		label := m.labelOf(p, facing)
		material, _ := m.c.Material(p.Material)
		long := slices.Max(label.lengths)
		out, _ := m.sold(&Layer{Product: p, Material: material, Facing: facing, WidthIn: label.widths[0], LengthIn: long})
		out.Form, out.byPlace = formOf(p, long), make([]float64, len(m.out.Places))
		m.out.Unused = append(m.out.Unused, out)
	}
}
