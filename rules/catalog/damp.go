package catalog

import (
	"fmt"

	"battwright/rules/units"
	"battwright/rules/wetting"
)

// porousCurve is a property over humidity or water, with where it is from.
type porousCurve struct {
	Points [][2]float64 `toml:"points,required"`
	Ref
}

func (p porousCurve) curve(perY float64) wetting.Curve {
	out := make(wetting.Curve, 0, len(p.Points))
	for _, xy := range p.Points {
		out = append(out, wetting.Point{X: xy[0], Y: xy[1] * perY})
	}
	return out
}

// porous is a material of the hour-by-hour check of damp; data/damp.toml says
// what its figures mean.
type porous struct {
	ID            string      `toml:"id,required"`
	DensityKGM3   float64     `toml:"density_kg_m3,required"`
	HeatJKGK      float64     `toml:"heat_j_kg_k,required"`
	LambdaWMK     float64     `toml:"lambda_w_mk,required"`
	LambdaPerKGM3 float64     `toml:"lambda_per_kg_m3"`
	FullKGM3      float64     `toml:"full_kg_m3,required"`
	Sorption      porousCurve `toml:"sorption,required"`
	Vapor         porousCurve `toml:"vapor,required"`
	Liquid        porousCurve `toml:"liquid"`
	Thermal       Ref         `toml:"thermal,required"`
	Wood          bool        `toml:"wood"`
	Inert         bool        `toml:"inert"`
	Remove        bool        `toml:"remove"`
}

func (p *porous) material() *wetting.Material {
	return &wetting.Material{
		DensityKGM3: p.DensityKGM3, HeatJKGK: p.HeatJKGK, LambdaWMK: p.LambdaWMK, LambdaPerKGM3: p.LambdaPerKGM3,
		Sorption: p.Sorption.curve(p.DensityKGM3), Vapor: p.Vapor.curve(1), Liquid: p.Liquid.curve(1), FullKGM3: p.FullKGM3,
	}
}

// membrane is a sheet of that check: US perms over humidity.
type membrane struct {
	ID     string       `toml:"id,required"`
	Perms  [][2]float64 `toml:"perms,required"`
	Remove bool         `toml:"remove"`
	Ref
}

// kgPerPerm is a US perm in kg/(m2 s Pa).
const kgPerPerm = units.NgPerPerm * 1e-12

func (m *membrane) sheet() wetting.Curve {
	return porousCurve{Points: m.Perms}.curve(kgPerPerm)
}

// cavity is a layer of air of that check.
type cavity struct {
	ID           string  `toml:"id,required"`
	FaceWM2K     float64 `toml:"face_w_m2_k,required"`
	FaceKG       float64 `toml:"face_kg,required"`
	PerHour      float64 `toml:"per_hour"`
	PerHourPerMS float64 `toml:"per_hour_per_ms"`
	Remove       bool    `toml:"remove"`
	Ref
}

func (a *cavity) air() *wetting.Air {
	return &wetting.Air{FaceWM2K: a.FaceWM2K, FaceKG: a.FaceKG, PerHour: a.PerHour, PerHourPerMS: a.PerHourPerMS}
}

// DampFigures is how houses are judged by the hour.
type DampFigures struct {
	LeakWorkmanlikeM3M2H float64 `toml:"leak_workmanlike_m3_m2_h,required"`
	LeakWithHolesM3M2H   float64 `toml:"leak_with_holes_m3_m2_h,required"`
	StartC               float64 `toml:"start_c,required"`
	StartRH              float64 `toml:"start_rh,required"`
	SkinMM               float64 `toml:"skin_mm,required"` // of sheathing, from inside: what its moisture is told of
	AbsorbsSiding        float64 `toml:"absorbs_siding,required"`
	AbsorbsBrick         float64 `toml:"absorbs_brick,required"`
	AbsorbsRoof          float64 `toml:"absorbs_roof,required"`
	Emits                float64 `toml:"emits,required"`
	SoilFilmWM2K         float64 `toml:"soil_film_w_m2_k,required"`
	Ref
}

// dampRecords are the records of damp.toml.
type dampRecords struct {
	Porous    []porous     `toml:"porous"`
	Membranes []membrane   `toml:"membrane"`
	Cavities  []cavity     `toml:"cavity"`
	Damp      *DampFigures `toml:"damp"`
	Verdict   *DampVerdict `toml:"damp_verdict"`
	Ways      []DampWay    `toml:"damp_way"`
}

// Layers hands out what sections are made of, each of its materials once, so
// that two layers of one name are of one material.
type Layers struct {
	DampFigures
	DampVerdict
	Sections  []DampSection
	Boards    []DampBoard
	Covers    []DampCover
	Ways      []DampWay
	kinds     map[string]porous
	materials map[string]*wetting.Material
	sheets    map[string]wetting.Curve
	air       map[string]*wetting.Air
}

// DampLayers is what data/damp.toml holds, with what joins it to places.
func (c *Catalog) DampLayers() *Layers { return c.layers() }

func (c *Catalog) buildLayers() *Layers {
	r := must(c.parts[dampness]())
	l := &Layers{Sections: c.DampSections, Boards: c.DampBoards, Covers: c.DampCovers, Ways: r.Ways, kinds: map[string]porous{}, materials: map[string]*wetting.Material{}, sheets: map[string]wetting.Curve{}, air: map[string]*wetting.Air{}}
	if r.Damp != nil {
		l.DampFigures = *r.Damp
	}
	if r.Verdict != nil {
		l.DampVerdict = *r.Verdict
	}
	for i := range r.Porous {
		l.materials[r.Porous[i].ID], l.kinds[r.Porous[i].ID] = r.Porous[i].material(), r.Porous[i]
	}
	for i := range r.Membranes {
		l.sheets[r.Membranes[i].ID] = r.Membranes[i].sheet()
	}
	for i := range r.Cavities {
		l.air[r.Cavities[i].ID] = r.Cavities[i].air()
	}
	return l
}

// Of is a layer of that name, thickM thick: a material or a cavity, or a sheet
// with 0. A name that is not there is told as an error.
func (l *Layers) Of(id string, thickM float64) (wetting.Layer, error) {
	if m, ok := l.materials[id]; ok {
		return wetting.Layer{Of: m, ThickM: thickM}, nil
	}
	if a, ok := l.air[id]; ok {
		return wetting.Layer{Air: a, ThickM: thickM}, nil
	}
	if s, ok := l.sheets[id]; ok && thickM == 0 {
		return wetting.Layer{Sheet: s}, nil
	}
	return wetting.Layer{}, fmt.Errorf("%w: %q is no layer of the check of damp, %v m thick", ErrData, id, thickM)
}

// damp checks the records of damp.toml: their sources, and what the check of
// damp itself takes.
func (k *checker) damp() {
	r := must(k.c.parts[dampness]())
	for i := range r.Porous {
		p := &r.Porous[i]
		what := "porous " + p.ID
		for _, ref := range []Ref{p.Sorption.Ref, p.Vapor.Ref, p.Thermal} {
			k.ref(what, ref)
		}
		if len(p.Liquid.Points) > 0 {
			k.ref(what, p.Liquid.Ref)
		}
		k.layer(what, wetting.Layer{Of: p.material(), ThickM: 0.01})
	}
	for i := range r.Membranes {
		k.ref("membrane "+r.Membranes[i].ID, r.Membranes[i].Ref)
		k.layer("membrane "+r.Membranes[i].ID, wetting.Layer{Sheet: r.Membranes[i].sheet()})
	}
	for i := range r.Cavities {
		k.ref("cavity "+r.Cavities[i].ID, r.Cavities[i].Ref)
		k.layer("cavity "+r.Cavities[i].ID, wetting.Layer{Air: r.Cavities[i].air(), ThickM: 0.01})
	}
	if r.Damp == nil {
		k.bad("[damp] must be there")
		return
	}
	k.ref("damp", r.Damp.Ref)
	k.dampJoin(r)
	d := r.Damp
	for _, v := range []struct {
		key          string
		x, low, high float64
	}{
		{"leak_workmanlike_m3_m2_h", d.LeakWorkmanlikeM3M2H, 0, d.LeakWithHolesM3M2H},
		{"leak_with_holes_m3_m2_h", d.LeakWithHolesM3M2H, 0, 10},
		{"start_c", d.StartC, -20, 40},
		{"start_rh", d.StartRH, 0, 1},
		{"skin_mm", d.SkinMM, 1, 50},
		{"absorbs_siding", d.AbsorbsSiding, 0, 1},
		{"absorbs_brick", d.AbsorbsBrick, 0, 1},
		{"absorbs_roof", d.AbsorbsRoof, 0, 1},
		{"emits", d.Emits, 0, 1},
		{"soil_film_w_m2_k", d.SoilFilmWM2K, 0.1, 1000},
	} {
		k.within("damp", v.key, v.x, v.low, v.high)
	}
}

func (k *checker) layer(what string, l wetting.Layer) {
	if err := l.Check(); err != nil {
		k.errs = append(k.errs, fmt.Errorf("data: %s: %w", what, err))
	}
}
