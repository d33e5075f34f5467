package catalog

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"battwright/rules/strict"
)

// ErrWeather marks weather that cannot be, or too little of it.
var ErrWeather = errors.New("weather not possible")

// Spot is a point on the map, degrees north and east, meters above the sea.
type Spot struct {
	Lat   float64 `toml:"lat,required"`
	Lon   float64 `toml:"lon,required"`
	ElevM float64 `toml:"elev_m"`
}

// KM is the great-circle distance in kilometers (haversine, mean radius).
func (s Spot) KM(o Spot) float64 {
	const radiusKM, rad = 6371.0088, math.Pi / 180
	sin := func(deg float64) float64 { v := math.Sin(deg * rad / 2); return v * v }
	h := sin(o.Lat-s.Lat) + math.Cos(s.Lat*rad)*math.Cos(o.Lat*rad)*sin(o.Lon-s.Lon)
	return 2 * radiusKM * math.Asin(math.Sqrt(min(1, h)))
}

// groups holds one thing for each group of figures of a climate.
type groups[T ~string] struct {
	Temp       T `toml:"temp"`
	DegreeDays T `toml:"degree_days"`
	Precip     T `toml:"precip"`
	Zone       T `toml:"zone"`
}

func (g *groups[T]) each() []*T {
	return []*T{&g.Temp, &g.DegreeDays, &g.Precip, &g.Zone}
}

// Climate is the weather of a listed place. Months run January to December.
type Climate struct {
	ID      string `toml:"id,required"`
	Name    string `toml:"name,required"`
	State   string `toml:"state"` // USPS code; empty outside the US
	Country string `toml:"country,required"`
	County  string `toml:"county"`
	Zones
	At            Spot           `toml:"at"`
	ZoneH         float64        `toml:"zone_h"`         // standard time, hours ahead of Greenwich; US only
	HDD65         float64        `toml:"hdd65,required"` // F-days a year
	CDD50         float64        `toml:"cdd50,required"`
	CDD65         float64        `toml:"cdd65"`
	PrecipMM      float64        `toml:"precip_mm"`       // of a year
	PrecipMonthMM []float64      `toml:"precip_month_mm"` // 12, where known
	MeanC         [12]float64    `toml:"t_c,required"`    // mean outdoor temperature
	Basis         string         `toml:"basis,required"`
	From          groups[string] `toml:"from"`  // source ids; the basis fills what is empty
	Known         groups[Known]  `toml:"known"` // marks
}

// Refs gives where the figures are from, by group: temp, degree_days, precip,
// zone.
func (c Climate) Refs() map[string]Ref {
	return map[string]Ref{
		"temp": {c.From.Temp, c.Known.Temp}, "degree_days": {c.From.DegreeDays, c.Known.DegreeDays},
		"precip": {c.From.Precip, c.Known.Precip}, "zone": {c.From.Zone, c.Known.Zone},
	}
}

type basisRecord struct {
	ID    string `toml:"id,required"`
	Title string `toml:"title,required"`
	groups[string]
}

type climateFile struct {
	Bases    []basisRecord `toml:"basis"`
	Climates []Climate     `toml:"climate"`
}

// ParseClimates reads climates.toml and checks every record.
func ParseClimates(text string) ([]Climate, error) {
	var f climateFile
	if err := strict.DecodePlain(text, &f); err != nil {
		return nil, err
	}
	if len(f.Climates) == 0 {
		return nil, fmt.Errorf("%w: no climates", ErrData)
	}
	bases := map[string]basisRecord{}
	var errs []error
	for _, b := range f.Bases {
		bases[b.ID] = b
	}
	seen := map[string]bool{}
	for i := range f.Climates {
		c := &f.Climates[i]
		b, ok := bases[c.Basis]
		if !ok || c.ID == "" || seen[c.ID] {
			errs = append(errs, fmt.Errorf("%w: climate %q: wants an id of its own and a listed basis, has %q", ErrData, c.ID, c.Basis))
		}
		seen[c.ID] = true
		for j, from := range c.From.each() {
			if *from == "" {
				*from = *b.each()[j]
			}
		}
		errs = append(errs, c.check()...)
	}
	return f.Climates, errors.Join(errs...)
}

func (c *Climate) check() []error {
	var errs []error
	within := func(what string, v, low, high float64) {
		if !(v >= low && v <= high) { // also false for NaN
			errs = append(errs, fmt.Errorf("%w: climate %s: %s = %v; want %v to %v", ErrData, c.ID, what, v, low, high))
		}
	}
	within("lat", c.At.Lat, -90, 90)
	within("lon", c.At.Lon, -180, 180)
	within("elev_m", c.At.ElevM, -500, 6000)
	within("zone_h", c.ZoneH, -14, 14)
	for what, v := range map[string]float64{"hdd65": c.HDD65, "cdd50": c.CDD50, "cdd65": c.CDD65, "precip_mm": c.PrecipMM} {
		within(what, v, 0, 40000)
	}
	for m := range 12 {
		within("t_c", c.MeanC[m], -70, 50)
	}
	if n := len(c.PrecipMonthMM); n != 0 && n != 12 {
		errs = append(errs, fmt.Errorf("%w: climate %s: precip_month_mm has %d months", ErrData, c.ID, n))
	}
	for _, z := range []string{c.Zone2021, c.ZonePre2021} {
		if _, err := CodeZone(z); err != nil && (z != "" || c.Zone2021 == "") {
			errs = append(errs, fmt.Errorf("%w: climate %s: %w", ErrData, c.ID, err))
		}
	}
	for group, r := range c.Refs() {
		if r.Source == "" || !r.Known.Valid() {
			errs = append(errs, fmt.Errorf("%w: climate %s: %s wants a source and a mark, has %q, %q", ErrData, c.ID, group, r.Source, r.Known))
		}
	}
	// A map's order must not show in the messages.
	slices.SortFunc(errs, func(a, b error) int { return cmp.Compare(a.Error(), b.Error()) })
	return errs
}

// NearClimate is a listed climate offered for a house, best first.
type NearClimate struct {
	Climate
	Why string
}

// NearClimates offers listed US climates for a house: its own county's first,
// then the same zone in the same state, in a neighboring state, anywhere, then
// other letters and numbers of zone. county may be empty. zone is the zone by
// weather, so of the 2021 table (6A). At most n are given.
func (c *Counties) NearClimates(climates []Climate, state, county, zone string, n int) ([]NearClimate, error) {
	home, err := c.state(state)
	if err != nil {
		return nil, err
	}
	if _, err := CodeZone(zone); err != nil {
		return nil, err
	}
	zone = strings.Replace(strings.ToUpper(strings.TrimSpace(zone)), "M", "C", 1)
	type ranked struct {
		*Climate
		tier int
		why  string
		km   float64
	}
	all := make([]ranked, 0, len(climates))
	for i := range climates {
		cl := &climates[i]
		if _, err := CodeZone(cl.Zone2021); err != nil || cl.Country != "US" {
			continue
		}
		tier, why := home.tier(cl, county, zone)
		all = append(all, ranked{cl, tier, why, home.middle.KM(cl.At)})
	}
	slices.SortFunc(all, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.tier, b.tier), cmp.Compare(a.km, b.km), cmp.Compare(a.ID, b.ID))
	})
	out := make([]NearClimate, 0, max(0, min(n, len(all))))
	for _, r := range all[:cap(out)] {
		out = append(out, NearClimate{*r.Climate, r.why})
	}
	return out, nil
}

// tier ranks a listed climate for a house in this state and says why.
func (s *state) tier(cl *Climate, county, zone string) (int, string) {
	gap := math.Abs(float64(zone[0]) - float64(cl.Zone2021[0]))
	switch {
	case county != "" && cl.State == s.Code && fold(cl.County) == fold(county):
		return 0, cl.Name + " lies in the county"
	case cl.Zone2021 != zone && gap == 0:
		return 4, fmt.Sprintf("no listed place of zone %s is better: %s is zone %s", zone, cl.Name, cl.Zone2021)
	case cl.Zone2021 != zone:
		return 4 + int(gap), fmt.Sprintf("another zone: %s is zone %s", cl.Name, cl.Zone2021)
	case cl.State == s.Code:
		return 1, fmt.Sprintf("same zone %s in the same state", zone)
	case slices.Contains(s.neighbors, cl.State):
		return 2, fmt.Sprintf("same zone %s in %s, next to %s", zone, cl.State, s.Code)
	}
	return 3, fmt.Sprintf("same zone %s, farther away", zone)
}

// zoningRecord holds the thresholds of codes.toml.
type zoningRecord struct {
	CDD50      []float64 `toml:"cdd50"`
	HDD65      []float64 `toml:"hdd65"`
	LetteredTo int       `toml:"lettered_to"`
	Near       float64   `toml:"near"`
	Marine     struct {
		ColdestC      [2]float64 `toml:"coldest_c"`
		WarmestBelowC float64    `toml:"warmest_below_c"`
		WarmMonthC    float64    `toml:"warm_month_over_c"`
		WarmMonths    int        `toml:"warm_months"`
		RainRatio     float64    `toml:"rain_ratio"`
		RoughCDD50    []struct {
			Zone int     `toml:"zone"`
			Max  float64 `toml:"max"`
		} `toml:"rough_cdd50"`
		Ref
	} `toml:"marine"`
	Dry struct {
		MMPerC  float64 `toml:"mm_per_c"`
		OffsetC float64 `toml:"offset_c"`
		Summer  season  `toml:"summer_rain"`
		Winter  season  `toml:"winter_rain"`
		Ref
	} `toml:"dry"`
	Ref
}

type season struct {
	Share   float64 `toml:"share"`
	OffsetC float64 `toml:"offset_c"`
}

func (b *bookBuilder) checkZoning() {
	z := b.book.zoning
	falling := slices.Clone(z.CDD50)
	slices.Reverse(falling)
	if len(z.CDD50) != 3 || len(z.HDD65) != 5 || !slices.IsSorted(falling) || !slices.IsSorted(z.HDD65) || slices.Contains(append(falling, z.HDD65...), 0) {
		b.bad("zoning: wants 3 falling cdd50 and 5 rising hdd65, has %v and %v", z.CDD50, z.HDD65)
	}
	if !(z.Near > 0 && z.Near < 1) || z.Marine.RainRatio <= 0 || z.Dry.MMPerC <= 0 {
		b.bad("zoning: near, marine.rain_ratio and dry.mm_per_c must be above 0")
	}
	b.ref("zoning", z.Ref)
	b.ref("zoning.marine", z.Marine.Ref)
	b.ref("zoning.dry", z.Dry.Ref)
}

// Weather is what a zone is worked out from where no county table serves.
type Weather struct {
	HDD65, CDD50 float64   // F-days a year
	MeanC        []float64 // 12 monthly means, or none
	RainMM       []float64 // 12 monthly sums of precipitation, or none
	YearRainMM   float64   // where the months are not known; 0: not known
	South        bool      // southern hemisphere
}

func (w Weather) check() error {
	for _, months := range [][]float64{w.MeanC, w.RainMM} {
		if n := len(months); n != 0 && n != 12 {
			return fmt.Errorf("%w: %d months; want 12 or none", ErrWeather, n)
		}
	}
	for _, v := range append([]float64{w.HDD65, w.CDD50, w.YearRainMM}, w.RainMM...) {
		if !(v >= 0 && v <= 40000) {
			return fmt.Errorf("%w: %v; degree days and rain run from 0 to 40000", ErrWeather, v)
		}
	}
	for _, t := range w.MeanC {
		if !(t >= -90 && t <= 60) {
			return fmt.Errorf("%w: a month of %v C", ErrWeather, t)
		}
	}
	return nil
}

// ZoneGuess is a climate zone worked out from weather. US houses never use it:
// their zone is the county's.
type ZoneGuess struct {
	Zone    string  // 6A; 7 and 8 carry no letter
	Margin  float64 // relative distance to the nearest threshold of degree days
	Nearest string  // the zone number beyond that threshold
	Rough   bool    // the marine test went by degree days alone
	Notes   []string
}

// ZoneFromWeather works out a zone by ASHRAE 169 and IECC R301.3: the number
// from degree days, then marine before dry before moist. A threshold nearer
// than 10 % is named in the notes, and so is what could not be tested.
func (c *CodeBook) ZoneFromWeather(w Weather) (ZoneGuess, error) {
	if err := w.check(); err != nil {
		return ZoneGuess{}, err
	}
	z := &c.zoning
	number := z.number(w.HDD65, w.CDD50)
	g := ZoneGuess{Zone: strconv.Itoa(number), Margin: math.Inf(1)}
	g.measure(z, number, w)
	if g.Margin < z.Near {
		g.Notes = append(g.Notes, fmt.Sprintf("within %.0f %% of zone %s: ask the building office which one it uses", math.Ceil(g.Margin*100), g.Nearest))
	}
	if number > z.LetteredTo {
		return g, nil
	}
	marine, rough, note := z.isMarine(number, w)
	g.Rough = rough
	if note != "" {
		g.Notes = append(g.Notes, note)
	}
	if marine {
		g.Zone += "C"
		return g, nil
	}
	line, ok := z.dryLineMM(w)
	rain := w.yearRainMM()
	switch {
	case !ok || rain == 0:
		g.Notes = append(g.Notes, "dry or moist not known: needs monthly temperatures and the rain of a year")
	case rain < line:
		g.Zone += "B"
	default:
		g.Zone += "A"
	}
	return g, nil
}

func (z *zoningRecord) number(hdd65, cdd50 float64) int {
	for i, t := range z.CDD50 {
		if cdd50 > t {
			return i
		}
	}
	number := len(z.CDD50)
	for _, t := range z.HDD65 {
		if hdd65 > t {
			number++
		}
	}
	return number
}

// measure finds the nearest threshold that would change the number when
// crossed; heating degree days decide nothing in zones 0 to 2.
func (g *ZoneGuess) measure(z *zoningRecord, number int, w Weather) {
	try := func(x, threshold, hdd, cdd float64) {
		share := math.Abs(x-threshold) / threshold
		if beyond := z.number(hdd, cdd); share < g.Margin && beyond != number {
			g.Margin, g.Nearest = share, strconv.Itoa(beyond)
		}
	}
	for _, t := range z.CDD50 {
		try(w.CDD50, t, w.HDD65, across(w.CDD50, t))
	}
	for _, t := range z.HDD65 {
		try(w.HDD65, t, across(w.HDD65, t), w.CDD50)
	}
}

// across is the nearest figure on the other side of a threshold that belongs
// to the side below it.
func across(x, threshold float64) float64 {
	if x > threshold {
		return threshold
	}
	return math.Nextafter(threshold, math.Inf(1))
}

func (w Weather) yearRainMM() float64 {
	if len(w.RainMM) == 0 {
		return w.YearRainMM
	}
	sum := 0.0
	for _, v := range w.RainMM {
		sum += v
	}
	return sum
}

// coldHalf reports whether a month (0 = January) lies in the cold half year:
// October to March in the north.
func (w Weather) coldHalf(month int) bool { return (month < 3 || month > 8) != w.South }

// isMarine makes the four tests of the marine letter; without monthly rain the
// last one falls back to cooling degree days, which is rough.
func (z *zoningRecord) isMarine(number int, w Weather) (marine, rough bool, note string) {
	m := z.Marine
	if len(w.MeanC) == 12 {
		warm := 0
		for _, t := range w.MeanC {
			if t > m.WarmMonthC {
				warm++
			}
		}
		coldest := slices.Min(w.MeanC)
		if !(coldest > m.ColdestC[0] && coldest < m.ColdestC[1]) || slices.Max(w.MeanC) >= m.WarmestBelowC || warm < m.WarmMonths {
			return false, false, ""
		}
	}
	if len(w.MeanC) == 12 && len(w.RainMM) == 12 {
		wettest, driest := 0.0, math.Inf(1)
		for i, v := range w.RainMM {
			if w.coldHalf(i) {
				wettest = math.Max(wettest, v)
			} else {
				driest = math.Min(driest, v)
			}
		}
		return wettest > 0 && wettest >= m.RainRatio*driest, false, ""
	}
	for _, r := range m.RoughCDD50 {
		if r.Zone == number {
			return w.CDD50 <= r.Max, true, "marine or not went by degree days alone, which is rough: monthly rain would tell"
		}
	}
	return false, false, ""
}

// dryLineMM is the rain of a year below which a place is dry. Where the months
// are known, rain that falls in the hot half counts for less.
func (z *zoningRecord) dryLineMM(w Weather) (float64, bool) {
	if len(w.MeanC) != 12 {
		return 0, false
	}
	mean := 0.0
	for _, t := range w.MeanC {
		mean += t / 12
	}
	offset := z.Dry.OffsetC
	if total := w.yearRainMM(); len(w.RainMM) == 12 && total > 0 {
		hot := 0.0
		for i, v := range w.RainMM {
			if !w.coldHalf(i) {
				hot += v
			}
		}
		switch {
		case hot >= z.Dry.Summer.Share*total:
			offset = z.Dry.Summer.OffsetC
		case hot <= z.Dry.Winter.Share*total:
			offset = z.Dry.Winter.OffsetC
		}
	}
	return math.Max(0, z.Dry.MMPerC*(mean+offset)), true
}
