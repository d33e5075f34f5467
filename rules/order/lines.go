package order

import (
	"cmp"
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// lines pools the blankets of all places by what is bought together.
func (m *maker) lines() {
	groups := map[key][]*Layer{}
	homes := map[*Layer]int{}
	for i := range m.out.Places {
		for j := range m.out.Places[i].Layers {
			l := &m.out.Places[i].Layers[j]
			groups[l.key] = append(groups[l.key], l)
			homes[l] = i
		}
	}
	keys := make([]key, 0, len(groups))
	for k := range groups {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, func(a, b key) int {
		pa, _ := m.c.Product(a.product)
		pb, _ := m.c.Product(b.product)
		return cmp.Or(cmp.Compare(pa.Material, pb.Material), cmp.Compare(pa.NominalR, pb.NominalR),
			cmp.Compare(a.product, b.product), cmp.Compare(a.facing, b.facing), cmp.Compare(a.widthIn, b.widthIn), cmp.Compare(a.lengthIn, b.lengthIn))
	})
	had := map[string]int{}
	for _, k := range keys {
		if line, ok := m.line(k, groups[k], homes, had); ok {
			m.out.Lines = append(m.out.Lines, line)
		}
	}
}

func (m *maker) line(k key, layers []*Layer, homes map[*Layer]int, had map[string]int) (Line, bool) {
	first := layers[0]
	label := m.labelOf(first.Product, k.facing)
	if label.typedWidth && label.widths[0] != k.widthIn {
		label = usualLabel(first.Product) // the label typed is for another width
	}
	out := Line{
		Product: first.Product, Material: first.Material, Facing: k.facing, WidthIn: k.widthIn, LengthIn: k.lengthIn,
		PerPackage: label.pieces, Label: label.typed, byPlace: make([]float64, len(m.out.Places)),
	}
	weight, spare := 0.0, 0.0
	for _, l := range layers {
		at := homes[l]
		if !slices.Contains(out.Places, m.out.Places[at].Label) {
			out.Places = append(out.Places, m.out.Places[at].Label)
			if m.plan.Places[at].Surface.MayBeThere {
				out.OnlyIf = append(out.OnlyIf, m.out.Places[at].Label)
			}
		}
		out.Visible = max(out.Visible, l.visible)
		if label := m.out.Places[at].Label; len(l.layout.Bays) > 0 && !slices.Contains(out.CutFor, label) {
			out.CutFor = append(out.CutFor, label)
		}
		out.byPlace[at] += float64(l.Stock)
		weight += l.needFt2()
		spare += l.needFt2() * l.spare
	}
	slices.Sort(out.Places)
	slices.Sort(out.OnlyIf)
	slices.Sort(out.CutFor)
	if weight > 0 {
		spare /= weight
	}
	if err := m.pool(&out, layers, label); err != nil {
		// Each place was counted; only all together are too many to count.
		for _, l := range layers {
			m.out.Places[homes[l]].Problem = problemText(err)
		}
		return out, false
	}
	packs, left, err := takeoff.Packages(out.Stock, spare, out.PerPackage)
	if err != nil {
		return out, false
	}
	out.Packages, out.Spare = packs, left
	out.WithSpare = ceil(float64(out.Stock) * (1 + spare))
	out.Hold = ceil(float64(out.Stock) / float64(out.PerPackage))
	out.Form = formOf(out.Product, out.LengthIn)
	face := out.packed(label)
	// What is there already is taken off once for a label, from its first size.
	id := label.of
	out.Have = max(0, min(label.have-had[id], out.Packages))
	had[id] += out.Have
	out.Buy = out.Packages - out.Have
	out.Returns = min(out.Buy, out.Spare/out.PerPackage)
	out.Ft3 = face * float64(out.Buy) * first.Product.ThicknessIn / units.InchPerFoot
	m.priceLine(&out, face)
	if out.Quoted {
		for _, l := range layers {
			m.out.Places[homes[l]].Quoted++
		}
	}
	return out, true
}

// packed notes what a package covers, as its label says or by the blankets in it,
// and gives the face of those, ft2.
func (l *Line) packed(label label) (faceFt2 float64) {
	faceFt2 = l.WidthIn * l.LengthIn / (units.InchPerFoot * units.InchPerFoot) * float64(l.PerPackage)
	if l.PackageFt2 = faceFt2; label.coverageFt2 > 0 {
		l.PackageFt2 = label.coverageFt2
	}
	return faceFt2
}

// needFt2 is the face a layer covers, to weigh spare shares by.
func (l *Layer) needFt2() float64 {
	return l.area.Ft2 + l.layout.ClearFt2
}

// pool counts the layers of a line together: bays of all places in one cutting
// plan, areas of one kind as one area.
func (m *maker) pool(out *Line, layers []*Layer, label label) error {
	areas := map[takeoff.Area]float64{} // by what they have in common
	bays := map[bool][]takeoff.Layout{}
	for _, l := range layers {
		if like := l.area; like.Ft2 > 0 {
			like.Ft2 = 0
			areas[like] += l.area.Ft2
		}
		if len(l.layout.Bays) > 0 {
			bays[l.Across] = append(bays[l.Across], l.layout)
		}
	}
	for area, ft2 := range areas {
		area.Ft2 = ft2
		n, err := area.Count(layers[0].product(label.pieces))
		if err != nil {
			return err
		}
		out.Stock += n
	}
	for _, across := range []bool{false, true} {
		if len(bays[across]) == 0 {
			continue
		}
		like := *layers[0]
		like.Across = across
		t, err := takeoff.TakeOff(takeoff.Merge(bays[across]...), like.product(label.pieces), 0)
		if err != nil {
			return err
		}
		out.Stock += t.Stock
		out.Patterns = append(out.Patterns, t.Patterns...)
		out.Short += t.Plan.Gap
	}
	return nil
}

// priceLine prices a line: the builder's price first, else a rough one.
func (m *maker) priceLine(out *Line, faceFt2 float64) {
	q, ok := house.FindQuote(m.a.House.Quotes, out.Product.ID, out.Facing)
	usd, priced := q.USDPerFt2()
	switch {
	case ok && priced && q.Per == house.PerPackage && (q.WidthIn == 0 || q.WidthIn == out.WidthIn):
		out.PerPack, out.Quoted = units.Same(q.USD), true
	case ok && priced:
		out.PerPack, out.Quoted = units.Same(usd*out.PackageFt2), true
		out.Scaled = q.Per == house.PerPackage
	default:
		out.PerPack = times(m.c.UnitPrice(out.Product.ID), faceFt2)
		if p, found := m.c.Price(out.Product.ID); found {
			out.Year, out.Ref = p.Year, p.Ref
		}
		if f, found := m.c.Facing(out.Facing); found && f.Price != "" {
			out.PerPack = out.PerPack.Plus(times(m.c.UnitPrice(f.Price), faceFt2))
		}
	}
	out.Cost = units.CentsOver(out.PerPack, float64(out.Buy))
}

func times(r units.Range[float64], by float64) units.Range[float64] {
	return units.Range[float64]{Low: r.Low * by, Typical: r.Typical * by, High: r.High * by}
}

// deal splits an amount over places by weight, in whole cents that add up to
// it.
func deal(total units.Cents, weights []float64) []units.Cents {
	out := make([]units.Cents, len(weights))
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	if sum <= 0 {
		return out
	}
	before, run := units.Cents(0), 0.0
	for i, w := range weights {
		run += w
		upTo := units.Cents(math.Round(float64(total) * run / sum))
		if i == len(weights)-1 || run >= sum {
			upTo = total
		}
		out[i], before = upTo-before, upTo
	}
	return out
}

func dealRange(total units.Range[units.Cents], weights []float64, add func(i int, share units.Range[units.Cents])) {
	low, typical, high := deal(total.Low, weights), deal(total.Typical, weights), deal(total.High, weights)
	for i := range weights {
		add(i, units.Range[units.Cents]{Low: low[i], Typical: typical[i], High: high[i]})
	}
}

// worst is the later year and the weaker mark of two prices.
func worst(year int, known catalog.Known, y int, k catalog.Known) (int, catalog.Known) {
	if known == "" {
		return y, k
	}
	return max(year, y), catalog.Weakest(known, k)
}
