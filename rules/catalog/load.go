package catalog

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"sort"
	"strings"
	"sync"

	"battwright/rules"
	"battwright/rules/strict"
)

// records is what a data file may hold. Any file may hold any of them, so an
// overlay can be one file or many.
type records struct {
	Materials   []Material         `toml:"material"`
	Products    []Product          `toml:"product"`
	Prices      []Price            `toml:"price"`
	Facings     []Facing           `toml:"facing"`
	Kinds       []PlaceKind        `toml:"place"`
	Dangers     []Danger           `toml:"danger"`
	Drawings    []Drawing          `toml:"drawing"`
	Sheathings  []Sheet            `toml:"sheathing"`
	Claddings   []Sheet            `toml:"cladding"`
	Sizes       []Size             `toml:"size"`
	Shares      []Share            `toml:"share"`
	Clearances  []Clearance        `toml:"clearance"`
	Lumber      *Lumber            `toml:"lumber"`
	Foam        *Foam              `toml:"foam"`
	Criteria    []Criterion        `toml:"criterion"`
	Settings    *Settings          `toml:"settings"`
	Sources     []Source           `toml:"source"`
	Words       []Word             `toml:"word"`
	Helps       []Help             `toml:"help"`
	Facts       []FactRecord       `toml:"fact"`
	Rules       []RuleRecord       `toml:"rule"`
	Obligations []rules.Obligation `toml:"obligation"`
	Figures     []Figure           `toml:"figure"`
	Studs       []Stud             `toml:"stud"`
	Gear        []Gear             `toml:"gear"`
	Fuels       []Fuel             `toml:"fuel"`

	AcceptanceRecords
	dampRecords
	dampJoin

	questions []string // keys of all questions, by the help of ours
}

// Files with a form of their own. An overlay replaces them whole, but not the
// states.
const (
	codesFile    = "codes.toml"
	climatesFile = "climates.toml"
	statesFile   = "states.csv"
	countiesFile = "counties.csv"
	packedFile   = "counties.txt" // what countiesFile once was
)

// part is what of the base files is read together.
type part int

// The parts. All but the first are read when something of them is first asked
// for: many a run, and the first screen, need none of it.
const (
	trade part = iota
	ruleBook
	wordList
	helpTexts
	handing // over, and checking
	dampness
	parts
)

func partOf(file string) part {
	switch file {
	case "facts.toml", "obligations.toml":
		return ruleBook
	case "words.toml":
		return wordList
	case "help.toml":
		return helpTexts
	case "acceptance.toml", "handover.toml":
		return handing
	case "damp.toml":
		return dampness
	}
	if strings.HasPrefix(file, "rules-") {
		return ruleBook
	}
	return trade
}

// Load reads the base files and, when overlay is not nil, lays its records
// over them. Then every problem is reported: bad TOML, duplicate and dangling
// ids, figures out of range, rules that rest on memory alone. The base alone
// is not checked here: CheckStrict does that, in the tests.
func Load(base, overlay fs.FS) (*Catalog, error) {
	c := &Catalog{files: base}
	texts, err := readTexts(base, nil)
	if err != nil {
		return nil, err
	}
	if overlay == nil {
		for p := range parts {
			c.parts[p] = sync.OnceValues(func() (*records, error) {
				return readBase(base, func(file string) bool { return partOf(file) == p })
			})
		}
		return c, c.build(texts)
	}
	r, err := readBase(base, func(string) bool { return true })
	if err == nil {
		c.were = valuesOf(r.Kinds, r.Materials)
		err = c.lay(r, overlay, texts)
	}
	if err != nil {
		return nil, err
	}
	for p := range parts {
		c.parts[p] = func() (*records, error) { return r, nil }
	}
	if err = errors.Join(c.build(texts), c.check()); err == nil {
		_, err = c.Counties.all() // they may be the person's own
	}
	return c, err
}

// CheckStrict reads the files as strictly as a builder's own: unknown keys,
// wrong types, hidden characters, and all that Load reports of an overlay. The
// embedded files are read plainly at start, and so in the tests.
func CheckStrict(files fs.FS) error {
	names, err := fs.Glob(files, "*.toml")
	errs := []error{err}
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		errs = append(errs, err)
		_, err = strict.Decode(name, string(text), formOf(name))
		errs = append(errs, err)
	}
	_, err = Load(files, embed.FS{})
	return errors.Join(append(errs, err)...)
}

// formOf is what a file of that name is to be read into.
func formOf(name string) any {
	switch name {
	case codesFile:
		return &codeFile{}
	case climatesFile:
		return &climateFile{}
	}
	return &records{}
}

func readBase(files fs.FS, wanted func(file string) bool) (*records, error) {
	names, err := fs.Glob(files, "*.toml")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	all := &records{}
	var errs []error
	for _, name := range names {
		if name == codesFile || name == climatesFile || !wanted(name) {
			continue
		}
		text, err := fs.ReadFile(files, name)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", name, err))
			continue
		}
		var r records
		if err := strict.DecodePlain(string(text), &r); err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", name, err))
		}
		r.from(func() *strict.Tree { tree, _ := strict.Parse(name, string(text)); return tree })
		for _, kind := range recordKinds {
			kind.add(all, &r)
		}
		all.Obligations = append(all.Obligations, r.Obligations...)
	}
	for _, h := range all.Helps {
		all.questions = append(all.questions, h.Key)
	}
	return all, errors.Join(errs...)
}

func readTexts(base fs.FS, into map[string]string) (map[string]string, error) {
	if into == nil {
		into = map[string]string{}
	}
	var errs []error
	for _, name := range []string{codesFile, climatesFile, statesFile, countiesFile} {
		b, err := fs.ReadFile(base, name)
		if err != nil {
			errs = append(errs, fmt.Errorf("%s: %w", name, err))
		}
		into[name] = string(b)
	}
	return into, errors.Join(errs...)
}

// build fills the catalog and says how the rest of it is read.
func (c *Catalog) build(texts map[string]string) error {
	r, err := c.parts[trade]()
	if err != nil {
		return err
	}
	errs := []error{nil}
	c.Materials, c.Products, c.Facings, c.Kinds = r.Materials, r.Products, r.Facings, slices.Clone(r.Kinds)
	for i := range c.Kinds {
		c.Kinds[i].from = origin{} // places are compared whole
	}
	c.Sheathings, c.Claddings, c.Sizes, c.Shares = r.Sheathings, r.Claddings, r.Sizes, r.Shares
	c.Criteria, c.Fuels, c.Clearances, c.Dangers, c.Drawings = r.Criteria, r.Fuels, r.Clearances, r.Dangers, r.Drawings
	c.DampSections, c.DampBoards, c.DampCovers = r.Sections, r.Boards, r.Covers
	c.goods = goods{r.Figures, r.Studs, r.Gear}
	if r.Lumber == nil || r.Foam == nil || r.Settings == nil {
		errs = append(errs, errors.New("data: [lumber], [foam] and [settings] must be there"))
	} else {
		c.Lumber, c.Foam, c.Settings = *r.Lumber, *r.Foam, *r.Settings
	}
	c.prices, c.sources = map[string]Price{}, map[string]Source{}
	for _, p := range r.Prices {
		c.prices[p.Product] = p
	}
	for _, s := range r.Sources {
		c.sources[s.ID] = s
	}
	c.Codes, err = ParseCodes(texts[codesFile])
	errs = append(errs, named(codesFile, err))
	c.Counties, err = readCounties(texts[statesFile], texts[countiesFile], c.sources)
	errs = append(errs, err)
	c.climates = sync.OnceValues(func() ([]Climate, error) {
		all, err := ParseClimates(texts[climatesFile])
		return all, named(climatesFile, err)
	})
	c.book = sync.OnceValues(c.buildBook)
	c.help = sync.OnceValue(func() map[string]Help {
		out := map[string]Help{}
		for _, h := range c.Helps() {
			out[h.Key] = h
		}
		return out
	})
	c.handedOver = sync.OnceValue(c.handOver)
	c.marks = sync.OnceValue(c.gatherMarks)
	c.layers = sync.OnceValue(c.buildLayers)
	return errors.Join(errs...)
}

// must is for what was read strictly before: in the tests, or with an overlay.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func named(file string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", file, err)
}
