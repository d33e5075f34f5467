package catalog

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"battwright/rules/strict"
	"battwright/rules/units"
)

// What can be wrong with a question put to the place data.
var (
	ErrOptions = errors.New("options of R-value not understood")
	ErrEdition = errors.New("code edition not listed")
	ErrZone    = errors.New("climate zone not understood")
	ErrNoCell  = errors.New("no figure in the table")
	ErrData    = errors.New("place data wrong")
)

// codeZones are the columns of the tables; 4M is zone 4 marine.
const codeZones = "0 1 2 3 4 4M 5 6 7 8"

// codeElements are the parts of a house that the R-value tables name.
const codeElements = "ceiling wood_frame_wall floor basement_wall crawl_wall"

// maxTableR is above any R-value of a residential table; more is a slip.
const maxTableR = 200

// Alternative is one way to meet the table: R of insulation between the
// framing and R of unbroken board over it, both in h ft2 F/Btu. Both zero
// means that nothing is required.
type Alternative struct {
	CavityR, ContinuousR float64
}

// String writes the alternative as the tables do: 20, 20+5ci, 10ci.
func (a Alternative) String() string {
	cavity := strconv.FormatFloat(a.CavityR, 'f', -1, 64)
	board := strconv.FormatFloat(a.ContinuousR, 'f', -1, 64) + "ci"
	switch {
	case a.ContinuousR == 0:
		return cavity
	case a.CavityR == 0:
		return board
	}
	return cavity + "+" + board
}

// ParseOptions reads the options of a table cell: one or more of 20, 20+5ci
// (cavity and board) or 5ci (board alone), joined by "or"; 0 alone means not
// required. 0+10ci is the same as 10ci. Numbers are plain decimals up to 200.
func ParseOptions(text string) ([]Alternative, error) {
	if len(text) > 200 {
		return nil, fmt.Errorf("%w: %d characters are too many for a table cell", ErrOptions, len(text))
	}
	var alts []Alternative
	for part := range strings.SplitSeq(strings.Join(strings.Fields(text), " "), " or ") {
		a, err := parseAlternative(part)
		if err != nil {
			return nil, err
		}
		alts = append(alts, a)
	}
	if len(alts) > 1 && slices.Contains(alts, Alternative{}) {
		return nil, fmt.Errorf("%w: %q: 0 means not required and must stand alone", ErrOptions, text)
	}
	return alts, nil
}

func parseAlternative(text string) (a Alternative, err error) {
	cavity, board, both := strings.Cut(text, "+")
	if !both && strings.HasSuffix(text, "ci") {
		cavity, board, both = "0", text, true
	}
	if a.CavityR, err = tableNumber(cavity); err != nil {
		return Alternative{}, fmt.Errorf("%w: %q", err, text)
	}
	if !both {
		return a, nil
	}
	board, ci := strings.CutSuffix(board, "ci")
	if !ci {
		return Alternative{}, fmt.Errorf("%w: %q: the part after + is board and ends in ci", ErrOptions, text)
	}
	if a.ContinuousR, err = tableNumber(board); err != nil {
		return Alternative{}, fmt.Errorf("%w: %q", err, text)
	}
	return a, nil
}

// tableNumber refuses what strconv would accept beyond a printed table: signs,
// exponents, hexadecimal, infinity.
func tableNumber(s string) (float64, error) {
	if s == "" || len(s) > 8 || strings.Trim(s, "0123456789.") != "" {
		return 0, fmt.Errorf("%w: want a number", ErrOptions)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v > maxTableR {
		return 0, fmt.Errorf("%w: want a number up to %d", ErrOptions, maxTableR)
	}
	return v, nil
}

// CodeZone gives the column of the code tables for a climate zone as counties
// carry it: 6A is column 6, 4C column 4M. It also accepts 4M and bare numbers.
func CodeZone(zone string) (string, error) {
	z := strings.ToUpper(strings.TrimSpace(zone))
	if z == "4M" || z == "4C" {
		return "4M", nil
	}
	if len(z) == 0 || len(z) > 2 || z[0] < '0' || z[0] > '8' || len(z) == 2 && !strings.Contains("ABC", z[1:]) {
		return "", fmt.Errorf("%w: %q; want 0 to 8 with a letter A, B or C, or 4M", ErrZone, strict.Cut(zone))
	}
	return z[:1], nil
}

// Edition is a year, or span of years, of the model code.
type Edition struct {
	ID          string `toml:"id,required"`
	Title       string `toml:"title,required"`
	Years       []int  `toml:"years"`
	Zoning      string `toml:"zoning,required"` // which county zones it uses: 2021 or pre-2021
	Provisional bool   `toml:"provisional"`     // figures recalled, not checked against print
}

// Name is the years of an edition, with what is not checked of it.
func (e Edition) Name() string {
	if e.Provisional {
		return e.Title + " (figures not yet checked)"
	}
	return e.Title
}

// Zones are the climate zones of one spot by the two county zonings.
type Zones struct {
	Zone2021    string `toml:"zone_2021,required"`
	ZonePre2021 string `toml:"zone_pre_2021"` // empty outside the US
}

type cellKey struct{ edition, zone, element string }

type minimumCell struct {
	alts []Alternative
	ref  Ref
}

// CodeBook is what the model code asks by edition, zone and part of the house.
// It is read-only once parsed.
type CodeBook struct {
	Sloped     SlopedRule
	Editions   []Edition
	minimums   map[cellKey]minimumCell
	retrofits  map[string]RetrofitLevel
	retarders  map[cellKey]RetarderRule
	notes      []noteRecord
	fullHeight []fullHeightRecord
	zoning     zoningRecord
	refs       []Ref // of everything in it
}

// Edition finds an edition by id.
func (c *CodeBook) Edition(id string) (Edition, error) {
	if e, ok := find(c.Editions, func(e *Edition) bool { return e.ID == id }); ok {
		return e, nil
	}
	known := ids(c.Editions, func(e Edition) string { return e.ID })
	return Edition{}, fmt.Errorf("%w: %q; want %s", ErrEdition, strict.Cut(id), strings.Join(known, ", "))
}

// ZoneFor gives the zone that an edition goes by: a house permitted under an
// edition before 2021 keeps the zone of the older county table.
func (c *CodeBook) ZoneFor(edition string, z Zones) (string, error) {
	e, err := c.Edition(edition)
	if err != nil {
		return "", err
	}
	if e.Zoning == "pre-2021" && z.ZonePre2021 != "" {
		return z.ZonePre2021, nil
	}
	return z.Zone2021, nil
}

// key checks edition and zone and gives the cell of an element.
func (c *CodeBook) key(edition, zone, element string) (cellKey, error) {
	if _, err := c.Edition(edition); err != nil {
		return cellKey{}, err
	}
	z, err := CodeZone(zone)
	return cellKey{edition, z, element}, err
}

// Alternatives gives the ways to meet the table in an edition (irc-2021), a
// zone (6A, 4M) and an element (ceiling, wood_frame_wall, floor, basement_wall,
// crawl_wall), where they are from and the side rules that go with the cell.
func (c *CodeBook) Alternatives(edition, zone, element string) ([]Alternative, Ref, []units.Prose, error) {
	key, err := c.key(edition, zone, element)
	if err != nil {
		return nil, Ref{}, nil, err
	}
	cell, ok := c.minimums[key]
	if !ok {
		return nil, Ref{}, nil, fmt.Errorf("%w: %s in zone %s of %s", ErrNoCell, strict.Cut(element), key.zone, edition)
	}
	var notes []units.Prose
	for _, n := range c.notes {
		if n.applies(key, cell.alts) {
			notes = append(notes, n.Text)
		}
	}
	return slices.Clone(cell.alts), cell.ref, notes, nil
}

// FullHeight gives the lower ceiling R that serves for neededR where it runs
// unsqueezed over the whole ceiling and the top of the outside walls.
func (c *CodeBook) FullHeight(edition string, neededR float64) (servesR float64, ref Ref, ok bool) {
	for _, f := range c.fullHeight {
		if !slices.Contains(f.Editions, edition) {
			continue
		}
		for _, s := range f.Steps {
			if s.ForR == neededR {
				return s.ServesR, f.Ref, true
			}
		}
	}
	return 0, Ref{}, false
}

// WarmHumidExempt reports whether the element needs no insulation in counties
// marked warm-humid, and where that is from.
func (c *CodeBook) WarmHumidExempt(edition, zone, element string) (Ref, bool) {
	key, err := c.key(edition, zone, element)
	if err != nil {
		return Ref{}, false
	}
	for _, n := range c.notes {
		if n.WarmHumid && n.applies(key, c.minimums[key].alts) {
			return n.Ref, true
		}
	}
	return Ref{}, false
}

// ParseCodes reads codes.toml and checks it: every edition must have every
// element in zones 1 to 8 and 4M, every cell once.
func ParseCodes(text string) (*CodeBook, error) {
	var f codeFile
	if err := strict.DecodePlain(text, &f); err != nil {
		return nil, err
	}
	b := bookBuilder{book: &CodeBook{
		Sloped: f.Sloped, Editions: f.Editions, notes: f.Notes, fullHeight: f.FullHeight, zoning: f.Zoning,
		minimums:  map[cellKey]minimumCell{},
		retrofits: map[string]RetrofitLevel{}, retarders: map[cellKey]RetarderRule{},
	}}
	b.addEditions()
	b.addMinimums(f.Minimums)
	b.addNotes()
	b.checkSloped()
	b.addRetrofits(f.Retrofits)
	b.addRetarders(f.Retarders)
	b.checkZoning()
	b.complete()
	if err := errors.Join(b.errs...); err != nil {
		return nil, err
	}
	return b.book, nil
}

// bookBuilder fills a book from the records and gathers every problem.
type bookBuilder struct {
	book *CodeBook
	errs []error
}

func (b *bookBuilder) bad(format string, args ...any) {
	b.errs = append(b.errs, fmt.Errorf("%w: "+format, append([]any{ErrData}, args...)...))
}

func (b *bookBuilder) ref(what string, r Ref) {
	b.book.refs = append(b.book.refs, r)
	if r.Source == "" || !r.Known.Valid() {
		b.bad("%s: wants a source and a mark, has %q, %q", what, r.Source, r.Known)
	}
}

// figure refuses what no table of this kind can hold.
func (b *bookBuilder) figure(what string, v, low, high float64) {
	if !(v >= low && v <= high) { // also false for NaN
		b.bad("%s: %v; want %v to %v", what, v, low, high)
	}
}

func (b *bookBuilder) element(what, element string) {
	if !slices.Contains(strings.Fields(codeElements), element) {
		b.bad("%s: element %q; want one of %s", what, element, codeElements)
	}
}

// cells gives the cell keys of a record; a wrong edition, zone or element is
// a problem and yields none.
func (b *bookBuilder) cells(what string, editions []string, zones, element string) []cellKey {
	var keys []cellKey
	if element != "" {
		b.element(what, element)
	}
	for _, e := range editions {
		if _, err := b.book.Edition(e); err != nil {
			b.errs = append(b.errs, fmt.Errorf("%w: %s: %w", ErrData, what, err))
			continue
		}
		for _, z := range strings.Fields(zones) {
			if !slices.Contains(strings.Fields(codeZones), z) {
				b.bad("%s: zone %q; want one of %s", what, z, codeZones)
				continue
			}
			keys = append(keys, cellKey{e, z, element})
		}
	}
	if len(keys) == 0 {
		b.bad("%s: names no edition or no zone", what)
	}
	return keys
}

func put[K comparable, V any](b *bookBuilder, what string, into map[K]V, key K, v V) {
	if _, there := into[key]; there {
		b.bad("%s: %v is there twice", what, key)
	}
	into[key] = v
}

func (b *bookBuilder) addEditions() {
	seen := map[string]bool{}
	for _, e := range b.book.Editions {
		if e.ID == "" || seen[e.ID] || e.Zoning != "2021" && e.Zoning != "pre-2021" {
			b.bad("edition %q: wants an id of its own and the zoning 2021 or pre-2021, has %q", e.ID, e.Zoning)
		}
		seen[e.ID] = true
	}
}

func (b *bookBuilder) addMinimums(records []minimumRecord) {
	for _, m := range records {
		what := "minimum " + m.Edition + " " + m.Element
		for _, row := range m.R {
			ref := m.Ref
			if row.Ref != (Ref{}) {
				ref = row.Ref
			}
			b.ref(what, ref)
			alts, err := ParseOptions(row.Options)
			if err != nil {
				b.errs = append(b.errs, fmt.Errorf("%w: %s zones %s: %w", ErrData, what, row.Zones, err))
			}
			for _, k := range b.cells(what, []string{m.Edition}, row.Zones, m.Element) {
				put(b, what, b.book.minimums, k, minimumCell{alts, ref})
			}
		}
	}
}

func (b *bookBuilder) checkSloped() {
	r := b.book.Sloped
	b.ref("sloped", r.Ref)
	b.figure("sloped r", r.R, 1, maxTableR)
	b.figure("sloped share", r.Share, 0, 1)
	b.figure("sloped most_ft2", r.MostFt2, 1, 1e5)
}

// FilledBay is the R that serves instead of the table's where a blanket fills the
// space between the joists of an element; ok is false where the code knows none.
func (c *CodeBook) FilledBay(element string, cavityR float64) (r float64, ref Ref, ok bool) {
	for _, n := range c.notes {
		if n.FilledR > 0 && (n.AboveR == nil || cavityR > *n.AboveR) && slices.Contains(n.Elements, element) {
			return n.FilledR, n.Ref, true
		}
	}
	return 0, Ref{}, false
}

func (b *bookBuilder) addNotes() {
	for _, n := range b.book.notes {
		b.ref("note", n.Ref)
		if n.Text == "" {
			b.bad("note without text")
		}
		for _, e := range n.Elements {
			b.element(fmt.Sprintf("note %q", strict.Cut(string(n.Text))), e)
		}
		for _, z := range strings.Fields(n.Zones) {
			if !slices.Contains(strings.Fields(codeZones), z) {
				b.bad("note %q: zone %q", strict.Cut(string(n.Text)), z)
			}
		}
	}
	for _, f := range b.book.fullHeight {
		b.ref("full_height", f.Ref)
		for _, s := range f.Steps {
			b.figure("full_height for_r", s.ForR, 1, maxTableR)
			b.figure("full_height serves_r", s.ServesR, 1, s.ForR)
		}
	}
}

// complete makes sure that a lookup with a listed edition never falls through
// a hole of the table. Zone 0 is outside the US and came late.
func (b *bookBuilder) complete() {
	for _, z := range strings.Fields(codeZones)[1:] {
		for _, e := range b.book.Editions {
			for _, element := range strings.Fields(codeElements) {
				if _, ok := b.book.minimums[cellKey{e.ID, z, element}]; !ok {
					b.bad("minimum %s %s: zone %s is missing", e.ID, element, z)
				}
			}
			if _, ok := b.book.retarders[cellKey{e.ID, z, ""}]; !ok {
				b.bad("retarder %s: zone %s is missing", e.ID, z)
			}
		}
		if _, ok := b.book.retrofits[z]; !ok {
			b.bad("retrofit: zone %s is missing", z)
		}
	}
}
