package candidate

import (
	"math"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/moisture"
	"battwright/rules/units"
)

// The verdicts of the damp check. They speak of vapor only: never "dry".
const (
	NotChecked = "not-checked"
	NoBuildUp  = "no-build-up"
	Dries      = "dries"
	MoldRisk   = "mold-risk"
	StaysWet   = "stays-wet"
)

// Damp is the result of the monthly vapor balance of one candidate.
type Damp struct {
	Verdict    string
	Checked    bool
	PeakGM2    float64 // most water held at judged planes, g/m2
	PeakMonth  int     // 1 to 12, 0 when nothing is held
	ClearMonth int
	WorstRH    float64 // share, at the dampest judged plane
	WorstMonth int
	Where      string      // the dampest judged plane in words
	WhereLayer int         // index in Layers of the layer behind that plane, -1 when there is none
	HeldGM2    [12]float64 // at all judged planes, by month
	RH         [12]float64 // at the dampest judged plane, by month
	ColdestC   []float64   // temperature of each plane in the coldest month, inside first
	Layers     []string    // names, inside first
	InC        float64     // room and outside in the coldest month
	OutC       float64
	// Months, 1 to 12, in which the dampest plane stands above the line and is
	// not counted as a mold risk, by the reason.
	TooCold, AsOutdoors, TooFew []int
	// What the check takes as there and is still to be bought or done.
	BoardR       float64 // board of this R in all
	Dehumidifier bool
	UnderJoists  bool // a tight layer under the joists
	FoamLeftOut  bool // the foam that goes into each bay is not in the check
	Note         string
	From         []catalog.Ref
}

// Risk is what the verdict means for wood, paper and fiber: 0 nothing found, or
// not checked; 1 mold; 2 water that does not dry within a year.
func (d Damp) Risk() int {
	switch d.Verdict {
	case MoldRisk:
		return 1
	case StaysWet:
		return 2
	}
	return 0
}

// plainlyDampRH parts "on the damp side" from "damp" in words only.
const plainlyDampRH = 0.9

// OnlyDampSide reports whether a verdict of mold is said mildly: it is the same.
func (d Damp) OnlyDampSide() bool { return d.Verdict == MoldRisk && d.WorstRH < plainlyDampRH }

// dampOf runs the monthly balance where the method can judge: not at a roof
// deck, not in a chimney chase, and not without a climate.
func dampOf(s Surface, site Site, c *catalog.Catalog, b Blankets, f Facing, t Target) Damp {
	d := Damp{Verdict: NotChecked, WhereLayer: -1}
	switch {
	case s.Kind.Airway != "":
		d.Note = "not checked: this method cannot judge the roof above the blanket. A sealed, painted ceiling and open vents are what the model code relies on here; we have not checked yours."
		return d
	case s.Kind.Boundary == "none":
		d.Note = "not checked near a chimney"
		return d
	case !site.HasClimate:
		d.Note = "not checked: no climate is known for the house"
		return d
	}
	layers, rsi, rse := dampLayers(s, c, b, f, t)
	months, soil, err := site.dampMonths(s, c)
	if err != nil {
		d.Note = "not checked: " + err.Error()
		return d
	}
	r, err := moisture.Year(layers, rsi, rse, months, moisture.Options{Limits: limits(c), OutsideAir: !soil})
	if err != nil {
		d.Note = "not checked: " + err.Error()
		return d
	}
	d.fill(r, layers, months)
	if b.HeightIn < s.Frame.RoomIn { // they do not touch; the air between holds no vapor back
		d.Where = strings.Replace(d.Where, "and "+underJoists, "and the air above "+underJoists, 1)
	}
	d.excuse(r, months, limits(c), !soil)
	d.UnderJoists, d.FoamLeftOut = s.UnderJoists, s.FoamInBays
	if t.AddR > 0 {
		d.BoardR = s.CIR + t.AddR
	}
	d.Dehumidifier = s.Dehumid
	d.From = uniqueRefs([]catalog.Ref{{Source: "iso-13788", Known: catalog.Memory}, site.ClimateRef, s.Kind.Ref})
	return d
}

func limits(c *catalog.Catalog) moisture.Limits {
	return moisture.Limits{PeakGM2: c.Settings.PeakLimitGM2, TraceGM2: c.Settings.TraceGM2, MoldRH: c.Settings.MoldRH, MoldAboveC: c.Settings.MoldAboveC, MoldMonths: c.Settings.MoldMonths}
}

func (d *Damp) fill(r moisture.Result, layers []moisture.Layer, months [12]moisture.Month) {
	d.Checked = true
	switch r.Verdict {
	case moisture.NoBuildUp:
		d.Verdict = NoBuildUp
	case moisture.BuildsUpAndDries:
		d.Verdict = Dries
	case moisture.MoldRisk:
		d.Verdict = MoldRisk
	case moisture.StaysWet:
		d.Verdict = StaysWet
	}
	d.PeakGM2, d.PeakMonth, d.ClearMonth = r.PeakGM2, r.PeakMonth, r.ClearMonth
	worst := r.Worst
	if r.Verdict == moisture.MoldRisk && r.WorstWarm.Month > 0 {
		worst = r.WorstWarm
	}
	d.WorstRH, d.WorstMonth = worst.RH, worst.Month
	for _, p := range r.Planes {
		if p.Judged {
			for m := range d.HeldGM2 {
				d.HeldGM2[m] += p.HeldGM2[m]
			}
		}
	}
	for _, l := range layers {
		d.Layers = append(d.Layers, l.Name)
	}
	if worst.Month > 0 {
		d.Where = planeName(layers, worst.Interface)
		d.WhereLayer = min(worst.Interface, len(layers)-1)
		d.RH = r.Interfaces[worst.Interface].RH
	}
	coldest := 0
	for m := range months {
		if months[m].OutC < months[coldest].OutC {
			coldest = m
		}
	}
	d.InC, d.OutC = months[coldest].InC, months[coldest].OutC
	for _, i := range r.Interfaces {
		d.ColdestC = append(d.ColdestC, i.TempC[coldest])
	}
}

// excuse sorts the months in which the dampest plane stands above the line of
// mold by why they are not counted. A verdict of mold has none.
func (d *Damp) excuse(r moisture.Result, months [12]moisture.Month, l moisture.Limits, outsideAir bool) {
	if d.Verdict != NoBuildUp || d.WorstMonth == 0 {
		return
	}
	plane := r.Interfaces[r.Worst.Interface]
	for m, rh := range plane.RH {
		switch {
		case rh <= l.MoldRH:
		case plane.TempC[m] <= l.MoldAboveC:
			d.TooCold = append(d.TooCold, m+1)
		case outsideAir && rh <= outdoorRH(months[m]):
			d.AsOutdoors = append(d.AsOutdoors, m+1)
		default:
			d.TooFew = append(d.TooFew, m+1)
		}
	}
}

func outdoorRH(m moisture.Month) float64 {
	sat, err := moisture.SaturationPa(m.OutC)
	if err != nil {
		return 0
	}
	return math.Min(1, m.OutPa/sat)
}

const underJoists = "the layer under the joists"

func planeName(layers []moisture.Layer, i int) string {
	switch {
	case i <= 0:
		return "the inside surface"
	case i >= len(layers):
		return "the outside surface"
	}
	return "between " + layers[i-1].Name + " and " + layers[i].Name
}

// dampLayers lists the layers from the room outwards with their vapor
// resistance, and the surface resistances. A vented cladding is left out, as
// the method says, and the air behind it counts as outdoors.
func dampLayers(s Surface, c *catalog.Catalog, b Blankets, f Facing, t Target) (layers []moisture.Layer, rsi, rse float64) {
	rsi, rse = s.Kind.InsideFilmR/units.RIPPerRSI, s.Kind.OutsideFilmR/units.RIPPerRSI
	for _, l := range s.Kind.Layers {
		switch l.Name {
		case "blanket":
			layers = append(layers, blanketDamp(c, b, f)...)
			if s.UnderJoists {
				layers = append(layers, sheet(underJoists, 0, c.Settings.UnderJoistsPerm, false))
			}
		case "sheathing":
			layers = append(layers, sheet(s.Sheathing.Name.In(s.System), s.Sheathing.R, s.Sheathing.Perm, true))
		case "board outside", "foam board":
			if r := s.CIR + t.AddR; r > 0 {
				layers = append(layers, sheet(c.Foam.Name, r, c.Foam.PermIn/(r/c.Foam.RPerIn), false))
			}
		case "cladding":
			if s.Cladding.ID == "direct" {
				layers = append(layers, sheet(s.Cladding.Name.In(s.System), s.Cladding.R, s.Cladding.Perm, false))
			} else {
				rse = s.Kind.InsideFilmR / units.RIPPerRSI
			}
		default:
			layers = append(layers, sheet(l.Name.In(s.System), l.R, l.Perm, l.Sensitive))
		}
	}
	return layers, rsi, rse
}

func sheet(name string, rIP, perm float64, sensitive bool) moisture.Layer {
	return moisture.Layer{Name: name, RM2KW: rIP / units.RIPPerRSI, SdM: units.SdMPerPerm / math.Max(perm, 1e-3), Sensitive: sensitive}
}

// blanketDamp is the blanket with what lies on its two sides: the retarder
// toward the room, and behind it a face that was put in the wrong way round.
func blanketDamp(c *catalog.Catalog, b Blankets, f Facing) []moisture.Layer {
	thicknessM := b.HeightIn * units.MmPerInch / 1000
	out := append(faceDamp(c, f.Retarder()), moisture.Layer{
		Name: b.Material.Name, RM2KW: b.CavityR / units.RIPPerRSI, SdM: b.Material.Mu * thicknessM, Sensitive: true,
	})
	if f.Turned {
		out = append(out, faceDamp(c, f.OnBlanket)...)
	}
	return out
}

func faceDamp(c *catalog.Catalog, id string) []moisture.Layer {
	record, ok := c.Facing(id)
	if !ok || record.ID == "none" {
		return nil
	}
	l := sheet(record.Name, 0, record.PermWet, false)
	l.SdDryingM = units.SdMPerPerm / record.PermDry
	return []moisture.Layer{l}
}
