package catalog

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode"

	"battwright/rules/strict"
)

// The headings of the tables of states and counties.
var (
	stateColumns  = []string{"state", "name", "latitude", "longitude", "neighbors", "source", "known"}
	countyColumns = []string{"state", "county", "zone_2021", "zone_before_2021", "hot_humid", "also_called", "remark", "source", "known"}
)

// readCounties reads the states at once and the counties when one is asked
// for: many a run asks for none, and there are thousands.
func readCounties(states, counties string, sources map[string]Source) (*Counties, error) {
	c := &Counties{}
	err := eachRow(statesFile, states, stateColumns, func(f []string) (column, want string) {
		lat, errLat := strconv.ParseFloat(f[2], 64)
		lon, errLon := strconv.ParseFloat(f[3], 64)
		s := state{State{f[0], f[1]}, fold(f[1]), Spot{Lat: lat, Lon: lon}, strings.Fields(f[4]), Ref{f[5], Known(f[6])}, nil}
		s.counties = sync.OnceValues(func() ([]County, error) { return c.of(s.Code, counties, sources) })
		c.states = append(c.states, s)
		switch {
		case len(s.Code) != 2:
			return "state", "two letters"
		case s.Name == "":
			return "name", "the name of the state"
		case errLat != nil:
			return "latitude", "degrees north"
		case errLon != nil:
			return "longitude", "degrees east"
		}
		return wrongRef(s.Ref, sources)
	})
	for _, s := range c.states {
		for _, code := range s.neighbors {
			if !c.has(code) {
				err = errors.Join(err, fmt.Errorf("%w: %s: %s has the unknown neighbor %q", ErrData, statesFile, s.Code, code))
			}
		}
	}
	c.all = sync.OnceValues(func() ([]County, error) { return c.read(counties, sources) })
	return c, err
}

func (c *Counties) has(code string) bool {
	return slices.ContainsFunc(c.states, func(s state) bool { return s.Code == code })
}

// of gives the counties of one state.
func (c *Counties) of(code, text string, sources map[string]Source) ([]County, error) {
	all, err := c.read(rowsOf(code, text), sources)
	var out []County
	for _, county := range all {
		if county.State == code {
			county.key = fold(strings.TrimSuffix(county.Name, cityTail))
			out = append(out, county)
		}
	}
	return out, err
}

// rowsOf is a table with the rows of one state alone, or the whole of one that is
// quoted so that a row need not be a line.
func rowsOf(code, text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		switch {
		case line[0] == '"' || strings.Count(line, `"`)%2 != 0:
			return text
		case b.Len() == 0 || strings.HasPrefix(line, code+","):
			b.WriteString(line)
		}
	}
	return b.String()
}

func (c *Counties) read(text string, sources map[string]Source) ([]County, error) {
	all := make([]County, 0, strings.Count(text, "\n"))
	last := ""
	err := eachRow(countiesFile, text, countyColumns, func(f []string) (column, want string) {
		x := County{State: f[0], Name: f[1], City: strings.HasSuffix(f[1], cityTail), Zones: Zones{f[2], f[3]}, HotHumid: f[4] == "yes", Note: f[6], Ref: Ref{f[7], Known(f[8])}}
		if f[5] != "" {
			x.also = strings.Split(f[5], ";")
		}
		if x.State != last && !c.has(x.State) {
			return "state", "the two letters of a state: VT"
		}
		all, last = append(all, x), x.State
		for _, i := range []int{1, 5, 6} {
			if _, hidden := strict.CleanText(f[i]); hidden {
				return countyColumns[i], "text without hidden characters"
			}
		}
		none := x.Zones == Zones{}
		_, errNow := CodeZone(x.Zone2021)
		_, errBefore := CodeZone(x.ZonePre2021)
		switch {
		case !strings.ContainsFunc(x.Name, unicode.IsLetter):
			return "county", "a name"
		case none && x.Note == "":
			return "remark", "why the county has no zone"
		case !none && errNow != nil:
			return "zone_2021", "a climate zone like 6A"
		case !none && errBefore != nil:
			return "zone_before_2021", "a climate zone like 6A"
		case f[4] != "" && f[4] != "yes":
			return "hot_humid", "yes or nothing"
		}
		return wrongRef(x.Ref, sources)
	})
	return all, err
}

func wrongRef(r Ref, sources map[string]Source) (column, want string) {
	if _, listed := sources[r.Source]; !listed {
		return "source", "the id of a [[source]]"
	}
	if !r.Known.Valid() {
		return "known", "standard, secondary, practice, memory or invented"
	}
	return "", ""
}

// eachRow reads a table with a row of headings. take is given the cells of a
// row and names the column that is wrong, if one is, and what would be right.
func eachRow(file, text string, columns []string, take func(cells []string) (column, want string)) error {
	r := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	r.FieldsPerRecord, r.ReuseRecord = len(columns), true
	if head, err := r.Read(); err != nil || !slices.Equal(head, columns) {
		return strict.Problem{File: file, Line: 1, Want: "the headings " + strings.Join(columns, ",")}
	}
	var problems strict.Problems
	for len(problems) < strict.MaxProblems {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		var wrong *csv.ParseError
		if errors.As(err, &wrong) {
			problems = append(problems, strict.Problem{File: file, Line: wrong.Line, Found: wrong.Err.Error(), Want: fmt.Sprintf("%d cells: %s", len(columns), strings.Join(columns, ","))})
			continue
		}
		if column, want := take(cells); column != "" {
			line, _ := r.FieldPos(0)
			found := strconv.Quote(strict.Cut(cells[slices.Index(columns, column)]))
			problems = append(problems, strict.Problem{File: file, Line: line, Key: column, Found: found, Want: want})
		}
	}
	if len(problems) > 0 {
		return problems
	}
	return nil
}
