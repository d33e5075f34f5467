package candidate

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/heat"
	"battwright/rules/house"
	"battwright/rules/moisture"
	"battwright/rules/units"
)

// Site is what all places of a house share.
type Site struct {
	Zone       string // as counties carry it: 6A, 4C, 7
	ZoneWhy    string
	CodeZone   string // column of the code tables: 6, 4M
	ZoneNumber int
	Letter     string
	Marine     bool
	Edition    string
	HasClimate bool
	Climate    catalog.Climate
	ClimateWhy string
	ClimateRef catalog.Ref
	MeanC      [12]float64
	HDD65      float64
	Indoor     string
	Cooled     bool
	Fuel       string
	FuelPrice  float64               // dollars per unit, 0 when not said
	FillAbove  rules.Value           // loose fill in an attic of the house; only the facts for the rules have it
	InWall     rules.Value           // brick or stone that stands, or may stand, in or behind an outside wall
	ListedPipe bool                  // a metal or plastic chimney or vent is named
	Near       []catalog.NearClimate // other listed places that would serve
	Notes      []string
	From       []catalog.Ref
	edition    catalog.Edition
}

// EditionText is the years of the model code.
func (s Site) EditionText() string {
	if s.edition.Title == "" {
		return s.Edition
	}
	return s.edition.Name()
}

// ResolveSite works out zone and climate from the answers.
func ResolveSite(a house.Answered) Site {
	c := a.List.Catalog()
	text := func(key string) string { return a.Text(house.Site, nil, key) }
	s := Site{Edition: text("code"), Indoor: text("indoor"), Cooled: a.Bool(house.Site, nil, "cooled"), Fuel: text("fuel"), FuelPrice: a.Num(house.Site, nil, "price")}
	s.told(a)
	s.edition, _ = c.Codes.Edition(s.Edition)
	at := c.Locate(text("state"), text("county"), text("zone"), text("climate"), s.Edition)
	s.Notes, s.From = at.Notes, at.From
	s.setZone(at.Zone, at.Why)
	if at.HasClimate {
		s.HasClimate, s.Climate, s.ClimateWhy, s.Near = true, at.Climate, at.ClimateWhy, at.Near
		s.MeanC, s.HDD65 = at.Climate.MeanC, at.Climate.HDD65
		s.ClimateRef = catalog.Ref{Source: at.Climate.From.Temp, Known: at.Climate.Known.Temp}
	}
	s.ownFigures(a, c)
	return s
}

// told takes what answers about places tell of the whole house.
func (s *Site) told(a house.Answered) {
	s.FillAbove, s.InWall, s.ListedPipe = fillAbove(a), rules.Unknown(), a.ListedPipe()
	if in, known := a.ChimneyInWall(); known {
		s.InWall = rules.Bool(in)
	}
}

// TellsAlike reports whether answers about places tell two sites the same.
func (s Site) TellsAlike(other Site) bool {
	return s.FillAbove == other.FillAbove && s.InWall == other.InWall && s.ListedPipe == other.ListedPipe
}

// Kept is what stays of a site after another answer.
type Kept int

// From nothing to all; what only facts have (TellsAlike) does not count.
const (
	KeptNothing Kept = iota
	KeptWeather      // all but the edition of the code
	KeptSite
)

// After is the site after another answer, about one place or about the house, and
// what stayed of it.
func (s Site) After(a house.Answered, onePlace bool) (now Site, kept Kept) {
	if onePlace {
		s.told(a)
		return s, KeptSite
	}
	now = ResolveSite(a)
	s.FillAbove, s.InWall, s.ListedPipe = now.FillAbove, now.InWall, now.ListedPipe
	if reflect.DeepEqual(s, now) {
		return now, KeptSite
	}
	s.Edition, s.edition = now.Edition, now.edition
	if reflect.DeepEqual(s, now) {
		return now, KeptWeather
	}
	return now, KeptNothing
}

func (s *Site) setZone(zone, why string) {
	code, err := catalog.CodeZone(zone)
	if err != nil {
		return
	}
	s.Zone, s.ZoneWhy, s.CodeZone = zone, why, code
	s.ZoneNumber, _ = strconv.Atoi(zone[:1])
	if len(zone) > 1 {
		s.Letter = zone[1:]
	}
	s.Marine = s.Letter == "C"
}

// ownFigures lays what the builder typed over the listed climate. A zone that
// is not known yet is worked out from them.
func (s *Site) ownFigures(a house.Answered, c *catalog.Catalog) {
	months := a.Answer(house.Site, nil, "months").List
	if len(months) == 12 {
		var means []float64
		for m, text := range months {
			v, err := strconv.ParseFloat(text, 64)
			if err != nil {
				return
			}
			s.MeanC[m] = v
			means = append(means, units.CToF(v))
		}
		s.Notes = append(s.Notes, "monthly temperatures are your own")
		s.HasClimate, s.ClimateWhy = true, "your own figures"
		if hdd, _, err := heat.DegreeDaysFromMonths([12]float64(means), 65); err == nil {
			s.HDD65 = hdd
		}
		s.zoneFromMonths(c, means)
	}
	if v := a.Value(house.Site, nil, "hdd65"); v.Source == house.FromAnswer {
		s.HDD65 = v.Answer.Number
	}
}

func (s *Site) zoneFromMonths(c *catalog.Catalog, meansF []float64) {
	if s.Zone != "" {
		return
	}
	_, cdd, err := heat.DegreeDaysFromMonths([12]float64(meansF), 50)
	if err != nil {
		return
	}
	g, err := c.Codes.ZoneFromWeather(catalog.Weather{HDD65: s.HDD65, CDD50: cdd, MeanC: s.MeanC[:]})
	if err != nil {
		return
	}
	s.setZone(g.Zone, "worked out from your monthly temperatures")
	s.Notes = append(s.Notes, g.Notes...)
}

// class is the moisture class of the household.
func (s Site) class() moisture.Class {
	switch s.Indoor {
	case "dry":
		return moisture.Dry
	case "humid":
		return moisture.Humid
	}
	return moisture.Usual
}

// coldestSoil is the coldest month of the soil at a wall: it swings about the yearly
// mean of the air, by a share of how far the air does.
func (s Site) coldestSoil(ampShare float64) float64 {
	sum := 0.0
	for _, t := range s.MeanC {
		sum += t
	}
	return sum/12 - (slices.Max(s.MeanC[:])-slices.Min(s.MeanC[:]))/2*ampShare
}

// lossOf is the heat a place loses in a year, as a range: the plain
// degree-day formula and the share of it that real houses show.
func lossOf(s Surface, site Site, c *catalog.Catalog, b Blankets, bounds heat.Bounds, t Target) (units.Range[float64], error) {
	if site.HDD65 <= 0 || s.AreaFt2 <= 0 || s.Kind.Boundary == "none" {
		return units.Range[float64]{}, nil
	}
	ua := s.AreaFt2 / bounds.Mean
	if s.Kind.Boundary == "soil" {
		var err error
		if ua, err = groundUA(s, c, bounds.Mean); err != nil {
			return units.Range[float64]{}, err
		}
	}
	loss := func(share float64) (float64, error) {
		btu, err := heat.DegreeDayLoss(ua, site.HDD65, share)
		return btu / 1e6, err
	}
	low, err := loss(c.Settings.SavingsLow)
	if err != nil {
		return units.Range[float64]{}, fmt.Errorf("heat loss: %w", err)
	}
	high, err := loss(c.Settings.SavingsHigh)
	return units.Range[float64]{Low: low, Typical: (low + high) / 2, High: high}, err
}

// groundUA is area times U of a wall partly in the soil: the part above meets
// air, the part below the soil at its depth.
func groundUA(s Surface, c *catalog.Catalog, wallR float64) (float64, error) {
	above := math.Min(s.AboveFt, s.HeightFt)
	below := s.HeightFt - above
	if s.HeightFt <= 0 {
		return s.AreaFt2 / wallR, nil
	}
	ua := s.AreaFt2 * (above / s.HeightFt) / wallR
	if below <= 0 {
		return ua, nil
	}
	u, err := heat.GroundWallU(c.Figure("soil-k").Value, 0, below, wallR)
	if err != nil {
		return 0, err
	}
	return ua + s.AreaFt2*(below/s.HeightFt)*u, nil
}

// yearCost is what lost heat costs in a year at the builder's fuel: low with
// a good heater and a cheap unit, high with an old one and a dear unit. The
// builder's own price replaces the range of ours.
func (s Site) yearCost(loss units.Range[float64], c *catalog.Catalog) units.Range[float64] {
	record, ok := c.Fuel(s.Fuel)
	if !ok || loss.High <= 0 {
		return units.Range[float64]{}
	}
	fuel, ok := heat.FuelByID(record.ID)
	if !ok {
		return units.Range[float64]{}
	}
	usd := record.USD
	if s.FuelPrice > 0 {
		usd = units.Same(s.FuelPrice)
	}
	cost := func(mmbtu, efficiency, price float64) float64 {
		v, err := heat.FuelCost(mmbtu*1e6, fuel, efficiency, price)
		if err != nil {
			return 0
		}
		return v
	}
	e := record.Efficiency
	return units.Range[float64]{Low: cost(loss.Low, e.High, usd.Low), Typical: cost(loss.Typical, e.Typical, usd.Typical), High: cost(loss.High, e.Low, usd.High)}
}
