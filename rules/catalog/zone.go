package catalog

import (
	"errors"
	"fmt"
	"strings"

	"battwright/rules/strict"
)

// Located is what the answers about where a house stands lead to.
type Located struct {
	Zone       string // by the zoning of the edition: "6A"
	Zone2021   string
	Why        string // in words
	County     string
	State      string
	Climate    Climate
	HasClimate bool
	ClimateWhy string
	Near       []NearClimate // other listed places that would serve
	Notes      []string
	From       []Ref
}

const nearOffered = 4

// Locate finds zone and climate from what was said. A zone that was typed
// wins over the county table, a climate that was named over the nearest one.
func (c *Catalog) Locate(state, county, zone, climate, edition string) Located {
	out := Located{State: state, County: county}
	c.locateZone(&out, zone, edition)
	c.locateClimate(&out, climate, edition)
	return out
}

func (c *Catalog) locateZone(out *Located, zone, edition string) {
	if zone != "" {
		out.Zone, out.Zone2021, out.Why = zone, zone, "as you typed it"
		return
	}
	if out.State == "" || out.County == "" {
		return
	}
	found, others, err := c.Counties.Lookup(out.State, out.County)
	if err != nil {
		out.Notes = append(out.Notes, lookupNote(err, others))
		return
	}
	z, err := c.Codes.ZoneFor(edition, found.Zones)
	if err != nil {
		out.Notes = append(out.Notes, err.Error())
		return
	}
	out.Zone, out.Zone2021, out.County = z, found.Zone2021, found.Name
	out.Why = found.Name + ", " + found.State
	out.From = append(out.From, found.Ref)
	if found.Zone2021 != found.ZonePre2021 {
		out.Notes = append(out.Notes, fmt.Sprintf("the county is zone %s in codes before 2021 and %s from 2021", found.ZonePre2021, found.Zone2021))
	}
	if found.Note != "" {
		out.Notes = append(out.Notes, found.Note)
	}
}

func lookupNote(err error, others []County) string {
	text := strings.TrimPrefix(err.Error(), ErrCounty.Error()+": ")
	if errors.Is(err, ErrCounty) && len(others) == 0 {
		return "there is no county " + text + " in the table; without it the climate zone is not known"
	}
	if errors.Is(err, ErrCounty) {
		names := ids(others, func(o County) string { return o.Name })
		return "county " + text + " is not in the table; did you mean " + strings.Join(names, ", ") + "?"
	}
	return text
}

func (c *Catalog) locateClimate(out *Located, climate, edition string) {
	if climate != "" {
		for _, cl := range c.Climates() {
			if strings.EqualFold(cl.ID, climate) {
				out.take(cl, "as you named it")
			}
		}
		if !out.HasClimate {
			out.Notes = append(out.Notes, fmt.Sprintf("no listed place has the id %q", strict.Cut(climate)))
		}
		if out.HasClimate && out.Zone == "" {
			c.zoneOfClimate(out, edition)
		}
		return
	}
	if out.Zone2021 == "" {
		return
	}
	near, err := c.Counties.NearClimates(c.Climates(), out.State, out.County, out.Zone2021, nearOffered)
	if err != nil || len(near) == 0 {
		c.anyOfZone(out)
		return
	}
	out.take(near[0].Climate, near[0].Why)
	out.Near = near[1:]
}

// zoneOfClimate: outside the counties the listed place itself has a zone.
func (c *Catalog) zoneOfClimate(out *Located, edition string) {
	z, err := c.Codes.ZoneFor(edition, out.Climate.Zones)
	if err != nil {
		z = out.Climate.Zone2021
	}
	out.Zone, out.Zone2021, out.Why = z, out.Climate.Zone2021, "of "+out.Climate.Name
}

// anyOfZone serves a house whose zone was typed without a state.
func (c *Catalog) anyOfZone(out *Located) {
	for _, cl := range c.Climates() {
		if cl.Country == "US" && cl.Zone2021 == out.Zone2021 {
			out.take(cl, "a listed place of that zone; name the state for a nearer one")
			return
		}
	}
}

func (l *Located) take(cl Climate, why string) {
	l.Climate, l.HasClimate, l.ClimateWhy = cl, true, why
	l.From = append(l.From, Ref{cl.From.Temp, cl.Known.Temp})
}

// ZoneOf is the zone alone, empty when it is not known.
func (c *Catalog) ZoneOf(state, county, climate, edition string) string {
	if edition == "" {
		edition = "irc-2021"
	}
	var out Located
	out.State, out.County = state, county
	c.locateZone(&out, "", edition)
	if out.Zone == "" && climate != "" {
		c.locateClimate(&out, climate, edition)
	}
	return out.Zone
}
