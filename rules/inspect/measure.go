package inspect

import (
	"math"
	"slices"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/house"
	"battwright/rules/plan"
)

// Measured is what the answers about a place say in figures. What nobody
// measured is taken as planned and says so.
type Measured struct {
	Products    []catalog.Product // as labeled, bottom or inner first
	Material    catalog.Material
	Facing      string
	Side        string
	Sheet       string // beside the blanket, as planned where nobody looked
	LabelRead   bool
	Depths      []float64 // measured, all new layers together
	UnderIn     float64   // of old blanket that the ruler went through first
	DeepestIn   float64   // to the ceiling at the thinnest point, where nobody measured the old blanket: then no depth counts
	PlannedIn   float64
	OwnIn       float64 // how thick the blankets stand by their own labels
	ThinnestIn  float64 // of the measured points, PlannedIn when none
	BoardR      float64 // of the board in all: as found, as counted on where nobody looked
	BoardSaid   bool
	Fit         Fitting
	VoidSaid    bool
	SqueezeSaid bool
	Other       float64 // R of everything but the blanket
}

// measure reads the answers of a place that has a plan.
func measure(c *catalog.Catalog, p plan.Place, a house.Answers) Measured {
	e := p.Choice
	m := Measured{Material: *e.Material, Facing: e.Facing.OnBlanket, PlannedIn: heightOf(e.Layers), Depths: numbersOf(a["thickness_in"]), Side: a["facing_side"].Text}
	if x, ok := c.Material(a["material"].Text); ok {
		m.Material = x
	}
	if f := a["facing"]; f.State == house.Given {
		m.Facing = f.Text
	}
	m.above(p, a[oldDepth])
	m.Sheet = e.Facing.Sheet
	switch f := a["sheet"]; {
	case e.Facing.Sheet == "paint" && a[seePrefix+retarderPaint].Text == seenBad && !sheetNoted(f):
		m.Sheet = ""
	case f.State != house.Given:
	case f.Text != "none":
		m.Sheet = f.Text
	case sheetAgreed(p) != "": // paint comes later
		m.Sheet = ""
	}
	m.BoardR, m.BoardSaid = boardSeen(p, a)
	m.labels(e.Layers, a)
	m.OwnIn = heightOf(m.lie(c, p))
	m.ThinnestIn = m.PlannedIn
	for i, d := range m.Depths {
		if i == 0 || d < m.ThinnestIn {
			m.ThinnestIn = d
		}
	}
	m.Other = boardFound(p, m.BoardR).OtherR(c, e.Blankets)
	m.fit(p, a)
	return m
}

// above takes what the ruler went through first off the depths that were measured to
// the ceiling. How deep an old blanket lies is only guessed from its R, and no guess
// decides: while nobody measured it, depths count where they are less than the new
// blankets alone.
func (m *Measured) above(p plan.Place, old house.Answer) {
	if m.UnderIn = underIn(p); m.UnderIn <= 0 || len(m.Depths) == 0 {
		return
	}
	switch least := slices.Min(m.Depths); {
	case old.State == house.Given:
		s := p.Surface
		s.OldIn = old.Number
		m.UnderIn = candidate.StandsIn(s, p.Choice.Blankets)
	case least < m.PlannedIn-tape:
		m.UnderIn = 0
	default:
		m.DeepestIn, m.Depths = least, nil
	}
	for i, d := range m.Depths {
		m.Depths[i] = math.Max(0, d-m.UnderIn)
	}
}

// boardSeen is the R of the board in all as it was seen, and whether anybody said.
// One that is there and whose R nobody read is taken as the plan counts on it.
func boardSeen(p plan.Place, a house.Answers) (r float64, said bool) {
	there, label := a["board_there"], a["board_r"]
	switch {
	case there.State == house.Given && !there.Bool:
		return 0, true
	case label.State == house.Given:
		return label.Number, true
	}
	return p.BoardR(), there.State == house.Given
}

// labels takes the R and thickness of each layer from its label; one that was
// not read is as planned.
func (m *Measured) labels(planned []candidate.Layer, a house.Answers) {
	rs, ins := numbersOf(a["label_r"]), numbersOf(a["label_thickness_in"])
	m.LabelRead = len(rs) > 0
	n := len(planned)
	if len(rs) > 0 {
		n = len(rs)
	}
	for i := range n {
		x := catalog.Product{ID: "found", Material: m.Material.ID, Form: "batt", WidthsIn: []float64{15}, LengthsIn: []float64{93}, Facings: []string{m.Facing}}
		if i < len(planned) {
			x = *planned[i].Product
			x.Material = m.Material.ID
		}
		if i < len(rs) {
			x.NominalR = rs[i]
		}
		if i < len(ins) {
			x.ThicknessIn = ins[i]
		} else if i >= len(planned) {
			x.ThicknessIn = m.PlannedIn / float64(n)
		}
		m.Products = append(m.Products, x)
	}
}

// fit works out the shares of gaps and squeezing.
func (m *Measured) fit(p plan.Place, a house.Answers) {
	m.Fit = Fitting{Void: p.Choice.Heat.VoidShare, DepthLeft: 1}
	looked := p.Surface.AreaFt2
	if v := a["looked_ft2"]; v.State == house.Given && v.Number > 0 {
		looked = v.Number
	}
	pct, gaps := a["void_pct"], a["gaps"]
	if m.VoidSaid = pct.State == house.Given || gaps.State == house.Given; m.VoidSaid {
		m.Fit.Void = pct.Number / 100
		if in2, err := GapsIn2(gaps.Text); err == nil && looked > 0 {
			m.Fit.Void = math.Max(m.Fit.Void, math.Min(1, in2/(looked*144)))
		}
	}
	if s := a["squeezed_pct"]; s.State == house.Given {
		m.SqueezeSaid = true
		m.Fit.Squeezed = s.Number / 100
		m.Fit.DepthLeft = 0.5 // not measured: taken as half, which is the careful side
		if to := a["squeezed_to_in"]; to.State == house.Given && m.OwnIn > 0 {
			m.Fit.DepthLeft = math.Min(1, to.Number/m.OwnIn)
		}
	}
}

// lie lays the blankets by their labels, each in the room that the plan has for
// one of its thickness.
func (m Measured) lie(c *catalog.Catalog, p plan.Place) []candidate.Layer {
	out := layersIn(c, p, m.Products)
	for i, l := range p.Choice.Layers {
		if i < len(out) && l.Product.ThicknessIn == out[i].Product.ThicknessIn {
			out[i].RoomIn, out[i].Across, out[i].ProudIn = l.RoomIn, l.Across, l.ProudIn
		}
	}
	return out
}

// layers gives the blankets as they lie: each label at the share of its room
// that the measured depth is of the whole. Which layer is the thin one cannot
// be seen from above.
func (m Measured) layers(c *catalog.Catalog, p plan.Place) []candidate.Layer {
	out := m.lie(c, p)
	for i, l := range out {
		out[i].R = m.worth(*l.Product, l.RoomIn)
	}
	return out
}

// worth is the R of one blanket in a room over all measured points and the
// squeezed share, side by side in front of the other layers. What stands out of the
// room lies in what must stay free, an airway for one, and counts nothing.
func (m Measured) worth(x catalog.Product, roomIn float64) float64 {
	full := atDepth(x.NominalR, x.ThicknessIn, roomIn)
	if len(m.Depths) > 0 && m.OwnIn > 0 {
		rs := make([]float64, len(m.Depths))
		for i, d := range m.Depths {
			rs[i] = atDepth(x.NominalR, x.ThicknessIn, roomIn*math.Min(1, d/m.OwnIn))
		}
		full = beside(rs, m.Other)
	}
	if m.Fit.Squeezed <= 0 {
		return full
	}
	r, err := heat.WithVoids(full, m.Other, atDepth(x.NominalR, x.ThicknessIn, roomIn*m.Fit.DepthLeft), m.Fit.Squeezed)
	if err != nil {
		return full
	}
	return r
}

// beside is the R of equal areas of several R in front of other layers.
func beside(rs []float64, other float64) float64 {
	same, u := true, 0.0
	for _, r := range rs {
		same = same && r == rs[0]
		u += 1 / math.Max(r+other, 1e-6)
	}
	if same {
		return rs[0]
	}
	return math.Max(0, float64(len(rs))/u-other)
}

// Any reports whether anything that tells the R of the blanket was read or measured.
func (m Measured) Any() bool {
	return m.LabelRead || len(m.Depths) > 0 || m.VoidSaid || m.SqueezeSaid
}
