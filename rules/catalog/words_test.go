package catalog

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// wordChecks is testdata/published/words.json; each row has its source and how
// well that is known.
type wordChecks struct {
	Figures, Worked []struct {
		Where, Source, Mark string
		Figures             []string
		From                map[string]float64
		Published, Within   float64
	}
	Met []struct {
		Text, Mark string
		Means      map[string]string
	}
}

func readWordChecks(t testing.TB) wordChecks {
	t.Helper()
	text, err := os.ReadFile("../../testdata/published/words.json")
	require.NoError(t, err)
	var c wordChecks
	require.NoError(t, json.Unmarshal(text, &c))
	return c
}

// glossary is the catalog with the sources it lists.
func glossary(t testing.TB) (*Catalog, map[string]bool) {
	t.Helper()
	c, err := wholeCatalog()
	require.NoError(t, err)
	known := map[string]bool{}
	for id := range c.sources {
		known[id] = true
	}
	require.True(t, len(c.Words()) > 0 && len(c.Helps()) > 0)
	return c, known
}

// ofWords is a catalog of nothing but these words.
func ofWords(words ...Word) *Catalog {
	c := &Catalog{}
	c.parts[wordList] = func() (*records, error) { return &records{Words: words}, nil }
	return c
}

func termsOf(words []Word) []string {
	return ids(words, func(w Word) string { return w.Term })
}

func TestWordsAreFitToPrint(t *testing.T) {
	c, sources := glossary(t)
	const meaningAtMost, mattersAtMost = 160, 140 // two lines and one on a usual screen
	for _, w := range c.Words() {
		require.True(t, sources[w.Source], "%s: source %q", w.Term, w.Source)
		require.True(t, w.Known.Valid(), "%s: known %q", w.Term, w.Known)
		require.NotEqual(t, Invented, w.Known, w.Term)
		for _, s := range []units.System{units.US, units.SI} {
			require.LessOrEqual(t, len(w.Meaning.In(s)), meaningAtMost, w.Term)
			require.LessOrEqual(t, len(w.Matters.In(s)), mattersAtMost, w.Term)
		}
		for _, s := range []string{w.Meaning.String(), w.Matters.String(), w.Meaning.In(units.SI), w.Matters.In(units.SI)} {
			require.Regexp(t, `^[A-Z0-9"][ -~]+[.?!"]$`, s, w.Term) // a sentence every terminal can show
			require.NotContains(t, s, "  ", w.Term)
		}
		for _, s := range w.names() {
			require.True(t, strings.TrimSpace(s) == s && utf8.RuneCountInString(s) <= longestAsked, s)
		}
	}
}

// A name that leads to two words would leave the reader to guess.
func TestNoNameServesTwoWords(t *testing.T) {
	c, _ := glossary(t)
	owner := map[string]string{}
	for _, w := range c.Words() {
		for _, name := range w.names() {
			key := strings.ReplaceAll(foldTerm(name), " ", "")
			require.NotEmpty(t, key, name)
			require.Empty(t, owner[key], "%q of %s", name, w.Term)
			owner[key] = w.Term
		}
	}
}

var figure = regexp.MustCompile(`\d[\d./+]*\d|\d`)

// No figure stands in a glossary or help text without a row that says where it
// is from, no row without a figure, and no word claims to be better known than
// its figures are.
func TestFiguresInTextsAreSourced(t *testing.T) {
	c, _ := glossary(t)
	marks := map[string]Known{"read": Standard, "computed": Standard, "secondary": Secondary, "memory": Memory, "ours": Practice}
	rows := map[string][]string{}
	mark := map[string]Known{}
	for _, f := range readWordChecks(t).Figures {
		require.NotEmpty(t, f.Source, f.Where)
		require.Contains(t, marks, f.Mark, f.Where)
		rows[f.Where], mark[f.Where] = f.Figures, marks[f.Mark]
	}
	texts := map[string]string{}
	for _, w := range c.Words() {
		texts[w.Term] = w.Meaning.String() + " " + w.Matters.String()
		if len(rows[w.Term]) > 0 {
			require.Equal(t, w.Known, Weakest(w.Known, mark[w.Term]), "%s claims more than its figures bear", w.Term)
		}
	}
	for _, h := range c.Helps() {
		texts[h.Key] = h.Why.String() + " " + h.How.String() + " " + h.Ask.String()
	}
	for where, text := range texts {
		require.ElementsMatch(t, rows[where], slices.Compact(slices.Sorted(slices.Values(figure.FindAllString(text, -1)))), where)
		delete(rows, where)
	}
	require.Empty(t, rows, "rows for words or helps that are not there")
}

// The figures we worked ourselves are worked again from what was published, and
// must read in the glossary as they come out.
func TestWorkedFiguresInWords(t *testing.T) {
	// Each gives the published result and the figure of the glossary.
	formulas := map[string]func(map[string]float64) (result, figure float64){
		"compression": func(f map[string]float64) (float64, float64) {
			r := f["label_r"] * (1 - (f["label_in"]-f["bay_in"])/f["label_in"]/2)
			return r, r
		},
		"void": func(f map[string]float64) (float64, float64) {
			p, others := f["void_share"], f["others_r"]
			u := (1-p)/(f["blanket_r"]+others) + p/(f["air_r"]+others)
			loss := 1 - (1/u-others)/f["blanket_r"]
			return loss, 100 * loss
		},
		// Saturation pressure over water and its inverse, ISO 13788 (formula
		// read in notes on a national standard that uses the same one).
		"dew point": func(f map[string]float64) (float64, float64) {
			logP := math.Log(f["rh"]) + 17.269*f["air_c"]/(237.3+f["air_c"])
			dew := 237.3 * logP / (17.269 - logP)
			return dew, dew*9/5 + 32
		},
		"coverage": func(f map[string]float64) (float64, float64) {
			return f["module_in"] / 12, 100 * (f["module_in"]/f["blanket_in"] - 1)
		},
	}
	c, _ := glossary(t)
	for _, w := range readWordChecks(t).Worked {
		require.Contains(t, formulas, w.Where)
		result, worked := formulas[w.Where](w.From)
		require.InDelta(t, w.Published, result, w.Within, w.Where)
		require.Equal(t, w.Figures, []string{strconv.FormatFloat(math.Round(worked), 'f', -1, 64)}, w.Where)
		found, _ := c.FindWord(w.Where)
		require.Equal(t, []string{w.Where}, termsOf(found))
		require.Subset(t, figure.FindAllString(found[0].Meaning.String()+" "+found[0].Matters.String(), -1), w.Figures, w.Where)
		delete(formulas, w.Where)
	}
	require.Empty(t, formulas, "worked cases not in the table")
}

// The words of published texts, as they stand there, lead to the right entry.
func TestWordsMetInPublishedTextsAreFound(t *testing.T) {
	c, _ := glossary(t)
	for _, m := range readWordChecks(t).Met {
		require.NotEmpty(t, m.Mark, m.Text)
		for said, term := range m.Means {
			found, near := c.FindWord(said)
			require.Contains(t, termsOf(found), term, "%q of %s", said, m.Text)
			require.Empty(t, near)
		}
	}
}

// Whatever name a word has, it is found alone, however the name is written.
func TestEveryNameFindsItsWord(t *testing.T) {
	c, _ := glossary(t)
	ways := map[string]func(string) string{
		"as it is":      func(s string) string { return s },
		"capitals":      strings.ToUpper,
		"spaces around": func(s string) string { return "  " + s + "\t" },
		"dashes":        func(s string) string { return strings.ReplaceAll(s, " ", "-") },
		"in one":        func(s string) string { return strings.ReplaceAll(s, " ", "") },
		"quoted":        func(s string) string { return `"` + s + `"` },
		"no apostrophe": func(s string) string { return strings.ReplaceAll(s, "'", "") },
	}
	for _, w := range c.Words() {
		for _, name := range w.names() {
			for way, write := range ways {
				found, near := c.FindWord(write(name))
				require.Equal(t, []string{w.Term}, termsOf(found), "%s of %s, %s", name, w.Term, way)
				require.Empty(t, near)
			}
		}
	}
}

func TestPartsOfWords(t *testing.T) {
	c := ofWords(
		Word{Term: "above grade", Also: []string{"soil line"}},
		Word{Term: "Grade I"},
		Word{Term: "Grade II"},
		Word{Term: "grader", Also: []string{"upgrade"}},
		Word{Term: "U-factor"},
	)
	for _, k := range []struct {
		asked string
		terms []string
	}{
		{"grade", []string{"Grade I", "Grade II", "grader", "above grade"}}, // those that start so come first
		{"grade i", []string{"Grade I"}},                                    // a whole name wins over a beginning
		{"gr", []string{"Grade I", "Grade II", "grader"}},                   // two letters: beginnings only
		{"ade", []string{"above grade", "Grade I", "Grade II", "grader"}},
		{"g", nil},
		{"de", nil}, // one letter: whole names only
		{"soil", []string{"above grade"}},
		{"grader's", []string{"grader"}},
		{"", nil},
		{" - ", nil},
		{"\x00", nil},
		{"'", nil},
	} {
		found, near := c.FindWord(k.asked)
		require.Equal(t, append([]string{}, k.terms...), termsOf(found), "%q", k.asked)
		require.False(t, k.terms != nil && near != "", "%q", k.asked)
	}
}

// One slip in a name of some length still leads somewhere: to the word, or to
// a suggestion that finds exactly one.
func TestSlipsOfThePen(t *testing.T) {
	c, _ := glossary(t)
	rng := rand.New(rand.NewPCG(7, 11))
	const longEnough = 6
	right, tried := 0, 0
	for _, w := range c.Words() {
		for _, name := range w.names() {
			if len(name) < longEnough {
				continue
			}
			slipped := slip(rng, name)
			found, near := c.FindWord(slipped)
			tried++
			if near == w.Term || slices.Contains(termsOf(found), w.Term) {
				right++
			}
			require.NotEqual(t, len(found) > 0, near != "", "%q for %q", slipped, name)
			if near != "" {
				again, _ := c.FindWord(near)
				require.Equal(t, []string{near}, termsOf(again), slipped)
			}
		}
	}
	// A slip can make another word ("mill" for "mil"), so not all can be right.
	require.Greater(t, float64(right), 0.97*float64(tried), "%d of %d", right, tried)
}

// slip drops, doubles, changes or swaps one letter.
func slip(rng *rand.Rand, s string) string {
	i := 1 + rng.IntN(len(s)-2)
	return []string{s[:i] + s[i+1:], s[:i] + s[i:i+1] + s[i:], s[:i] + "q" + s[i+1:], s[:i] + s[i+1:i+2] + s[i:i+1] + s[i+2:]}[rng.IntN(4)]
}

func TestNothingIsNear(t *testing.T) {
	full, _ := glossary(t)
	for asked, c := range map[string]*Catalog{
		"zzzzzzzzzzzz": full, "qx": full, strings.Repeat("batt ", 1000): full, "\xff\xfe": full, "batt": ofWords(),
		strings.Repeat("x", longestAsked+1): ofWords(Word{Term: strings.Repeat("x", longestAsked+1)}),
	} {
		found, near := c.FindWord(asked)
		require.Empty(t, found, "%.20q", asked)
		require.Empty(t, near, "%.20q", asked)
	}
}

func TestTermsAreSorted(t *testing.T) {
	c := ofWords(Word{Term: "void"}, Word{Term: "OSB"}, Word{Term: "batt"}, Word{Term: "N95"})
	require.Equal(t, []string{"batt", "N95", "OSB", "void"}, c.Terms())
	require.Equal(t, "void", c.Words()[0].Term, "the catalog itself is not sorted")
}

func FuzzFindWord(f *testing.F) {
	for _, s := range []string{"bat", "craft", "R value", "vapour", "insulaton", "", "'", "&", "GRADE", "25/450", "i̇", "\xff", "sses", "ies", strings.Repeat("s", 70)} {
		f.Add(s)
	}
	c, _ := glossary(f)
	f.Fuzz(func(t *testing.T, asked string) {
		found, near := c.FindWord(asked)
		require.False(t, len(found) > 0 && near != "", "%q both found and guessed", asked)
		terms := slices.Sorted(slices.Values(termsOf(found)))
		require.Len(t, slices.Compact(terms), len(found), "%q found a word twice", asked)
		if near != "" {
			require.Contains(t, c.Terms(), near)
		}
	})
}
