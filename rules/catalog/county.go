package catalog

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// What can be wrong with a county that was asked for.
var (
	ErrState  = errors.New("state not listed")
	ErrCounty = errors.New("county not listed")
	ErrNoZone = errors.New("county without a zone in the table")
	ErrTwo    = errors.New("two counties of that name in different zones")
)

// County is a US county, parish, borough or independent city with its climate
// zones.
type County struct {
	State string // USPS code
	Name  string // without County, Parish, Borough; "Baltimore city" for an independent city
	City  bool
	Zones
	HotHumid bool   // hot-humid region: the wet-bulb test of the warm-humid line
	Note     string // what the reader should know about this row
	Ref
}

// Counties is the packed county table. It is read-only; a state is unpacked
// when it is asked for.
type Counties struct {
	Ref             // of the zones
	MiddlesRef  Ref // of the states' middles and neighbors
	blocks      []*stateBlock
	byCode      map[string]*stateBlock
	countiesSum int
}

type stateBlock struct {
	Code, Name string
	middle     Spot
	next       []string // neighboring states
	count      int
	lines      []string
}

// stateRows is one state unpacked.
type stateRows struct {
	counties []County
	keys     []string          // folded names, as counties
	renamed  map[string]string // folded other name -> folded name in the table
	gaps     map[string]gap
}

type gap struct{ name, why string }

// ParseCounties reads the packed table: the states and their line spans. Names
// are unpacked on demand; Check unpacks all of them.
func ParseCounties(text string) (*Counties, error) {
	c := &Counties{byCode: map[string]*stateBlock{}}
	var at *stateBlock
	for n, line := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		var err error
		switch {
		case line == "" || line[0] == '#':
		case strings.HasPrefix(line, "zones "):
			c.Ref, err = parseRef(line)
		case strings.HasPrefix(line, "middles "):
			c.MiddlesRef, err = parseRef(line)
		case len(line) > 3 && line[2] == '|' && upper(line[0]) && upper(line[1]):
			if at, err = parseState(line); err == nil {
				if c.byCode[at.Code] != nil {
					err = fmt.Errorf("state %s is there twice", at.Code)
				}
				c.byCode[at.Code] = at
				c.blocks = append(c.blocks, at)
				c.countiesSum += at.count
			}
		case at == nil:
			err = errors.New("a county line before the first state")
		default:
			at.lines = append(at.lines, line)
		}
		if err != nil {
			return nil, fmt.Errorf("%w: counties line %d: %w", ErrData, n+1, err)
		}
	}
	if len(c.blocks) == 0 || !c.Known.Valid() || !c.MiddlesRef.Known.Valid() {
		return nil, fmt.Errorf("%w: counties: wants states and the marks of zones and middles", ErrData)
	}
	for _, b := range c.blocks {
		for _, code := range b.next {
			if c.byCode[code] == nil {
				return nil, fmt.Errorf("%w: counties: %s has the unknown neighbor %q", ErrData, b.Code, code)
			}
		}
	}
	return c, nil
}

func upper(b byte) bool { return 'A' <= b && b <= 'Z' }

func parseRef(line string) (Ref, error) {
	f := strings.Fields(line)
	if len(f) != 3 || !Known(f[2]).Valid() {
		return Ref{}, fmt.Errorf("%q: want a source and a mark", cut(line))
	}
	return Ref{f[1], Known(f[2])}, nil
}

func parseState(line string) (*stateBlock, error) {
	f := strings.Split(line, "|")
	if len(f) != 5 || f[1] == "" {
		return nil, fmt.Errorf("%q: want code, name, middle, neighbors, count", cut(line))
	}
	latText, lonText, _ := strings.Cut(f[2], " ")
	lat, errLat := strconv.ParseFloat(latText, 64)
	lon, errLon := strconv.ParseFloat(lonText, 64)
	count, errCount := strconv.Atoi(f[4])
	if err := errors.Join(errLat, errLon, errCount); err != nil {
		return nil, err
	}
	return &stateBlock{Code: f[0], Name: f[1], middle: Spot{Lat: lat, Lon: lon}, next: strings.Fields(f[3]), count: count}, nil
}

// Check unpacks every state and reports every problem of the table.
func (c *Counties) Check() error {
	var errs []error
	for _, b := range c.blocks {
		_, err := c.unpack(b)
		errs = append(errs, err)
	}
	return errors.Join(errs...)
}

func (c *Counties) unpack(b *stateBlock) (*stateRows, error) {
	rows := &stateRows{renamed: map[string]string{}, gaps: map[string]gap{}}
	notes := map[string]string{}
	for _, line := range b.lines {
		body, tail, ok := strings.Cut(line[1:], "|")
		switch line[0] {
		case '=':
			names, to, found := strings.Cut(line[1:], ">")
			for name := range strings.SplitSeq(names, ";") {
				rows.renamed[fold(name)] = fold(to)
			}
			ok = found
		case '!':
			for name := range strings.SplitSeq(body, ";") {
				rows.gaps[fold(name)] = gap{name, tail}
			}
		case '?':
			notes[body] = tail
		default:
			zones, names, found := strings.Cut(line, "|")
			ok = found && rows.addGroup(b.Code, zones, names, c.Ref)
		}
		if !ok {
			return nil, fmt.Errorf("%w: counties of %s: %q", ErrData, b.Code, cut(line))
		}
	}
	if len(rows.counties) != b.count {
		return nil, fmt.Errorf("%w: %s has %d counties; its line says %d", ErrData, b.Code, len(rows.counties), b.count)
	}
	// A remark on a row means its zone is not quite as printed.
	for i := range rows.counties {
		packed := strings.TrimSuffix(rows.counties[i].Name, " city")
		if rows.counties[i].City {
			packed += "~"
		}
		if note, ok := notes[packed]; ok {
			rows.counties[i].Note = note
			if c.Known == Standard {
				rows.counties[i].Known = Secondary
			}
		}
	}
	return rows, nil
}

// addGroup adds the counties of one line: zone in 2021, <zone before where it
// differs, * hot and humid.
func (r *stateRows) addGroup(state, zones, names string, ref Ref) bool {
	zones, humid := strings.CutSuffix(zones, "*")
	now, before, differs := strings.Cut(zones, "<")
	if !differs {
		before = now
	}
	for _, z := range []string{now, before} {
		if _, err := CodeZone(z); err != nil {
			return false
		}
	}
	for name := range strings.SplitSeq(names, ";") {
		name, city := strings.CutSuffix(name, "~")
		key := fold(name)
		if key == "" {
			return false
		}
		if city {
			name += " city"
		}
		r.keys = append(r.keys, key)
		r.counties = append(r.counties, County{State: state, Name: name, City: city, Zones: Zones{now, before}, HotHumid: humid, Ref: ref})
	}
	return true
}

// Count is the number of counties in the table.
func (c *Counties) Count() int { return c.countiesSum }

// State is a state of the table.
type State struct{ Code, Name string }

// States lists the states and the District of Columbia by name.
func (c *Counties) States() []State {
	out := make([]State, len(c.blocks))
	for i, b := range c.blocks {
		out[i] = State{b.Code, b.Name}
	}
	slices.SortFunc(out, func(a, b State) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// State finds a state by USPS code or name.
func (c *Counties) State(text string) (State, error) {
	b, err := c.block(text)
	if err != nil {
		return State{}, err
	}
	return State{b.Code, b.Name}, nil
}

func (c *Counties) block(text string) (*stateBlock, error) {
	if b := c.byCode[strings.ToUpper(strings.TrimSpace(text))]; b != nil {
		return b, nil
	}
	key := fold(text)
	if key == "washingtondc" {
		key = fold("District of Columbia")
	}
	best, bestAt := "", 3
	for _, b := range c.blocks {
		name := fold(b.Name)
		if name == key {
			return b, nil
		}
		if d := distance(key, name, bestAt); key != "" && d < bestAt {
			best, bestAt = b.Name, d
		}
	}
	if best != "" {
		return nil, fmt.Errorf("%w: %q; did you mean %s", ErrState, cut(text), best)
	}
	return nil, fmt.Errorf("%w: %q; want two letters or the name: VT or Vermont", ErrState, cut(text))
}

// All lists the counties of a state by name.
func (c *Counties) All(state string) ([]County, error) {
	b, err := c.block(state)
	if err != nil {
		return nil, err
	}
	rows, err := c.unpack(b)
	if err != nil {
		return nil, err
	}
	slices.SortFunc(rows.counties, byName)
	return rows.counties, nil
}

func byName(a, b County) int {
	return cmp.Or(cmp.Compare(fold(a.Name), fold(b.Name)), cmp.Compare(a.State, b.State))
}

// Lookup finds a county by state (code or name) and name. Case, accents,
// spaces and a following County, Parish, Borough, Census Area or city do not
// matter. A name shared by a county and a city gives the county unless city is
// said, and the other one in others. When nothing fits, others holds up to
// five near misses; a county known to be missing from the table gives
// ErrNoZone with the reason.
func (c *Counties) Lookup(state, county string) (found County, others []County, err error) {
	b, err := c.block(state)
	if err != nil {
		return County{}, nil, err
	}
	rows, err := c.unpack(b)
	if err != nil {
		return County{}, nil, err
	}
	for _, r := range readings(county) {
		if to, ok := rows.renamed[r.key]; ok {
			r.key, r.called = to, strings.TrimSpace(county)
		}
		hits := rows.named(r)
		if len(hits) == 0 {
			if g, ok := rows.gaps[r.key]; ok {
				return County{}, nil, fmt.Errorf("%w: %s, %s: %s", ErrNoZone, g.name, b.Code, g.why)
			}
			continue
		}
		for _, h := range hits[1:] {
			if h.Zones != hits[0].Zones {
				return County{}, hits, fmt.Errorf("%w: %s, %s", ErrTwo, hits[0].Name, b.Code)
			}
		}
		return hits[0], hits[1:], nil
	}
	return County{}, rows.near(readings(county)), fmt.Errorf("%w: %q in %s", ErrCounty, cut(county), b.Name)
}

// named gives the rows of a reading, counties before cities; a kind that was
// said narrows them when it can.
func (r *stateRows) named(want reading) []County {
	var all, kind []County
	for i, key := range r.keys {
		if key != want.key {
			continue
		}
		hit := r.counties[i]
		if want.called != "" {
			hit.Note = strings.TrimSpace(hit.Note + " listed here under this name")
		}
		all = append(all, hit)
		if hit.City == want.city {
			kind = append(kind, hit)
		}
	}
	if want.said && len(kind) > 0 {
		return kind
	}
	slices.SortStableFunc(all, func(a, b County) int {
		switch {
		case a.City == b.City:
			return 0
		case b.City:
			return -1
		}
		return 1
	})
	return all
}

// near gives up to five counties that begin like a reading or are a few
// letters off.
func (r *stateRows) near(tried []reading) []County {
	type miss struct {
		County
		off int
	}
	var misses []miss
	for i, k := range r.keys {
		const far = 5
		off := far
		for _, t := range tried {
			allowed := min(far-1, 1+len(t.key)/4)
			if d := distance(t.key, k, allowed+1); t.key != "" && d <= allowed {
				off = min(off, d)
			}
			if t.key != "" && strings.HasPrefix(k, t.key) {
				off = 0
			}
		}
		if off < far {
			misses = append(misses, miss{r.counties[i], off})
		}
	}
	slices.SortFunc(misses, func(a, b miss) int { return cmp.Or(cmp.Compare(a.off, b.off), byName(a.County, b.County)) })
	var out []County
	for _, m := range misses[:min(5, len(misses))] {
		out = append(out, m.County)
	}
	return out
}

// Search serves typing ahead: counties that begin with the text, then those
// with a later word that does, at most n. An empty state searches all.
func (c *Counties) Search(state, text string, n int) ([]County, error) {
	blocks := c.blocks
	if strings.TrimSpace(state) != "" {
		b, err := c.block(state)
		if err != nil {
			return nil, err
		}
		blocks = []*stateBlock{b}
	}
	key := fold(text)
	var begins, within []County
	for _, b := range blocks {
		rows, err := c.unpack(b)
		if err != nil {
			return nil, err
		}
		for i, county := range rows.counties {
			switch {
			case strings.HasPrefix(rows.keys[i], key):
				begins = append(begins, county)
			case laterWord(county.Name, key):
				within = append(within, county)
			}
		}
	}
	slices.SortFunc(begins, byName)
	slices.SortFunc(within, byName)
	all := append(begins, within...)
	return all[:max(0, min(n, len(all)))], nil
}

func laterWord(name, key string) bool {
	words := foldWords(name)
	for i := 1; i < len(words); i++ {
		if strings.HasPrefix(strings.Join(words[i:], ""), key) {
			return true
		}
	}
	return false
}
