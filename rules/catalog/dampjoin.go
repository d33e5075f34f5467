package catalog

import (
	"fmt"
	"slices"

	"battwright/rules/units"
	"battwright/rules/wetting"
)

// DampLayer is a layer of the hourly check of damp: a material or a cavity with
// its thickness, a membrane without one, or a sheet that is told by its US perms
// alone.
type DampLayer struct {
	Of     string  `toml:"of"`
	MM     float64 `toml:"mm"`
	Perm   float64 `toml:"perm"`
	Called string  `toml:"called"` // what a verdict calls it, behind "the": where it is wood, or mold can feed on it
}

// What the outer face of a section meets.
const (
	FacesWalls     = "walls"     // north, the sunniest side, west
	FacesRoofs     = "roofs"     // north and sunniest slope
	FacesSheltered = "sheltered" // outdoor air without sun, sky and wind
	FacesSoil      = "soil"
)

// Parts of a wall that stands partly in the soil.
const (
	GradeBelow = "below"
	GradeAbove = "above"
)

// DampSection is a cut through a kind of place.
type DampSection struct {
	ID          string      `toml:"id,required"`
	Faces       string      `toml:"faces,required"`
	Grade       string      `toml:"grade"`
	Outside     []DampLayer `toml:"outside"`      // beyond the layers of the place
	Papered     bool        `toml:"papered"`      // a cover that is tight and may be there, is usual
	ColderRoom  bool        `toml:"colder_room"`  // judged in a room that is cooled further, too
	BoardBehind bool        `toml:"board_behind"` // its board lies on concrete, behind the blanket
	Bare        bool        `toml:"bare"`         // without a blanket its layers are all there is, no bay of still air
	NotMarine   units.Prose `toml:"not_marine"`   // why it is not judged in a marine zone; empty: it is
	Remove      bool        `toml:"remove"`
	Ref
}

// DampBoard is a kind of board. Of its layers, the material without a thickness
// has the R of the board.
type DampBoard struct {
	ID       string      `toml:"id,required"`
	Name     units.Prose `toml:"name,required"`
	Layers   []DampLayer `toml:"layers,required"`
	Usual    bool        `toml:"usual"`    // what it may be until somebody says
	Cooled   bool        `toml:"cooled"`   // the same in a house that is cooled: elsewhere it does no harm
	Outdoors bool        `toml:"outdoors"` // never behind a blanket on concrete
	Remove   bool        `toml:"remove"`
	Ref
}

// MayBe reports whether the board is one to reckon with until somebody says what
// there is.
func (b DampBoard) MayBe(sec DampSection, cooled bool) bool {
	return b.Goes(sec) && (b.Usual || b.Cooled && cooled)
}

// Goes reports whether the board goes into such a place at all.
func (b DampBoard) Goes(sec DampSection) bool { return !b.Outdoors || !sec.BoardBehind }

// DampCover is what is on the drywall.
type DampCover struct {
	ID     string      `toml:"id,required"`
	Name   units.Prose `toml:"name,required"`
	Of     string      `toml:"of,required"`
	Cooled bool        `toml:"cooled"` // it can harm in cooled rooms alone, and is judged in one that is cooled further, too
	Remove bool        `toml:"remove"`
	Ref
}

// MayBe reports whether the cover is one to reckon with until somebody says what
// there is.
func (c DampCover) MayBe(sec DampSection, cooled bool) bool {
	return !c.Cooled || cooled && sec.Papered
}

// coverMatters reports whether what is on the drywall of a place, once there is some,
// is more than one thing to the check of damp.
func (c *Catalog) coverMatters(k *PlaceKind, cooled bool) bool {
	return slices.ContainsFunc(c.sectionsOf(k), func(s DampSection) bool {
		n := 0
		for _, x := range c.DampCovers {
			if x.MayBe(s, cooled) {
				n++
			}
		}
		return n > 1
	})
}

// AsksCover reports whether the check of damp must be told what goes on the drywall
// of a place: it has some, and may be covered with more than one thing.
func (c *Catalog) AsksCover(k *PlaceKind, cooled bool) bool {
	return k.HasLayer(RoleFinish) && k.Exposed != ExposedAlways && c.coverMatters(k, cooled)
}

// BoardGoes reports whether a board of that id may be in a place of the kind.
func (c *Catalog) BoardGoes(k *PlaceKind, id string) bool {
	b, ok := find(c.DampBoards, func(b *DampBoard) bool { return b.ID == id })
	return !ok || !slices.ContainsFunc(c.sectionsOf(k), func(s DampSection) bool { return !b.Goes(s) })
}

// UnderRoof reports whether the outer face of a place is a roof to that check.
func (c *Catalog) UnderRoof(k *PlaceKind) bool {
	return slices.ContainsFunc(c.sectionsOf(k), func(s DampSection) bool { return s.Faces == FacesRoofs })
}

// StandsBare reports whether the check of damp can judge a place without a blanket.
func (c *Catalog) StandsBare(k *PlaceKind) bool {
	all := c.sectionsOf(k)
	return len(all) > 0 && !slices.ContainsFunc(all, func(s DampSection) bool { return !s.Bare })
}

// sectionsOf are the sections of a kind of place.
func (c *Catalog) sectionsOf(k *PlaceKind) []DampSection {
	var out []DampSection
	for _, s := range c.DampSections {
		if slices.Contains(k.Damp, s.ID) {
			out = append(out, s)
		}
	}
	return out
}

// DampWay is a change that may cure a place that gets wet or molds: an answer, of
// which the tries are typed as a person would, least work first, or no blanket at all.
// A figure is told with its unit behind the text. Where the answer makes another kind
// of the place, that one is planned anew.
type DampWay struct {
	ID     string   `toml:"id,required"`
	Ask    string   `toml:"ask"` // full key of the question
	Tries  []string `toml:"tries"`
	Text   string   `toml:"text,required"`
	Number bool     `toml:"number"` // the tries are figures: more than is there, and the first that cures is enough
	// The plan decides until the builder does: nobody is asked for it.
	Planned   bool `toml:"planned"`
	NoBlanket bool `toml:"no_blanket"` // instead of an answer
	Remove    bool `toml:"remove"`
	Ref
}

// DampVerdict is from what on a place is called what (shares, mold index), and
// what stands in for answers that nobody gave.
type DampVerdict struct {
	EdgeMoisture  float64     `toml:"edge_moisture,required"`
	WetsMoisture  float64     `toml:"wets_moisture,required"`
	EdgeMold      float64     `toml:"edge_mold,required"`
	Mold          float64     `toml:"mold,required"`
	ColderRoomC   float64     `toml:"colder_room_c,required"`
	LowPitchDeg   float64     `toml:"low_pitch_deg,required"`
	HighPitchDeg  float64     `toml:"high_pitch_deg,required"`
	LeastPitchDeg float64     `toml:"least_pitch_deg,required"` // flatter roofs are not judged
	TooFlat       units.Prose `toml:"too_flat,required"`        // why not
	BayFoamMM     float64     `toml:"bay_foam_mm,required"`
	BayFoam       string      `toml:"bay_foam,required"`
	OldBlanket    string      `toml:"old_blanket,required"`
	Ref
}

// dampJoin are the records of damp-places.toml, of which questions are made.
type dampJoin struct {
	Sections []DampSection `toml:"damp_section"`
	Boards   []DampBoard   `toml:"damp_board"`
	Covers   []DampCover   `toml:"damp_cover"`
}

// Section is a section by its id.
func (l *Layers) Section(id string) (DampSection, bool) {
	return find(l.Sections, func(s *DampSection) bool { return s.ID == id })
}

// Wood reports whether the moisture of the material is judged.
func (l *Layers) Wood(id string) bool { return l.kinds[id].Wood }

// Feeds reports whether mold can grow on the material: wood, paper, or fiber
// with the dust in it.
func (l *Layers) Feeds(id string) bool { k, ok := l.kinds[id]; return ok && !k.Inert }

// Make is the layer of the calculator. A name that is not there is told as an
// error.
func (l *Layers) Make(d DampLayer) (wetting.Layer, error) {
	if d.Of == "" && d.Perm > 0 && d.MM == 0 {
		return wetting.Layer{Sheet: wetting.Curve{{X: 0, Y: d.Perm * kgPerPerm}}}, nil
	}
	const mmPerM = 1000
	return l.Of(d.Of, d.MM/mmPerM)
}

// BoardLayers are the layers of a board of a kind with that R in h.ft2.F/Btu.
func (l *Layers) BoardLayers(b DampBoard, r float64) []DampLayer {
	const mmPerM = 1000
	out := slices.Clone(b.Layers)
	for i := range out {
		if k, ok := l.kinds[out[i].Of]; ok && out[i].MM == 0 {
			out[i].MM = r / units.RIPPerRSI * k.LambdaWMK * mmPerM
		}
	}
	return out
}

// dampJoin checks that sections, boards and places name layers that are there.
func (k *checker) dampJoin(r *records) {
	l := k.c.DampLayers()
	all := func(what string, layers []DampLayer) {
		for _, d := range layers {
			if x, err := l.Make(d); err != nil {
				k.errs = append(k.errs, fmt.Errorf("data: %s: %w", what, err))
			} else {
				k.layer(what, x)
			}
		}
	}
	for _, s := range k.c.DampSections {
		k.ref("damp section "+s.ID, s.Ref)
		all("damp section "+s.ID, s.Outside)
		if !slices.Contains([]string{FacesWalls, FacesRoofs, FacesSheltered, FacesSoil}, s.Faces) || !slices.Contains([]string{"", GradeBelow, GradeAbove}, s.Grade) {
			k.bad("damp section %s: faces = %q, grade = %q", s.ID, s.Faces, s.Grade)
		}
	}
	for _, b := range k.c.DampBoards {
		k.ref("damp board "+b.ID, b.Ref)
		all("damp board "+b.ID, l.BoardLayers(b, 5))
	}
	for _, v := range k.c.DampCovers {
		k.ref("damp cover "+v.ID, v.Ref)
		all("damp cover "+v.ID, []DampLayer{{Of: v.Of}})
	}
	for _, w := range r.Ways {
		k.ref("damp way "+w.ID, w.Ref)
		if w.NoBlanket == (len(w.Tries) > 0) {
			k.bad("damp way %s: want an answer to try, or no_blanket", w.ID)
		}
		if !w.NoBlanket && !slices.Contains(r.questions, w.Ask) {
			k.bad("damp way %s: ask = %q is no question", w.ID, w.Ask)
		}
	}
	for _, f := range k.c.Facings {
		if f.Damp != "" {
			all("facing "+f.ID, []DampLayer{{Of: f.Damp}})
		}
	}
	for _, s := range slices.Concat(k.c.Sheathings, k.c.Claddings) {
		all(s.ID, s.Damp)
	}
	for _, p := range k.c.Kinds {
		for _, x := range p.Layers {
			all("place "+p.ID, x.Damp)
		}
	}
	k.dampVerdict(r.Verdict, all)
}

func (k *checker) dampVerdict(v *DampVerdict, all func(string, []DampLayer)) {
	const what = "damp_verdict"
	if v == nil {
		k.bad("[%s] must be there", what)
		return
	}
	k.ref(what, v.Ref)
	all(what, []DampLayer{{Of: v.BayFoam, MM: v.BayFoamMM}, {Of: v.OldBlanket, MM: v.BayFoamMM}})
	k.within(what, "edge_moisture", v.EdgeMoisture, 0, v.WetsMoisture)
	k.within(what, "wets_moisture", v.WetsMoisture, 0, 1)
	k.within(what, "edge_mold", v.EdgeMold, 0, v.Mold)
	k.within(what, "mold", v.Mold, 0, 6)
	k.within(what, "colder_room_c", v.ColderRoomC, 15, 30)
	k.within(what, "least_pitch_deg", v.LeastPitchDeg, 0, v.LowPitchDeg)
	k.within(what, "low_pitch_deg", v.LowPitchDeg, 0, v.HighPitchDeg)
	k.within(what, "high_pitch_deg", v.HighPitchDeg, 0, 80)
}
