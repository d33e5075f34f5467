package main

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/demo"
)

// Metamorphic tests: what must stay the same, or change in step, when a house
// is said differently. They go through the whole program, so that reading,
// planning, ordering and printing are all held to them.

// printed is the JSON of a plan as far as these tests compare it.
type printed struct {
	House struct {
		Assumed, Unknown []printedSaid
	}
	Places  []printedPlace
	Budget  map[string]any
	Sources []struct{ ID, Title, Known string }
}

type printedSaid struct{ Place, Key, Value string }

type printedPlace struct {
	ID      string
	AreaFt2 float64 `json:"area_ft2"`
	Choice  *struct {
		Material string
		Product  struct{ ID string }
		Heat     struct {
			CavityR   float64   `json:"cavity_r"`
			AssemblyR float64   `json:"assembly_r"`
			Loss      []float64 `json:"loss_mmbtu_year"`
		}
		Money struct {
			Low     float64 `json:"low_cents"`
			Typical float64 `json:"typical_cents"`
			High    float64 `json:"high_cents"`
		}
	}
	Order []struct {
		Product          string
		Pieces, Packages float64
	}
}

// planJSONOf plans a house text and gives the JSON as it is, and read.
func planJSONOf(t *testing.T, text string, args ...string) (string, printed) {
	t.Helper()
	r := with{stdin: text}.run(append([]string{"plan", "-", "--format", "json"}, args...)...)
	require.Equal(t, exitDone, r.code, r.stderr)
	var p printed
	require.NoError(t, json.Unmarshal([]byte(r.stdout), &p))
	return r.stdout, p
}

// split cuts a house file at its places.
func split(text string) (head string, places []string, tail string) {
	parts := strings.Split(text, "\n[[place]]\n")
	head, places = parts[0], parts[1:]
	last := places[len(places)-1]
	if i := strings.Index(last, "\n["); i >= 0 {
		places[len(places)-1], tail = last[:i], last[i:]
	}
	return head, places, tail
}

func joined(head string, places []string, tail string) string {
	var b strings.Builder
	b.WriteString(head)
	for _, p := range places {
		b.WriteString("\n[[place]]\n" + p)
	}
	return b.String() + tail
}

// figures gives every number of a JSON value by its path, and every word that
// no unit can be in.
func figures(t *testing.T, text string) map[string]any {
	t.Helper()
	var v any
	require.NoError(t, json.Unmarshal([]byte(text), &v))
	out := map[string]any{}
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, x := range v {
				walk(path+"."+k, x)
			}
		case []any:
			out[path+"[]"] = len(v)
			for i, x := range v {
				walk(fmt.Sprintf("%s[%d]", path, i), x)
			}
		case string:
			if last := path[strings.LastIndex(path, ".")+1:]; slices.Contains([]string{"id", "rule", "material", "key", "place", "verdict", "source", "known"}, last) {
				out[path] = v
			}
		default:
			out[path] = v
		}
	}
	walk("", v)
	return out
}

// The units that are shown change no choice and no figure of the JSON, which
// names its units.
func TestUnitsChangeNoFigure(t *testing.T) {
	for _, name := range demo.Names() {
		us, _ := planJSONOf(t, demo.Text(name))
		si, _ := planJSONOf(t, demo.Text(name), "--units", "si")
		require.Equal(t, figures(t, us), figures(t, si), name)
		require.Greater(t, len(figures(t, us)), 300)
		require.NotEqual(t, us, si, "the words do change")
	}
}

// Places listed in another order give the same places and the same house.
func TestShuffledPlacesAreTheSame(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 1))
	for _, name := range demo.Names() {
		head, places, tail := split(demo.Text(name))
		_, want := planJSONOf(t, joined(head, places, tail))
		for range 3 {
			random.Shuffle(len(places), func(i, j int) { places[i], places[j] = places[j], places[i] })
			_, got := planJSONOf(t, joined(head, places, tail))
			require.ElementsMatch(t, want.Places, got.Places, name)
			require.Equal(t, want.Budget, got.Budget, name)
			require.ElementsMatch(t, want.House.Assumed, got.House.Assumed, name)
			require.ElementsMatch(t, want.House.Unknown, got.House.Unknown, name)
			require.Equal(t, want.Sources, got.Sources, name)
		}
	}
}

// wallHouse is a house of walls only, each with its length and window area.
func wallHouse(walls ...[2]float64) string {
	b := "version = 1\nold = false\nstage = \"framed\"\n[site]\nstate = \"MN\"\ncounty = \"Hennepin\"\n"
	for i, w := range walls {
		b += fmt.Sprintf("[[place]]\nid = \"w%d\"\nkind = \"exterior-wall\"\nlength_ft = %g\nheight_ft = 8\nopenings_ft2 = %g\nframing.size = \"2x6\"\nframing.spacing_in = 16\nci_r = 5\n", i, w[0], w[1])
	}
	return b
}

// sums adds up what the walls of a plan come to.
func sums(t *testing.T, p printed) map[string]float64 {
	t.Helper()
	out := map[string]float64{}
	for _, x := range p.Places {
		require.NotNil(t, x.Choice)
		out["area"] += x.AreaFt2
		out["low"] += x.Choice.Money.Low
		out["typical"] += x.Choice.Money.Typical
		out["high"] += x.Choice.Money.High
		for i, v := range x.Choice.Heat.Loss {
			out[fmt.Sprint("heat ", i)] += v
		}
	}
	return out
}

// A wall in two parts is as large, costs as much and loses as much heat as the
// whole, and gets the same blanket with the same R.
func TestSplitWallAddsUp(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 2))
	for range 6 {
		length := float64(20 + random.IntN(60))
		window := float64(random.IntN(40))
		part := math.Round(length*(0.2+0.6*random.Float64())*4) / 4
		_, whole := planJSONOf(t, wallHouse([2]float64{length, window}))
		_, parts := planJSONOf(t, wallHouse([2]float64{part, window / 4}, [2]float64{length - part, window * 3 / 4}))
		want, got := sums(t, whole), sums(t, parts)
		for k, v := range want {
			require.InDelta(t, v, got[k], roundingOf(k), "%s of a wall of %g ft cut at %g", k, length, part)
		}
		for _, p := range parts.Places {
			require.Equal(t, whole.Places[0].Choice.Product, p.Choice.Product)
			require.Equal(t, whole.Places[0].Choice.Heat.AssemblyR, p.Choice.Heat.AssemblyR)
		}
	}
}

// roundingOf is what printing may move a sum of two figures by.
func roundingOf(key string) float64 {
	switch {
	case key == "area":
		return 0.11
	case strings.HasPrefix(key, "heat"):
		return 0.011
	}
	return 1.01 // a cent
}

// Openings counted together are the openings written one by one: the same
// area, the same money, the same things to buy.
func TestOpeningsOneByOne(t *testing.T) {
	together := strings.Replace(wallHouse([2]float64{48, 0}), "openings_ft2 = 0", `openings = ["5 of 30 in x 42 in", "2 of 36 in x 80 in"]`, 1)
	apart := strings.Replace(wallHouse([2]float64{48, 0}), "openings_ft2 = 0",
		`openings = ["1 of 30 in x 42 in", "1 of 36 in x 80 in", "1 of 30 in x 42 in", "1 of 30 in x 42 in", "1 of 30 in x 42 in", "1 of 36 in x 80 in", "1 of 30 in x 42 in"]`, 1)
	_, a := planJSONOf(t, together)
	_, b := planJSONOf(t, apart)
	require.Equal(t, a.Places, b.Places)
	require.Equal(t, a.Budget, b.Budget)
	require.InDelta(t, 48*8-(5*30*42+2*36*80)/144.0, a.Places[0].AreaFt2, 0.051)
	one, two := with{stdin: together}.run("order", "-", "--format", "csv"), with{stdin: apart}.run("order", "-", "--format", "csv")
	require.Equal(t, exitDone, one.code, one.stderr)
	require.Equal(t, one.stdout, two.stdout)
}

// Where and when the program runs changes nothing: time zone, language,
// columns, processors.
func TestSameEverywhere(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	out := func(environ ...string) string {
		cmd := exec.Command(binary(t), "plan", demoFolder+"house-by-the-water.toml", "--format", "json") // the quickest of the three
		cmd.Env = append([]string{"HOME=" + dir}, environ...)
		b, err := cmd.Output()
		require.NoError(t, err)
		return string(b)
	}
	want := out()
	for _, environ := range [][]string{
		{"TZ=Pacific/Kiritimati"},
		{"TZ=America/St_Johns"},
		{"TZ=nonsense"},
		{"LANG=tr_TR.UTF-8", "LC_ALL=tr_TR.UTF-8"},
		{"LANG=de_DE.UTF-8", "LC_NUMERIC=de_DE.UTF-8"},
		{"LANG=ar_EG.UTF-8", "LANGUAGE=ar"},
		{"LC_ALL=C"},
		{"COLUMNS=20", "TERM=dumb", "NO_COLOR=1"},
		{"GOMAXPROCS=1"},
		{"GOGC=1"},
		{"GODEBUG=randautoseed=0"},
	} {
		require.Equal(t, want, out(environ...), "%q", environ)
	}
}

// The same figures on a processor with words of 32 bits.
func TestSameOn32Bits(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program again")
	}
	t.Parallel()
	path := filepath.Join(t.TempDir(), "program")
	cmd := exec.Command("go", "build", "-o", path, ".")
	cmd.Env = append(os.Environ(), "GOARCH=386", "CGO_ENABLED=0")
	text, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", text)
	if err := exec.Command(path, "--version").Run(); err != nil {
		t.Skip("this machine does not run such a program:", err)
	}
	for _, command := range []string{"plan", "order"} { // of a small house: a year for each place takes its time
		args := []string{command, demoFolder + "house-by-the-water.toml", "--format", "json"}
		b, err := exec.Command(path, args...).Output()
		require.NoError(t, err)
		require.Equal(t, with{yearly: true}.run(args...).stdout, string(b), "%q", args)
	}
}
