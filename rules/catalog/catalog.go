package catalog

import (
	"io/fs"
	"sync"

	"battwright/rules"
	"battwright/rules/units"
)

// Catalog is all of data/, checked. It is read-only after Load.
type Catalog struct {
	Materials    []Material
	Products     []Product
	Facings      []Facing
	Kinds        []PlaceKind
	Dangers      []Danger
	Drawings     []Drawing // in the order in which they are asked
	Sheathings   []Sheet
	Claddings    []Sheet
	Sizes        []Size
	Shares       []Share
	Lumber       Lumber
	Clearances   []Clearance
	Foam         Foam
	Criteria     []Criterion
	Settings     Settings
	Fuels        []Fuel
	DampSections []DampSection // what joins kinds of place and the check of damp
	DampBoards   []DampBoard
	DampCovers   []DampCover
	Codes        *CodeBook
	Counties     *Counties
	Overlaid     []string // what an overlay replaced, added or removed, for the report

	prices  map[string]Price
	sources map[string]Source
	goods   goods
	were    map[string][]string // ids that an overlay may have removed: rules still name them

	// What is read when it is first asked for.
	files      fs.FS
	parts      [parts]func() (*records, error)
	climates   func() ([]Climate, error)
	book       func() (bookOfRules, error)
	help       func() map[string]Help
	handedOver func() *AcceptanceRecords
	layers     func() *Layers
	marks      func() map[string][]Known // of each source, as its figures carry them
	made       sync.Map                  // what others made of it once
}

// bookOfRules is the rule book with what its records say beside the rules.
type bookOfRules struct {
	*rules.Book
	ifUnknown map[string]units.Prose
	reasons   map[string][2]string // of rules with figures and no facts, by system
	warnsOf   map[string][]string  // the rules that warn of each danger
}

// Book is the rule book.
func (c *Catalog) Book() *rules.Book { return must(c.book()).Book }

// Once gives what was made of the catalog under a key, and makes it the first time:
// for what is costly to make and hangs on nothing but the records.
func (c *Catalog) Once(key any, make func() any) any {
	once, _ := c.made.LoadOrStore(key, sync.OnceValue(make))
	return once.(func() any)()
}

// Climates are the listed places with their weather.
func (c *Catalog) Climates() []Climate { return must(c.climates()) }

// Words is the glossary.
func (c *Catalog) Words() []Word { return must(c.parts[wordList]()).Words }

// Helps are the longer explanations of questions.
func (c *Catalog) Helps() []Help { return must(c.parts[helpTexts]()).Helps }

// Acceptance is what handing over and checking rest on.
func (c *Catalog) Acceptance() *AcceptanceRecords { return c.handedOver() }

func find[T any](list []T, is func(*T) bool) (T, bool) {
	for i := range list {
		if is(&list[i]) {
			return list[i], true
		}
	}
	var zero T
	return zero, false
}

// Material finds a material by id.
func (c *Catalog) Material(id string) (Material, bool) {
	return find(c.Materials, func(m *Material) bool { return m.ID == id })
}

// Product finds a product by id.
func (c *Catalog) Product(id string) (Product, bool) {
	return find(c.Products, func(p *Product) bool { return p.ID == id })
}

// Facing finds a facing or sheet by id.
func (c *Catalog) Facing(id string) (Facing, bool) {
	return find(c.Facings, func(f *Facing) bool { return f.ID == id })
}

// Kind finds a kind of place by id.
func (c *Catalog) Kind(id string) (PlaceKind, bool) {
	k := c.KindAt(id)
	return *k, k != &noKind
}

// KindAt is Kind without a copy, for who looks at many places; an empty one where
// there is none. It is not to be changed.
func (c *Catalog) KindAt(id string) *PlaceKind {
	for i := range c.Kinds {
		if c.Kinds[i].ID == id {
			return &c.Kinds[i]
		}
	}
	return &noKind
}

var noKind PlaceKind

// Size finds a lumber size by id.
func (c *Catalog) Size(id string) (Size, bool) {
	return find(c.Sizes, func(s *Size) bool { return s.ID == id })
}

// ClearancesOf are the distances that a kind of chimney asks for; none where
// only the listing of the pipe can tell.
func (c *Catalog) ClearancesOf(chimney string) []Clearance {
	var out []Clearance
	for _, x := range c.Clearances {
		if x.Chimney == chimney {
			out = append(out, x)
		}
	}
	return out
}

// Sheathing finds a sheathing by id.
func (c *Catalog) Sheathing(id string) (Sheet, bool) {
	return find(c.Sheathings, func(s *Sheet) bool { return s.ID == id })
}

// Cladding finds a cladding by id.
func (c *Catalog) Cladding(id string) (Sheet, bool) {
	return find(c.Claddings, func(s *Sheet) bool { return s.ID == id })
}

// Fuel finds a fuel by id.
func (c *Catalog) Fuel(id string) (Fuel, bool) {
	return find(c.Fuels, func(f *Fuel) bool { return f.ID == id })
}

// Price finds the price of a product or of other goods.
func (c *Catalog) Price(id string) (Price, bool) {
	p, ok := c.prices[id]
	return p, ok
}

// Source finds a source by id.
func (c *Catalog) Source(id string) (Source, bool) {
	s, ok := c.sources[id]
	return s, ok
}

// Marks are how well the figures and statements from a source are known, the
// best first: one source may serve several.
func (c *Catalog) Marks(source string) []Known { return c.marks()[source] }

// Help finds the explanation of a question by its full key.
func (c *Catalog) Help(key string) (Help, bool) {
	h, ok := c.help()[key]
	return h, ok
}

// Caution is what a safety rule says: its reason, or its question while the
// facts it rests on are unknown.
func (c *Catalog) Caution(h rules.Hit, s units.System) string {
	if text := must(c.book()).ifUnknown[h.Rule.ID]; len(h.Unknown) > 0 && text != "" {
		return text.In(s)
	}
	if len(h.Unknown) > 0 {
		return "Find out first. " + h.Text
	}
	return h.Text
}

// Reason is the reason of a rule that holds figures and names no fact, in a
// system of units; ok is false for other rules. It is written once, with the book.
func (c *Catalog) Reason(id string, s units.System) (text string, ok bool) {
	both, ok := must(c.book()).reasons[id]
	if s == units.SI {
		return both[1], ok
	}
	return both[0], ok
}

// Obligations are what the rule book must always do, proved in the tests.
func (c *Catalog) Obligations() []rules.Obligation { return must(c.parts[ruleBook]()).Obligations }

// ProductsOf gives the products of a material in catalog order.
func (c *Catalog) ProductsOf(material string) []*Product {
	var out []*Product
	for i := range c.Products {
		if p := &c.Products[i]; p.Material == material {
			out = append(out, p)
		}
	}
	return out
}

// WoodShare is the share of a surface that is wood, by element, practice and
// spacing in inches. Between listed spacings it is interpolated, beyond them
// the end value is taken. A practice that an element has no row for falls
// back to its standard row; ok is false when there is none either.
func (c *Catalog) WoodShare(element, practice string, spacingIn float64) (share float64, ref Ref, ok bool) {
	for _, want := range []string{practice, "standard"} {
		for _, s := range c.Shares {
			if s.Element == element && s.Practice == want {
				return interpolate(s.BySpacing, spacingIn), s.Ref, true
			}
		}
	}
	return 0, Ref{}, false
}

func interpolate(cells []SpacingShare, spacingIn float64) float64 {
	if len(cells) == 0 {
		return 0
	}
	if spacingIn <= cells[0].SpacingIn {
		return cells[0].Share
	}
	for i := 1; i < len(cells); i++ {
		a, b := cells[i-1], cells[i]
		if spacingIn <= b.SpacingIn {
			t := (spacingIn - a.SpacingIn) / (b.SpacingIn - a.SpacingIn)
			return a.Share + t*(b.Share-a.Share)
		}
	}
	return cells[len(cells)-1].Share
}

// Weakest is the weaker of two marks: a figure made of two is known as well
// as the weaker.
func Weakest(a, b Known) Known {
	if b.weakness() > a.weakness() {
		return b
	}
	return a
}

// weakness is 0 for what was read in a standard; an unknown mark counts as that.
func (k Known) weakness() int {
	switch k {
	case Secondary:
		return 1
	case Practice:
		return 2
	case Memory:
		return 3
	case Invented:
		return 4
	}
	return 0
}

// UnitPrice is the price of goods as a range of dollars per their unit, zero
// when the goods have none.
func (c *Catalog) UnitPrice(id string) units.Range[float64] {
	if p, ok := c.prices[id]; ok {
		return p.USD()
	}
	return units.Range[float64]{}
}
