package catalog

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"battwright/rules/strict"
)

// What can be wrong with a county that was asked for.
var (
	ErrState  = errors.New("state not listed")
	ErrCounty = errors.New("county not listed")
	ErrNoZone = errors.New("county without a zone in the table")
	ErrTwo    = errors.New("two counties of that name in different zones")
)

// County is a US county, parish, borough or independent city with its climate
// zones. Without zones it is one that the source gives none, and Note says why.
type County struct {
	State string // USPS code
	Name  string // without County, Parish, Borough; "Baltimore city" for an independent city
	City  bool
	Zones
	HotHumid bool   // hot-humid region: the wet-bulb test of the warm-humid line
	Note     string // what the reader should know about this row
	Ref

	also []string // other names it goes by
	key  string   // folded name without the word city
}

const cityTail = " city"

// Counties is the table of states and their counties. It is read-only.
type Counties struct {
	states []state
	all    func() ([]County, error) // read when first asked for
}

// State is a state of the table.
type State struct{ Code, Name string }

type state struct {
	State
	key       string // folded name
	middle    Spot
	neighbors []string
	Ref
	counties func() ([]County, error) // those without a zone too
}

// States lists the states and the District of Columbia by name.
func (c *Counties) States() []State {
	out := make([]State, len(c.states))
	for i, s := range c.states {
		out[i] = s.State
	}
	slices.SortFunc(out, func(a, b State) int { return cmp.Compare(a.Name, b.Name) })
	return out
}

// State finds a state by USPS code or name.
func (c *Counties) State(text string) (State, error) {
	s, err := c.state(text)
	return s.State, err
}

func (c *Counties) state(text string) (state, error) {
	code, key := strings.ToUpper(strings.TrimSpace(text)), fold(text)
	if key == "washingtondc" {
		key = fold("District of Columbia")
	}
	for _, s := range c.states {
		if s.Code == code || s.key == key {
			return s, nil
		}
	}
	best, bestAt := "", 3
	for _, s := range c.states {
		if d := strict.Distance(key, s.key); key != "" && d < bestAt {
			best, bestAt = s.Name, d
		}
	}
	if best != "" {
		return state{}, fmt.Errorf("%w: %q; did you mean %s", ErrState, strict.Cut(text), best)
	}
	return state{}, fmt.Errorf("%w: %q; want two letters or the name: VT or Vermont", ErrState, strict.Cut(text))
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
	in, err := c.state(state)
	if err != nil {
		return County{}, nil, err
	}
	all, err := in.counties()
	if err != nil {
		return County{}, nil, err
	}
	tried := readings(county)
	for _, r := range tried {
		hits := matching(all, r)
		if len(hits) == 0 {
			continue
		}
		for _, h := range hits[1:] {
			if h.Zones != hits[0].Zones {
				return County{}, hits, fmt.Errorf("%w: %s, %s", ErrTwo, hits[0].Name, in.Code)
			}
		}
		if hits[0].Zones == (Zones{}) {
			return County{}, nil, fmt.Errorf("%w: %s, %s: %s", ErrNoZone, hits[0].Name, in.Code, hits[0].Note)
		}
		return hits[0], hits[1:], nil
	}
	return County{}, near(all, tried), fmt.Errorf("%w: %q in %s", ErrCounty, strict.Cut(county), in.Name)
}

// matching gives the rows of a reading, counties before cities; a kind that was
// said narrows them when it can.
func matching(counties []County, want reading) []County {
	var all, kind []County
	for _, c := range counties {
		switch {
		case c.key == want.key:
		case slices.ContainsFunc(c.also, func(name string) bool { return fold(name) == want.key }):
			c.Note = strings.TrimSpace(c.Note + " listed here under this name")
		default:
			continue
		}
		all = append(all, c)
		if c.City == want.city {
			kind = append(kind, c)
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
func near(counties []County, tried []reading) []County {
	type miss struct {
		County
		off int
	}
	var misses []miss
	for _, c := range counties {
		const far = 5
		off := far
		for _, t := range tried {
			allowed := min(far-1, 1+len(t.key)/4)
			if d := strict.Distance(t.key, c.key); t.key != "" && d <= allowed {
				off = min(off, d)
			}
			if t.key != "" && strings.HasPrefix(c.key, t.key) {
				off = 0
			}
		}
		if off < far && c.Zones != (Zones{}) {
			misses = append(misses, miss{c, off})
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
func (c *Counties) Search(in, text string, n int) ([]County, error) {
	states := c.states
	if strings.TrimSpace(in) != "" {
		one, err := c.state(in)
		if err != nil {
			return nil, err
		}
		states = []state{one}
	}
	key := fold(text)
	var begins, within []County
	for _, s := range states {
		all, err := s.counties()
		if err != nil {
			return nil, err
		}
		for _, county := range all {
			switch {
			case county.Zones == (Zones{}):
			case strings.HasPrefix(county.key, key):
				begins = append(begins, county)
			case laterWord(county.Name, key):
				within = append(within, county)
			}
		}
	}
	slices.SortFunc(begins, byName)
	slices.SortFunc(within, byName)
	found := append(begins, within...)
	return found[:max(0, min(n, len(found)))], nil
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
