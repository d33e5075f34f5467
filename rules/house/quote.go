package house

import (
	"fmt"
	"slices"
	"strings"

	"battwright/rules/strict"
	"battwright/rules/units"
)

// MaxQuotes is how many labels and prices a house file may hold.
const MaxQuotes = 100

// The ways a price may be typed.
const (
	PerPackage = "package"
	PerFt2     = "ft2"
	perM2      = "m2" // typed only; kept per square foot
)

// Quote is what the label on a package and the store say about one product:
// sizes, coverage, price, and how many packages are there already. Zero means
// not said.
type Quote struct {
	Product     string
	Facing      string  // empty: whatever its face
	USD         float64 // dollars, the face included
	Per         string  // package or ft2
	Pieces      int     // in a package
	WidthIn     float64
	LengthIn    float64
	CoverageFt2 float64 // of a package, as printed
	Have        int     // packages bought already
}

// PriceText is the price in words, in a system of units: "$62.50 a package".
func (q Quote) PriceText(s units.System) string {
	if q.Per == PerFt2 {
		return s.PerArea(q.USD)
	}
	return s.MoneyExact(units.FromDollars(q.USD)) + " a " + q.Per
}

// PackageFt2 is what a package covers: as printed, or its pieces; 0 when the
// label was not typed.
func (q Quote) PackageFt2() float64 {
	if q.CoverageFt2 > 0 {
		return q.CoverageFt2
	}
	return q.FaceFt2()
}

// FaceFt2 is the blanket in a package, 0 when its sizes were not typed.
func (q Quote) FaceFt2() float64 {
	return float64(q.Pieces) * q.WidthIn * q.LengthIn / (units.InchPerFoot * units.InchPerFoot)
}

// Priced reports whether the quote holds a price.
func (q Quote) Priced() bool { return q.USD > 0 }

// USDPerFt2 is the price per square foot; ok is false when there is none.
func (q Quote) USDPerFt2() (usd float64, ok bool) {
	switch {
	case !q.Priced():
		return 0, false
	case q.Per == PerFt2:
		return q.USD, true
	case q.PackageFt2() > 0:
		return q.USD / q.PackageFt2(), true
	}
	return 0, false
}

// FindQuote finds the quote that speaks of a product with a face. One that
// names the face wins over one for any; ok is false when there is none.
func FindQuote(list []Quote, product, facing string) (Quote, bool) {
	for _, want := range []string{facing, ""} {
		for _, q := range list {
			if q.Product == product && q.Facing == want {
				return q, true
			}
		}
	}
	return Quote{}, false
}

// SetQuote keeps a quote in the place of the one for the same product and
// face; one that says nothing is dropped.
func (h *House) SetQuote(q Quote) {
	at := slices.IndexFunc(h.Quotes, func(o Quote) bool { return o.Product == q.Product && o.Facing == q.Facing })
	empty := q == Quote{Product: q.Product, Facing: q.Facing}
	switch {
	case empty && at >= 0:
		h.Quotes = slices.Delete(h.Quotes, at, at+1)
	case empty:
	case at >= 0:
		h.Quotes[at] = q
	case len(h.Quotes) < MaxQuotes:
		h.Quotes = append(h.Quotes, q)
	}
}

// Check says in words for the person, in the units shown, what is wrong with a
// quote.
func (q Quote) Check(shown units.System) error {
	switch {
	case q.Priced() && q.Per != PerPackage && q.Per != PerFt2:
		return refuse(`found per = %q; want per = "package" or per = "ft2"`, strict.Cut(q.Per))
	case q.Priced() && q.Per == PerPackage && q.PackageFt2() <= 0:
		return refuse("a price per package says little without its size; want coverage_ft2, or pieces, width_in and length_in, from the label")
	}
	// The coverage printed on a label is the pieces, or the pieces with the
	// wood beside them: never far from it. A slip of the pen is.
	face := q.FaceFt2()
	if q.CoverageFt2 > 0 && face > 0 && (q.CoverageFt2 < 0.8*face || q.CoverageFt2 > 1.25*face) {
		text := fmt.Sprintf("coverage {%s ft2}, but %d pieces of {%s x %s in} are {%s ft2}; want a coverage near that, or other pieces: look at the label again", formatNumber(q.CoverageFt2), q.Pieces, formatNumber(q.WidthIn), formatNumber(q.LengthIn), formatNumber(roundTo(face, 0.1)))
		return refuse("%s", units.Prose(text).In(shown))
	}
	return nil
}

// quoteKey is one figure of a quote: its key, its range, and where it is kept.
type quoteKey struct {
	key      string
	min, max float64
	whole    bool
	unit     string
	to       func(float64)
	value    float64
}

func quoteKeys(q *Quote) []quoteKey {
	return []quoteKey{
		{"usd", 0.01, 100000, false, "usd", func(v float64) { q.USD = v }, q.USD},
		{"pieces", 1, 1000, true, "", func(v float64) { q.Pieces = int(v) }, float64(q.Pieces)},
		{"width_in", 6, 60, false, "in", func(v float64) { q.WidthIn = v }, q.WidthIn},
		{"length_in", 12, 1200, false, "in", func(v float64) { q.LengthIn = v }, q.LengthIn},
		{"coverage_ft2", 1, 10000, false, "ft2", func(v float64) { q.CoverageFt2 = v }, q.CoverageFt2},
		{"have", 0, 10000, true, "", func(v float64) { q.Have = int(v) }, float64(q.Have)},
	}
}

// question is the figure as a question.
func (k quoteKey) question() Question {
	return Question{Key: k.key, Kind: NumberKind, Min: k.min, Max: k.max, Whole: k.whole, Unit: k.unit}
}

// QuoteQuestion is the question of one figure of a quote, for a screen that
// asks for it.
func QuoteQuestion(key string) (Question, bool) {
	for _, k := range quoteKeys(&Quote{}) {
		if k.key == key {
			return k.question(), true
		}
	}
	return Question{}, false
}

// BareOnLabel says what is wrong with a figure of a label that was typed without
// its unit where figures are shown in SI, empty when nothing is. A label names
// square feet or square meters, and taking one for the other is ten times off:
// here, unlike for a length of the house, neither is the usual.
func BareOnLabel(q Question, typed string, s units.System) string {
	with := map[string]string{"in": "380 mm or 15 in", "ft2": "9.9 m2 or 107 ft2"}[q.Unit]
	if s != units.SI || with == "" {
		return ""
	}
	if _, err := units.ParseNumber(typed); err != nil {
		return ""
	}
	return "Type the unit of the label too, like " + with + "."
}

// With is the quote with one figure changed; 0 takes it away.
func (q Quote) With(key string, v float64) Quote {
	for _, k := range quoteKeys(&q) {
		if k.key == key {
			k.to(v)
		}
	}
	return q
}

// ParsePrice reads "62.50 a package", "$1.15 per ft2", "12 per m2"; a bare number is a
// package. The error's text is for the person, in the units shown.
func ParsePrice(typed string, shown units.System) (usd float64, per string, err error) {
	s, _ := strict.CleanText(strings.ToLower(strings.TrimSpace(typed)))
	per = PerPackage
	for _, w := range []struct{ words, per string }{
		{"square foot", PerFt2},
		{"sq ft", PerFt2},
		{"ft2", PerFt2},
		{"sf", PerFt2},
		{"square meter", perM2},
		{"m2", perM2},
		{"package", PerPackage},
		{"bag", PerPackage},
		{"roll", PerPackage},
		{"bundle", PerPackage},
	} {
		if rest, ok := strings.CutSuffix(s, w.words); ok {
			s, per = strings.TrimSpace(rest), w.per
			break
		}
	}
	for _, w := range []string{"per", "a", "/", "each"} {
		s = strings.TrimSpace(strings.TrimSuffix(s, w))
	}
	q, _ := QuoteQuestion("usd")
	a, err := q.Parse(s)
	if err != nil || a.State != Given {
		return 0, "", refuse("found %q; want a price like 62.50 a package, or %s", strict.Cut(typed), units.Prose("{1.15 per ft2}").In(shown))
	}
	if per == perM2 {
		return a.Number * units.M2PerFt2, PerFt2, nil
	}
	return a.Number, per, nil
}

// Figure is one figure of a quote by its key, 0 when it was not said.
func (q Quote) Figure(key string) float64 {
	for _, k := range quoteKeys(&q) {
		if k.key == key {
			return k.value
		}
	}
	return 0
}
