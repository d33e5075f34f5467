package catalog

import (
	"errors"
	"fmt"
	"io/fs"
	"sort"
	"strings"

	"battwright/rules"
	"battwright/rules/strict"
	"battwright/rules/units"
)

// records is what a data file may hold. Any file may hold any of them, so an
// overlay can be one file or many.
type records struct {
	Materials   []Material         `toml:"material"`
	Products    []Product          `toml:"product"`
	Prices      []Price            `toml:"price"`
	Facings     []Facing           `toml:"facing"`
	Kinds       []PlaceKind        `toml:"place"`
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

// Load reads the base files and, when overlay is not nil, lays its records
// over them. Every problem is reported: bad TOML, duplicate and dangling ids,
// figures out of range, rules that rest on memory alone.
func Load(base, overlay fs.FS) (*Catalog, error) {
	r, err := readBase(base)
	if err != nil {
		return nil, err
	}
	c := &Catalog{}
	texts, err := readTexts(base, nil)
	if err != nil {
		return nil, err
	}
	if overlay != nil {
		if err := c.lay(r, overlay, texts); err != nil {
			return nil, err
		}
	}
	if err := c.build(r, texts); err != nil || overlay == nil {
		return c, err
	}
	_, err = c.Counties.all() // they may be the person's own
	return c, err
}

// CheckStrict reads the files as strictly as a builder's own: unknown keys,
// wrong types, hidden characters. The embedded files are read plainly at
// start, and so in the tests.
func CheckStrict(files fs.FS) error {
	names, err := fs.Glob(files, "*.toml")
	errs := []error{err}
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		errs = append(errs, err)
		_, err = strict.Decode(name, string(text), formOf(name))
		errs = append(errs, err)
	}
	return errors.Join(errs...)
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

func readBase(files fs.FS) (*records, error) {
	names, err := fs.Glob(files, "*.toml")
	if err != nil {
		return nil, err
	}
	sort.Strings(names)
	all := &records{}
	var errs []error
	for _, name := range names {
		if name == codesFile || name == climatesFile {
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

// build fills the catalog from the records and checks it.
func (c *Catalog) build(r *records, texts map[string]string) error {
	c.Materials, c.Products, c.Facings, c.Kinds = r.Materials, r.Products, r.Facings, r.Kinds
	c.Sheathings, c.Claddings, c.Sizes, c.Shares = r.Sheathings, r.Claddings, r.Sizes, r.Shares
	c.Criteria, c.Words, c.Helps, c.Fuels = r.Criteria, r.Words, r.Helps, r.Fuels
	c.Clearances = r.Clearances
	c.Acceptance = r.AcceptanceRecords
	c.goods = goods{r.Figures, r.Studs, r.Gear}
	var errs []error
	if r.Lumber == nil || r.Foam == nil || r.Settings == nil {
		errs = append(errs, errors.New("data: [lumber], [foam] and [settings] must be there"))
	} else {
		c.Lumber, c.Foam, c.Settings = *r.Lumber, *r.Foam, *r.Settings
	}
	c.prices, c.sources, c.help = map[string]Price{}, map[string]Source{}, map[string]int{}
	for _, p := range r.Prices {
		c.prices[p.Product] = p
	}
	for _, s := range r.Sources {
		c.sources[s.ID] = s
		c.sourceOrder = append(c.sourceOrder, s.ID)
	}
	c.ifUnknown = map[string]units.Prose{}
	c.reasons = map[string][2]string{}
	for _, rule := range r.Rules {
		c.ifUnknown[rule.ID] = rule.IfUnknown
		if figures := len(rules.FiguresIn(rule.Reason)); figures > 0 && figures == strings.Count(rule.Reason, "{") {
			text := units.Prose(rule.Reason)
			c.reasons[rule.ID] = [2]string{text.In(units.US), text.In(units.SI)}
		}
	}
	for i, h := range r.Helps {
		c.help[h.Key] = i
	}
	var err error
	c.Codes, err = ParseCodes(texts[codesFile])
	errs = append(errs, named(codesFile, err))
	c.Climates, err = ParseClimates(texts[climatesFile])
	errs = append(errs, named(climatesFile, err))
	c.Counties, err = readCounties(texts[statesFile], texts[countiesFile], c.sources)
	errs = append(errs, err)
	c.obligations = r.Obligations
	c.Book, err = buildBook(r)
	errs = append(errs, err)
	errs = append(errs, c.check(r)...)
	return errors.Join(errs...)
}

func named(file string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s: %w", file, err)
}
