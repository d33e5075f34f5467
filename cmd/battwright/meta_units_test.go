package main

import (
	"io/fs"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/pages"
	"battwright/rules/strict"
	"battwright/rules/units"
	"battwright/testdata/demo"
)

// quantity is a figure as printed, in one of the units of the trade.
type quantity struct {
	unit  string
	value float64
}

// pairOfUnits says how a US unit turns into the SI unit printed in its place.
// Sources: international yard and pound agreement 1959 (exact: 25.4 mm, 0.3048
// m, 0.45359237 kg), Btu of 1055.056 J, 5.678263 h.ft2.F/Btu in 1 m2K/W
// (marks: read, memory for the Btu); a US perm is 57.2135 ng/(s.m2.Pa) (ASTM
// E96, from memory). The ounce is a sixteenth of the pound. A length that must
// stay free is rounded up in SI, an area at most down: so a whole step.
type pairOfUnits struct {
	us, si *regexp.Regexp
	turn   func(us float64) float64
	usOff  func(v float64) float64
	siOff  float64
}

func by(k float64) func(float64) float64   { return func(v float64) float64 { return v * k } }
func flat(v float64) func(float64) float64 { return func(float64) float64 { return v } }

// offFeet: rough lengths stand in tens of feet, and beside them in whole meters.
func offFeet(v float64) float64 {
	if math.Mod(v, 10) == 0 {
		return 0.5 / 0.3048
	}
	return 0.05
}

const number = `(-?\d+(?:,\d{3})*(?:\.\d+)?)`

// inchOff: to the sixteenth where it falls on one, else to the hundredth.
var pairs = map[string]pairOfUnits{
	"ofInch":  {regexp.MustCompile(`^(?:R-)?` + number + ` (?:an inch|for each inch)`), regexp.MustCompile(`^(?:RSI )?` + number + ` for each 100 mm`), by(100 / 25.4 / 5.678263), flat(0), 0.005},
	"R":       {regexp.MustCompile(`^R-` + number), regexp.MustCompile(`^RSI ` + number), by(1 / 5.678263), func(v float64) float64 { return map[bool]float64{true: 0.5, false: 0.05}[v >= 9.95] }, 0.005},
	"U":       {regexp.MustCompile(`^U-` + number), regexp.MustCompile(`^U ` + number + ` W/m2K`), by(5.678263), flat(0.0005), 0.005},
	"area":    {regexp.MustCompile(`^` + number + ` (?:ft2|square feet|square foot)`), regexp.MustCompile(`^` + number + ` m2`), by(0.3048 * 0.3048), flat(0.5), 0.1},
	"volume":  {regexp.MustCompile(`^` + number + ` ft3`), regexp.MustCompile(`^` + number + ` m3`), by(0.3048 * 0.3048 * 0.3048), func(v float64) float64 { return v / 20 }, 5},
	"energy":  {regexp.MustCompile(`^` + number + ` MMBtu`), regexp.MustCompile(`^` + number + ` kWh`), by(1055.056 / 3.6), flat(0.05), 0.5},
	"days":    {regexp.MustCompile(`^` + number + ` F-days`), regexp.MustCompile(`^` + number + ` K-days`), by(1 / 1.8), flat(50), 50},
	"damp":    {regexp.MustCompile(`^` + number + ` oz/ft2`), regexp.MustCompile(`^` + number + ` g/m2`), by(453.59237 / 16 / (0.3048 * 0.3048)), flat(0.05), 0.5},
	"load":    {regexp.MustCompile(`^` + number + ` lb/ft2`), regexp.MustCompile(`^` + number + ` kg/m2`), by(0.45359237 / (0.3048 * 0.3048)), flat(0.05), 0.05},
	"degrees": {regexp.MustCompile(`^` + number + ` F\b`), regexp.MustCompile(`^` + number + ` C\b`), func(f float64) float64 { return (f - 32) / 1.8 }, flat(0.5), 0.5},
	"celsius": {regexp.MustCompile(`^` + number + ` C\b`), regexp.MustCompile(`^\z`), nil, nil, 0}, // a furnace test is named by it
	"length":  {regexp.MustCompile(`^(?:` + number + ` )?(\d+/\d+ )?(?:in|inch|inches)\b`), regexp.MustCompile(`^` + number + ` mm`), by(25.4), flat(1.0 / 32), 1},
	"feet":    {regexp.MustCompile(`^` + number + ` (?:ft|feet)\b(?: ` + number + `( \d+/\d+)? in)?`), regexp.MustCompile(`^` + number + ` m\b`), by(0.3048), offFeet, 0.005},
	"perm":    {regexp.MustCompile(`^` + number + ` perms?\b`), regexp.MustCompile(`^` + number + ` ng/\(s\.m2\.Pa\)`), by(57.2135), flat(0.005), 0.05},
	"bare":    {regexp.MustCompile(`^` + number + `( \d+/\d+)?`), regexp.MustCompile(`^` + number), nil, nil, 0},
}

// order of trying: a longer unit before one that it begins with.
var unitOrder = []string{"ofInch", "R", "U", "area", "volume", "load", "energy", "days", "damp", "degrees", "celsius", "perm", "feet", "length", "bare"}

// spelled are amounts in words, so that they compare as figures.
var spelled = strings.NewReplacer("half an inch", "0.5 inch", "A thousandth of an inch", "0.001 inch")

// mil: the grade of a plastic sheet keeps its name, with its thickness beside.
var mil = regexp.MustCompile(`(\d+) mil \(([\d.]+) mm\)`)

// measured takes a text apart: its words without figures, and the figures.
func measured(t *testing.T, text string, si bool) (words string, found []quantity) {
	text = spelled.Replace(strings.Join(strings.Fields(text), " "))
	text = mil.ReplaceAllStringFunc(text, func(grade string) string {
		m := mil.FindStringSubmatch(grade)
		require.InDelta(t, amount(m[1])*25.4/1000, amount(m[2]), 0.005, grade)
		return m[1] + " mil"
	})
	var b strings.Builder
	end := 0
	for i := 0; i < len(text); {
		starts := i == 0 || strings.ContainsRune(" ($[:;,-+x\"", rune(text[i-1]))
		q, length := quantity{}, 0
		if starts {
			q, length = quantityAt(text[i:], si)
		}
		if length == 0 {
			b.WriteByte(text[i])
			i++
			continue
		}
		if n := len(found); n > 0 && text[end:i] == " to " && found[n-1].unit == "R" && q.unit == "ofInch" {
			found[n-1].unit = "ofInch" // "R-3.5 to 3.7 an inch"
		}
		found = append(found, q)
		b.WriteString("#")
		i += length
		end = i
	}
	return b.String(), found
}

func quantityAt(text string, si bool) (quantity, int) {
	for _, name := range unitOrder {
		p := pairs[name]
		re := p.us
		if si {
			re = p.si
		}
		m := re.FindStringSubmatch(text)
		if m == nil || name == "length" && !si && m[1]+m[2] == "" {
			continue
		}
		if strings.HasPrefix(text[len(m[0]):], " a package") {
			continue // so many in a package: no inches
		}
		v := amount(m[1])
		switch {
		case (name == "length" || name == "bare") && !si && len(m) > 2 && m[2] != "":
			v += amount(m[2])
		case name == "feet" && !si && m[2] != "":
			v += (amount(m[2]) + amount(m[3])) / 12
		}
		return quantity{name, v}, len(m[0])
	}
	return quantity{}, 0
}

func amount(s string) float64 {
	s = strings.TrimSpace(strings.ReplaceAll(s, ",", ""))
	if top, bottom, ok := strings.Cut(s, "/"); ok {
		return amount(top) / amount(bottom)
	}
	v, _ := strconv.ParseFloat(s, 64)
	return v
}

// same reports whether two printed figures can be the same figure. One without
// a unit is what it was, or goes by a unit that the sentence has said.
func same(us, si quantity) bool {
	if us.unit == "bare" && si.unit == "bare" {
		return us.value == si.value || us.turnsInto(si, "R") || slices.ContainsFunc([]string{"ofInch", "length", "feet", "perm"}, func(unit string) bool { return us.turnsInto(si, unit) })
	}
	if us.unit == "celsius" {
		return si.unit == "degrees" && us.value == si.value
	}
	return us.unit == si.unit && us.turnsInto(si, us.unit)
}

func (us quantity) turnsInto(si quantity, unit string) bool {
	p := pairs[unit]
	slope := math.Abs(p.turn(1) - p.turn(0))
	return math.Abs(p.turn(us.value)-si.value) <= p.usOff(us.value)*slope+p.siOff+1e-9
}

// saidOtherwise are the words, not figures, that differ: those that name a
// unit. Titles of sources are names of documents and stay as they are.
var saidOtherwise = strings.NewReplacer("How many square feet is it", "How large is it", "How many square feet did", "How much did", "square feet", "square meters", "square foot", "square meter", "not inches", "not thickness", "for one inch", "for one unit of thickness", "feet, inches and the R printed on US labels", "the units of the house file")

// typed is a figure as it stands in a file, in the units of whoever wrote it.
var typed = regexp.MustCompile(`"(?:RSI |R-)?[0-9.]+ ?[a-z0-9]*"`)

// blank is a line to write on, with the unit that is written there.
var blank = regexp.MustCompile(`__+(?: (?:in|mm|ft2|m2)\b)?`)

// Every figure of a report in SI is the figure of the report in US units, and
// every word between them is the same word.
func TestReportsInBothUnitsSayTheSame(t *testing.T) {
	if testing.Short() {
		t.Skip("many pages, one after the other: the plain run reads them all")
	}
	titles := sourceTitles(t)
	compared := map[string]int{}
	for _, x := range everyReport(t) {
		name := x.name
		require.NotEmpty(t, x.us, name)
		require.NotContains(t, x.us+x.si, "{", "%s: a figure is left in braces", name)
		flat := func(s string) string {
			s = typed.ReplaceAllString(s, `"as typed"`)
			return blank.ReplaceAllString(withoutTitles(titles, s), "____")
		}
		textUS, textSI := flat(x.us), flat(smallInSI(x.si))
		wordsUS, inUS := measured(t, textUS, false)
		wordsSI, inSI := measured(t, textSI, true)
		wordsUS = saidOtherwise.Replace(wordsUS)
		if strings.HasPrefix(name, "offer ") { // its columns break their lines at other words
			wordsUS, wordsSI = inOrder(wordsUS), inOrder(wordsSI)
		}
		requireSameWords(t, name, wordsUS, wordsSI)
		require.Len(t, inSI, len(inUS))
		for i := range inUS {
			require.True(t, same(inUS[i], inSI[i]), "%s: figure %d is %v and %v", name, i, inUS[i], inSI[i])
			compared[inUS[i].unit]++
		}
	}
	for _, unit := range []string{"R", "area", "energy", "length", "degrees", "celsius", "perm", "feet", "ofInch"} {
		require.Greater(t, compared[unit], 0, "%s: %v", unit, compared)
	}
	t.Log(compared)
}

// Amounts below what US units show are words there and figures in SI: less than
// 0.05 oz/ft2 is 15 g/m2, less than 0.05 MMBtu is 15 kWh.
var (
	traceInSI = regexp.MustCompile(`\b(?:\d|1[0-5]) g/m2(\s+of\s+water)`)
	heatInSI  = regexp.MustCompile(`\b(?:\d|1[0-4])\s+kWh\s+to\s+(?:\d|1[0-4])\s+kWh\s+more\s+heat\s+lost\s+each\s+year,\s+up\s+to\s+\$\d+`)
)

// smallInSI says such amounts in the words of US units.
func smallInSI(text string) string {
	text = traceInSI.ReplaceAllString(text, "a trace$1")
	return heatInSI.ReplaceAllString(text, "next to no more heat lost each year, less than this shows")
}

// inOrder sorts the words of a text.
func inOrder(text string) string {
	words := strings.Fields(strings.NewReplacer(",", "", ".", "", ";", "", "(", "", ")", "").Replace(text))
	slices.Sort(words)
	return strings.Join(words, " ")
}

// inBoth is one text in both systems of units.
type inBoth struct{ name, us, si string }

// everyReport is all that is printed and has figures, and each word and rule
// that can be looked up.
func everyReport(t *testing.T) []inBoth {
	t.Helper()
	alder := demoFolder + "house-in-the-snow.toml"
	commands := [][]string{{"words"}, {"words", "perm"}, {"words", "mw-per-inch"}, {"compare", alder}}
	for _, name := range demo.Names() {
		for _, args := range [][]string{
			{"plan", "--picture"}, {"order"}, {"order", "--ask"}, {"handover", "--drywall", "2027-05-03"}, {"handover", "--format", "markdown"}, {"inspect", "--form"},
		} {
			commands = append(commands, append(slices.Clone(args), demoFolder+name))
		}
	}
	for _, person := range catalog.Persons {
		commands = append(commands, []string{"handover", alder, "--page", person, "--drywall", "2027-05-03", "--width", "40"})
	}
	for _, name := range []string{"bold", "full"} { // metric asks in words of its own for US labels
		commands = append(commands, []string{"offer", alder, offerDir + name + ".toml"})
	}
	for _, name := range []string{"mixed", "chimney-stop"} {
		commands = append(commands, []string{"inspect", alder, finishedDir + name + ".toml"})
	}
	var out []inBoth
	for _, args := range commands {
		us, si := runs(args...), runs(append(slices.Clone(args), "--units", "si")...)
		name := strings.Join(args, " ")
		require.Equal(t, us.code, si.code, name)
		out = append(out, inBoth{name, us.stdout, si.stdout})
	}
	c, err := env{}.loadCatalog("")
	require.NoError(t, err)
	for _, w := range c.Words() {
		out = append(out, inBoth{"word " + w.Term, w.Meaning.In(units.US) + " " + w.Matters.In(units.US), w.Meaning.In(units.SI) + " " + w.Matters.In(units.SI)})
	}
	for _, r := range c.Book().Rules() {
		out = append(out, inBoth{"rule " + r.ID, pages.RuleText(c, r, units.US), pages.RuleText(c, r, units.SI)})
	}
	return out
}

// withoutTitles gives the words of a text on one line without titles.
func withoutTitles(titles *strings.Replacer, text string) string {
	return titles.Replace(strings.Join(strings.Fields(text), " "))
}

// sourceTitles are all titles of sources and what is put in their place.
func sourceTitles(t *testing.T) *strings.Replacer {
	t.Helper()
	names, err := fs.Glob(data.Files, "*.toml")
	require.NoError(t, err)
	var out []string
	for _, name := range names {
		text, err := fs.ReadFile(data.Files, name)
		require.NoError(t, err)
		var f struct {
			Sources []catalog.Source `toml:"source"`
		}
		require.NoError(t, strict.DecodePlain(string(text), &f))
		for _, s := range f.Sources {
			out = append(out, s.Title, "(a source)")
		}
	}
	return strings.NewReplacer(out...)
}

func requireSameWords(t *testing.T, what, a, b string) {
	t.Helper()
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			require.Fail(t, "the words differ", "%s:\n%s\n%s", what, a[max(0, i-120):min(len(a), i+60)], b[max(0, i-120):min(len(b), i+60)])
		}
	}
	require.Equal(t, len(a), len(b), what)
}
