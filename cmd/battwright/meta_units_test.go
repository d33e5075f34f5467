package main

import (
	"io/fs"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/testdata/demo"
)

// quantity is a figure as printed, in one of the units of the trade.
type quantity struct {
	unit  string
	value float64
	off   float64 // what rounding for print may have moved it by
	prose string  // in SI: a figure left in US units, with the words before it
}

// pairOfUnits says how a US unit turns into the SI unit printed in its place.
// Sources: international yard and pound agreement 1959 (exact: 25.4 mm, 0.3048
// m, 0.45359237 kg), Btu of 1055.056 J, 5.678263 h.ft2.F/Btu in 1 m2K/W
// (marks: read, memory for the Btu). The ounce is a sixteenth of the pound.
type pairOfUnits struct {
	us, si *regexp.Regexp
	turn   func(us float64) float64
	usOff  func(v float64) float64
	siOff  float64
}

func by(k float64) func(float64) float64   { return func(v float64) float64 { return v * k } }
func flat(v float64) func(float64) float64 { return func(float64) float64 { return v } }

const number = `(-?\d+(?:,\d{3})*(?:\.\d+)?)`

// inchOff: to the sixteenth where it falls on one, else to the hundredth.
var pairs = map[string]pairOfUnits{
	"R":       {regexp.MustCompile(`^R-` + number), regexp.MustCompile(`^RSI ` + number), by(1 / 5.678263), func(v float64) float64 { return map[bool]float64{true: 0.5, false: 0.05}[v >= 9.95] }, 0.005},
	"U":       {regexp.MustCompile(`^U-` + number), regexp.MustCompile(`^U ` + number + ` W/m2K`), by(5.678263), flat(0.0005), 0.005},
	"area":    {regexp.MustCompile(`^` + number + ` ft2`), regexp.MustCompile(`^` + number + ` m2`), by(0.3048 * 0.3048), flat(0.5), 0.05},
	"volume":  {regexp.MustCompile(`^` + number + ` ft3`), regexp.MustCompile(`^` + number + ` m3`), by(0.3048 * 0.3048 * 0.3048), flat(0.5), 0.05},
	"energy":  {regexp.MustCompile(`^` + number + ` MMBtu`), regexp.MustCompile(`^` + number + ` kWh`), by(1055.056 / 3.6), flat(0.05), 0.5},
	"days":    {regexp.MustCompile(`^` + number + ` F-days`), regexp.MustCompile(`^` + number + ` K-days`), by(1 / 1.8), flat(0.5), 0.5},
	"damp":    {regexp.MustCompile(`^` + number + ` oz/ft2`), regexp.MustCompile(`^` + number + ` g/m2`), by(453.59237 / 16 / (0.3048 * 0.3048)), flat(0.05), 0.5},
	"load":    {regexp.MustCompile(`^` + number + ` lb/ft2`), regexp.MustCompile(`^` + number + ` kg/m2`), by(0.45359237 / (0.3048 * 0.3048)), flat(0.05), 0.05},
	"degrees": {regexp.MustCompile(`^` + number + ` F\b`), regexp.MustCompile(`^` + number + ` C\b`), func(f float64) float64 { return (f - 32) / 1.8 }, flat(0.5), 0.5},
	"length":  {regexp.MustCompile(`^(?:` + number + ` )?(\d+/\d+ )?in\b`), regexp.MustCompile(`^` + number + ` mm`), by(25.4), flat(1.0 / 32), 0.5},
	"feet":    {regexp.MustCompile(`^` + number + ` ft\b(?: ` + number + `( \d+/\d+)? in)?`), regexp.MustCompile(`^` + number + ` m\b`), by(0.3048), flat(0.05), 0.005},
	"bare":    {regexp.MustCompile(`^` + number), regexp.MustCompile(`^` + number), nil, nil, 0},
}

// order of trying: a longer unit before one that it begins with.
var unitOrder = []string{"R", "U", "area", "volume", "load", "energy", "days", "damp", "degrees", "feet", "length", "bare"}

// measured takes a text apart: its words without figures, and the figures.
func measured(text string, si bool) (words string, found []quantity) {
	text = strings.Join(strings.Fields(text), " ")
	var b strings.Builder
	for i := 0; i < len(text); {
		starts := i == 0 || strings.ContainsRune(" ($[:;,-+", rune(text[i-1]))
		q, length := quantity{}, 0
		if starts {
			if q, length = quantityAt(text[i:], si); si && (length == 0 || q.unit == "bare") {
				if raw, n := quantityAt(text[i:], false); n > length {
					q, length = raw, n
					q.prose = "yes"
				}
			}
		}
		if length == 0 {
			b.WriteByte(text[i])
			i++
			continue
		}
		if q.prose != "" {
			q.prose = text[max(0, i-12) : i+length]
		}
		found = append(found, q)
		b.WriteString("#")
		i += length
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
		case name == "length" && !si:
			v += amount(m[2])
		case name == "feet" && !si && m[2] != "":
			v += (amount(m[2]) + amount(m[3])) / 12
		}
		q := quantity{unit: name, value: v, off: p.siOff}
		if !si && p.usOff != nil {
			q.off = p.usOff(v)
		}
		return q, len(m[0])
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

// same reports whether two printed figures can be the same figure.
func same(us, si quantity) bool {
	if si.prose != "" {
		return us.unit == si.unit && us.value == si.value
	}
	if us.unit == "bare" || si.unit == "bare" {
		// "R-20 + 5" and the like: the unit stands before the first.
		return us.unit == si.unit && (us.value == si.value || math.Abs(us.value/5.678263-si.value) <= 0.05/5.678263+0.005)
	}
	p := pairs[us.unit]
	slope := math.Abs(p.turn(1) - p.turn(0))
	return us.unit == si.unit && math.Abs(p.turn(us.value)-si.value) <= us.off*slope+si.off+1e-9
}

// Every figure of the report in SI is the figure of the report in US units,
// and every word between them is the same word.
func TestReportsInBothUnitsSayTheSame(t *testing.T) {
	compared, prose := map[string]int{}, dataText(t)
	for _, name := range demo.Names() {
		for _, command := range []string{"plan", "order"} {
			us, si := runs(command, demoFolder+name), runs(command, demoFolder+name, "--units", "si")
			require.Equal(t, exitDone, us.code+si.code)
			wordsUS, inUS := measured(us.stdout, false)
			wordsSI, inSI := measured(si.stdout, true)
			requireSameWords(t, name+" "+command, wordsUS, wordsSI)
			require.Len(t, inSI, len(inUS))
			for i := range inUS {
				require.True(t, same(inUS[i], inSI[i]), "%s %s: figure %d is %v and %v", name, command, i, inUS[i], inSI[i])
				compared[inUS[i].unit]++
				if inSI[i].prose != "" {
					// The sentences of the data are written in US units; a figure that
					// was worked out must not be among them.
					require.True(t, strings.Contains(prose, inSI[i].prose), "%s %s: %q is not turned into SI", name, command, inSI[i].prose)
					compared["as the data says it"]++
				}
			}
		}
	}
	for _, unit := range []string{"R", "U", "area", "energy", "length"} {
		require.Greater(t, compared[unit], 3, "%s: %v", unit, compared)
	}
	t.Log(compared)
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

// dataText is all the embedded data, with single spaces.
func dataText(t *testing.T) string {
	t.Helper()
	names, err := fs.Glob(data.Files, "*.toml")
	require.NoError(t, err)
	var b strings.Builder
	for _, name := range names {
		text, err := fs.ReadFile(data.Files, name)
		require.NoError(t, err)
		b.Write(text)
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
