package catalog

import "battwright/rules/units"

// Figure is one number of practice: how far apart staples sit, how much is
// ordered to spare. Without Low and High it is a convention.
type Figure struct {
	ID     string      `toml:"id,required"`
	What   units.Prose `toml:"what,required"`
	Unit   string      `toml:"unit,required"` // in, ft, ft2, share, each, hours, times ...
	Value  float64     `toml:"value,required"`
	Low    float64     `toml:"low"`
	High   float64     `toml:"high"`
	Remove bool        `toml:"remove"`
	Ref
}

// Range is the figure with its ends; both are the value where none are given.
func (f Figure) Range() units.Range[float64] {
	r := units.Range[float64]{Low: f.Low, Typical: f.Value, High: f.High}
	if r.Low == 0 {
		r.Low = f.Value
	}
	if r.High == 0 {
		r.High = f.Value
	}
	return r
}

// Stud is a stud of trade length for a wall called so many feet high, and the
// blanket made for it.
type Stud struct {
	WallFt float64 `toml:"wall_ft,required"`
	StudIn float64 `toml:"stud_in,required"`
	BattIn float64 `toml:"batt_in,required"`
	Remove bool    `toml:"remove"`
	Ref
}

// Gear is what those who put the blankets in wear and use.
type Gear struct {
	ID     string `toml:"id,required"`
	Name   string `toml:"name,required"`
	Each   string `toml:"each,required"` // person, day (of a person) or house
	Remove bool   `toml:"remove"`
	Ref
}

// goods are the records behind the order list.
type goods struct {
	Figures []Figure
	Studs   []Stud
	Gear    []Gear
}

// Figure finds a figure of practice; the zero Figure when an overlay removed
// it, so that what hangs on it is left out rather than guessed.
func (c *Catalog) Figure(id string) Figure {
	f, _ := find(c.goods.Figures, func(f *Figure) bool { return f.ID == id })
	return f
}

// Studs are the studs of trade length, shortest first as listed.
func (c *Catalog) Studs() []Stud { return c.goods.Studs }

// GearList is what each person needs.
func (c *Catalog) GearList() []Gear { return c.goods.Gear }

// figureNames are the figures that plan and order are worked out with; all must be there in
// the data as shipped.
var figureNames = []string{
	"openings-share", "airway", "vent-floor", "soil-k", "summer-zone",
	"house-length", "house-width", "story-height", "advice-old-blanket", "least-board", "least-listing", "chord-meet", "one-story",
	"spare-plain", "spare-cut-up", "staple-spacing", "wire-spacing", "flue-shield", "retarder-roll", "retarder-lap", "paint-cover",
	"ground-roll", "ground-lap", "ground-up", "ground-extra", "baffle-eaves", "baffle-length", "hatch-length", "hatch-width",
	"sealant-tube", "sealant-ceiling", "board-sheet", "board-waste", "sliver",
	"staple-box", "hours-crew", "hours-crawl", "people", "hours-day",
}

func (k *checker) goods() {
	g := k.c.goods
	for _, name := range figureNames {
		if k.c.Figure(name).ID == "" {
			k.bad("figure %s is missing: it is counted with", name)
		}
	}
	for _, f := range g.Figures {
		what := "figure " + f.ID
		k.ref(what, f.Ref)
		k.within(what, "value", f.Value, 0, 10000)
		if r := f.Range(); !(0 < r.Low && r.Rises()) {
			k.bad("%s: low, value and high must be above 0 and rise", what)
		}
		if f.Unit == "share" {
			k.within(what, "share", f.Range().High, 0, 1)
		}
	}
	k.within("figure staple-spacing", "value", k.c.Figure("staple-spacing").Value, 4, 24)
	k.within("figure flue-shield", "value", k.c.Figure("flue-shield").Value, 2, 24)
	k.within("figure airway", "value", k.c.Figure("airway").Value, 1, 24)
	k.within("figure vent-floor", "value", k.c.Figure("vent-floor").Value, 1, 300)
	k.within("figure wire-spacing", "value", k.c.Figure("wire-spacing").Value, 12, 18)
	for _, s := range g.Studs {
		k.ref("stud", s.Ref)
		k.within("stud", "stud_in", s.StudIn, 12*s.WallFt-12, 12*s.WallFt)
		k.within("stud", "batt_in", s.BattIn, s.StudIn, s.StudIn+6)
	}
	for _, x := range g.Gear {
		k.ref("gear "+x.ID, x.Ref)
		switch x.Each {
		case "person", "day", "house":
		default:
			k.bad("gear %s: each = %q; want person, day or house", x.ID, x.Each)
		}
	}
}
