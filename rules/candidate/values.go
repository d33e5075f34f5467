package candidate

import (
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/rank"
	"battwright/rules/units"
)

// Measure is one priority of one candidate: what was measured, with its low
// and high, and the value 0 to 1 the fixed scale gives it.
type Measure struct {
	Criterion string
	Raw       units.Range[float64] // in the unit of the criterion; the first part where there are several
	Value     units.Range[float64] // at the worse, the typical and the better end
	Clamped   bool                 // beyond an anchor of the scale
	Detail    []Detail             // the parts, when there are several
}

// Detail is one part of a priority that measures several quantities.
type Detail struct {
	ID, Unit string
	Raw      float64
	Value    float64
	Weight   float64
}

func curve(points []catalog.CurvePoint) rank.Curve {
	out := make(rank.Curve, len(points))
	for i, p := range points {
		out[i] = rank.Point{X: p.At, V: p.Value}
	}
	return out
}

// ordered puts a worse and a better end in order.
func ordered(a, typical, b float64) units.Range[float64] {
	return units.Range[float64]{Low: math.Min(a, math.Min(typical, b)), Typical: typical, High: math.Max(a, math.Max(typical, b))}
}

// valuesOf measures a candidate on every criterion of the catalog, before the
// rules adjust anything.
func valuesOf(s Surface, c *catalog.Catalog, b Blankets, f Facing, h Heat, d Damp, m Money, t Target) []Measure {
	out := make([]Measure, 0, len(c.Criteria))
	for _, k := range c.Criteria {
		var v Measure
		switch k.ID {
		case "cost":
			v = costMeasure(k, s, h, m, t)
		case "sound":
			v = soundMeasure(k, s, b)
		case "irritants":
			v = irritantMeasure(k, s, b)
		case "fire":
			v = fireMeasure(k, c, b, f)
		case "moisture":
			v = moistureMeasure(k, s, b, d)
		}
		v.Criterion = k.ID
		out = append(out, v)
	}
	return out
}

func simple(points []catalog.CurvePoint, raw units.Range[float64]) Measure {
	scale := curve(points)
	low, _ := scale.Value(raw.Low)
	typical, clamped := scale.Value(raw.Typical)
	high, _ := scale.Value(raw.High)
	return Measure{Raw: raw, Value: ordered(low, typical, high), Clamped: clamped}
}

// costMeasure: cents per square foot for each R delivered. R beyond the target
// is not counted: otherwise a thicker, dearer blanket would look cheaper.
func costMeasure(k catalog.Criterion, s Surface, h Heat, m Money, t Target) Measure {
	useful := h.DeliveredR
	if t.EnoughR > 0 {
		useful = math.Min(useful, t.EnoughR)
	}
	points := k.Curve
	if s.Labour != "self" && len(k.CurveInstaller) > 0 {
		points = k.CurveInstaller
	}
	per := func(usd float64) float64 { return usd * 100 / math.Max(useful, 0.1) }
	return simple(points, units.Range[float64]{Low: per(m.PerFt2.Low), Typical: per(m.PerFt2.Typical), High: per(m.PerFt2.High)})
}

// soundMeasure: STC gained over the empty cavity. In places where the blanket
// cannot make a difference between fibers, one figure serves all.
func soundMeasure(k catalog.Criterion, s Surface, b Blankets) Measure {
	if s.Kind.SoundGain > 0 {
		return simple(k.Curve, units.Same(s.Kind.SoundGain))
	}
	thin, deep := b.Material.GainSTC35, b.Material.GainSTC55
	t := math.Min(1, math.Max(0, (b.HeightIn-3.5)/2))
	mix := func(a, z float64) float64 { return a + t*(z-a) }
	return simple(k.Curve, units.Range[float64]{Low: mix(thin.Low, deep.Low), Typical: mix(thin.Typical, deep.Typical), High: mix(thin.High, deep.High)})
}

// irritantMeasure: points, halved when somebody else does the work.
func irritantMeasure(k catalog.Criterion, s Surface, b Blankets) Measure {
	factor := 1.0
	if s.Labour != "self" && k.InstallerFactor > 0 {
		factor = k.InstallerFactor
	}
	points := b.Material.IrritantPoints()
	return simple(k.Curve, units.Range[float64]{Low: points * factor, Typical: points * factor, High: b.Material.IrritantHigh * factor})
}

// fireMeasure: the temperature at which the fiber stays in place, and what can
// burn in it with its facing.
func fireMeasure(k catalog.Criterion, c *catalog.Catalog, b Blankets, f Facing) Measure {
	massKgM2 := 0.0
	for _, l := range b.Layers {
		massKgM2 += l.Product.ThicknessIn * units.MmPerInch / 1000 * b.Material.DensityKgM3
	}
	burnable := massKgM2 * b.Material.BurnableMJKg
	for _, id := range []string{f.OnBlanket, f.Sheet} {
		if record, ok := c.Facing(id); ok {
			burnable += record.BurnableMJM2
		}
	}
	return inParts(k, false, map[string]float64{"stays": b.Material.StaysC, "burnable": burnable}, nil, nil)
}

// moistureMeasure: whether the year gets it wet or moldy, liquid water taken up,
// moisture buffered. What nobody worked out yet counts as sound.
func moistureMeasure(k catalog.Criterion, s Surface, b Blankets, d Damp) Measure {
	wet := slices.Contains(k.WetPlaces, s.Kind.ID)
	raw := map[string]float64{"alarm": float64(d.Risk()), "uptake": b.Material.UptakeKgM2.Typical}
	if !d.Alarm() {
		raw["buffer"] = b.Material.BufferGM2In * b.HeightIn
	}
	return inParts(k, wet, raw,
		map[string]float64{"uptake": b.Material.UptakeKgM2.High},
		map[string]float64{"uptake": b.Material.UptakeKgM2.Low})
}

// inParts adds up the parts of a criterion; worse and better override single
// raw figures for the two ends of the range.
func inParts(k catalog.Criterion, wet bool, raw, worse, better map[string]float64) Measure {
	var out Measure
	sum := func(override map[string]float64, record bool) float64 {
		total := 0.0
		for _, p := range k.Parts {
			x := raw[p.ID]
			if v, ok := override[p.ID]; ok {
				x = v
			}
			weight := p.Weight
			if wet && p.WeightWet != nil {
				weight = *p.WeightWet
			}
			v, clamped := curve(p.Curve).Value(x)
			total += weight * v
			if record {
				out.Detail = append(out.Detail, Detail{ID: p.ID, Unit: p.Unit, Raw: x, Value: v, Weight: weight})
				out.Clamped = out.Clamped || clamped
			}
		}
		return total
	}
	typical := sum(nil, true)
	out.Value = ordered(sum(worse, false), typical, sum(better, false))
	if len(out.Detail) > 0 {
		out.Raw = units.Same(out.Detail[0].Raw)
	}
	return out
}
