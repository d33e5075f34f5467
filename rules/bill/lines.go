package bill

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
	out, label := m.sold(first)
	out.byPlace = make([]float64, len(m.out.Places))
	weight, spare := 0.0, 0.0
	for _, l := range layers {
		at := homes[l]
		if !slices.Contains(out.Places, m.out.Places[at].Label) {
			out.Places = append(out.Places, m.out.Places[at].Label)
			if m.items[at].Place.Surface.MayBeThere {
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
	pool := m.pool(layers, label)
	out.Stock, out.Short, out.Patterns = pool.stock, pool.short, pool.patterns
	if err := pool.err; err != nil {
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
	// What is there already is taken off once for a label, from its first size.
	id := label.of
	out.Have = max(0, min(label.have-had[id], out.Packages))
	had[id] += out.Have
	out.Buy = out.Packages - out.Have
	out.Returns = min(out.Buy, out.Spare/out.PerPackage)
	out.Ft3 = out.faceFt2() * float64(out.Buy) * first.Product.ThicknessIn / units.InchPerFoot
	out.Cost = units.CentsOver(out.PerPack, float64(out.Buy))
	if out.Quoted {
		for _, l := range layers {
			m.out.Places[homes[l]].Quoted++
		}
	}
	return out, true
}

// sold is the line of a blanket as a package has it, with its price; nothing is
// counted yet.
func (m *maker) sold(l *Layer) (Line, label) {
	label := m.labelOf(l.Product, l.Facing)
	if label.typedWidth && label.widths[0] != l.WidthIn {
		label = usualLabel(l.Product) // the label typed is for another width
	}
	out := Line{
		Product: l.Product, Material: l.Material, Facing: l.Facing, WidthIn: l.WidthIn, LengthIn: l.LengthIn,
		PerPackage: label.pieces, Label: label.typed,
	}
	m.priceLine(&out, label)
	return out, label
}

// faceFt2 is what the blankets of a package cover.
func (l *Line) faceFt2() float64 {
	return l.WidthIn * l.LengthIn / (units.InchPerFoot * units.InchPerFoot) * float64(l.PerPackage)
}

// needFt2 is the face a layer covers, to weigh spare shares by.
func (l *Layer) needFt2() float64 {
	return l.area.Ft2 + l.layout.ClearFt2
}

// pool counts the layers of a line together: bays of all places in one cutting
// plan, areas of one kind as one area.
func (m *maker) pool(layers []*Layer, label label) pooled {
	ids := ""
	for _, l := range layers {
		ids += l.id + ";"
	}
	return kept(m.kept.pool, ids, func() pooled { return together(layers, label) })
}

func together(layers []*Layer, label label) (out pooled) {
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
			return pooled{err: err}
		}
		out.stock += n
	}
	for _, across := range []bool{false, true} {
		if len(bays[across]) == 0 {
			continue
		}
		like := *layers[0]
		like.Across = across
		t, err := takeoff.TakeOff(takeoff.Merge(bays[across]...), like.product(label.pieces), 0)
		if err != nil {
			return pooled{err: err}
		}
		out.stock += t.Stock
		out.patterns = append(out.patterns, t.Patterns...)
		out.short += t.Plan.Gap
	}
	return out
}

// priceLine prices a line: the builder's price first, else a rough one.
func (m *maker) priceLine(out *Line, label label) {
	faceFt2 := out.faceFt2()
	if out.PackageFt2 = faceFt2; label.coverageFt2 > 0 {
		out.PackageFt2 = label.coverageFt2 // as it is printed
	}
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

// dealRange deals out to the places, the odd cents in the order of their ids, whatever
// the order they are listed in.
func (m *maker) dealRange(total units.Range[units.Cents], weights []float64, add func(i int, share units.Range[units.Cents])) {
	if m.byID == nil {
		for i := range m.out.Places {
			m.byID = append(m.byID, i)
		}
		slices.SortStableFunc(m.byID, func(a, b int) int { return cmp.Compare(m.out.Places[a].ID, m.out.Places[b].ID) })
	}
	in := make([]float64, len(weights))
	for k, i := range m.byID {
		in[k] = weights[i]
	}
	low, typical, high := deal(total.Low, in), deal(total.Typical, in), deal(total.High, in)
	for k, i := range m.byID {
		add(i, units.Range[units.Cents]{Low: low[k], Typical: typical[k], High: high[k]})
	}
}

// worst is the later year and the weaker mark of two prices.
func worst(year int, known catalog.Known, y int, k catalog.Known) (int, catalog.Known) {
	if known == "" {
		return y, k
	}
	return max(year, y), catalog.Weakest(known, k)
}
