package catalog_test

import (
	"go/ast"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// text is something a builder reads, and where it stands.
type text struct{ where, words string }

// screenFolders hold the labels of screens, pages and reports as Go strings.
var screenFolders = []string{"cmd/battwright", "tui", "tui/ask", "tui/chart", "rules/pages", "rules/order", "rules/bill", "rules/inspect", "rules/candidate", "rules/plan", "rules/house"}

// everyText gathers what screens and reports can say: questions with their
// options, help, rules, records, labels in the program, and whole reports.
func everyText(t *testing.T, c *catalog.Catalog) []text {
	t.Helper()
	var out []text
	add := func(where string, words ...string) {
		for _, w := range words {
			out = append(out, text{where, w})
		}
	}
	l := house.NewList(c)
	for _, q := range l.Questions {
		add("question "+q.FullKey(), q.Prompt.String(), q.How.String())
		for _, o := range q.Options {
			add("question "+q.FullKey(), o.Label.String())
		}
	}
	for _, h := range c.Helps() {
		add("help "+h.Key, h.Why.String(), h.How.String(), h.Ask.String())
	}
	for _, r := range c.Book().Rules() {
		add("rule "+r.ID, r.Title, pages.RuleText(c, r, units.US))
	}
	for _, k := range c.Criteria {
		add("priority "+k.ID, k.Name, k.Measures.String())
	}
	for _, m := range c.Materials {
		add("material "+m.ID, m.Name)
	}
	for _, f := range c.Facings {
		add("facing "+f.ID, f.Name)
	}
	for _, k := range c.Kinds {
		add("place "+k.ID, k.Name)
	}
	for _, name := range []string{demo.Default} {
		add("report of "+name, print.Text(pages.PlanPage(plan.Make(fixture.ReadOver(t, c, demo.Text(name))), pages.Options{Catalog: c}), 0))
	}
	for _, dir := range screenFolders {
		out = append(out, literals(t, filepath.Join("..", "..", dir))...)
	}
	return out
}

// literals are the sentences in the source of a package: strings of several
// words, since keys and formats are one.
func literals(t *testing.T, dir string) []text {
	t.Helper()
	var out []text
	fixture.GoFiles(t, dir, func(file string, parsed *ast.File) {
		ast.Inspect(parsed, func(n ast.Node) bool {
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			if s, err := strconv.Unquote(lit.Value); err == nil && strings.Contains(strings.TrimSpace(s), " ") {
				out = append(out, text{filepath.Base(dir) + "/" + filepath.Base(file), s})
			}
			return true
		})
	})
	return out
}

// tradeWords are words that a first-time builder may never have met. They were
// picked by reading every distinct word of the texts; the names of the glossary
// itself are added to them below. What is said in any of them must be explained.
var tradeWords = strings.Fields(`
	advanced_framing air_barrier air_sealing airway asbestos baffle basement batt batten bay binder blanket blown-in borate bottom_chord
	building_department building_office capillary_break cavity certificate chimney chord cladding clearance climate_zone combustible
	condensation coverage crawl_space damp_check degree_day dehumidifier double-wall drywall duct eave facing fiberboard fireblock
	fireblocking flame-rated flame_spread flue foam_board foil formaldehyde foundation framing furring gasket grade_i grade_ii grade_iii
	gypsum handover_sheet hatch heat_pump heel house_wrap humidity ic iecc inspection irc joist knee_wall knob-and-tube kraft ladder listing
	loft lumber masonry mil mineral_wool model_code mold n95 niosh noncombustible offcut offer order_list osb overhang pellet_vent perm
	permit plate plywood polyethylene pressure-treated r-value rafter recessed_light relative_humidity retarder ridge rim_joist sealant sheathing
	siding sill single-wall slab smart_sheet soffit spacing stc stud subfloor therm timber_frame top_plate truss type_b u-factor
	unfaced vapor vapor_retarder vapor_barrier vent vented vermiculite vinyl_siding void web
`)

// said reports whether a text holds a word: whole, in any case, one or many.
func said(words, word string) bool {
	return strings.Contains(" "+folded(words)+" ", " "+folded(word)+" ")
}

// folded leaves small letters and digits, parts of a word apart, each in the
// singular.
func folded(s string) string {
	plain := strings.FieldsFunc(strings.ToLower(strings.ReplaceAll(s, "\u2019", "'")), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '\''
	})
	for i, w := range plain {
		switch {
		case len(w) < 4 || strings.HasSuffix(w, "ss") || strings.HasSuffix(w, "us") || strings.HasSuffix(w, "is"):
		case strings.HasSuffix(w, "sses"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "xes"):
			plain[i] = w[:len(w)-2]
		case strings.HasSuffix(w, "ies"):
			plain[i] = w[:len(w)-3] + "y"
		default:
			plain[i] = strings.TrimSuffix(w, "s")
		}
	}
	return strings.Join(plain, " ")
}

// explained reports whether the glossary has a word under one of its names, so
// that looking it up gives its own entry and not one that happens to hold it.
func explained(c *catalog.Catalog, word string) bool {
	found, _ := c.FindWord(word)
	return slices.ContainsFunc(found, func(w catalog.Word) bool {
		return slices.ContainsFunc(append([]string{w.Term}, w.Also...), func(name string) bool { return folded(name) == folded(word) })
	})
}

// missing gives the trade words that are said somewhere and explained nowhere.
func missing(c *catalog.Catalog, texts []text) (missing []string, met int) {
	for _, word := range tradeWords {
		word = strings.ReplaceAll(word, "_", " ")
		i := slices.IndexFunc(texts, func(x text) bool { return said(x.words, word) })
		if i < 0 {
			continue
		}
		met++
		if !explained(c, word) {
			missing = append(missing, word+" (said in "+texts[i].where+")")
		}
	}
	return missing, met
}

func TestEveryTradeWordIsExplained(t *testing.T) {
	c := fixture.Catalog(t)
	texts := everyText(t, c)
	without, met := missing(c, texts)
	require.Empty(t, without, "add these to data/words.toml, or say it more plainly")
	require.Greater(t, met, len(tradeWords)*3/4, "most of the list is said nowhere: is every text read?")
}

// A word that loses its entry is noticed.
func TestAMissingWordIsNoticed(t *testing.T) {
	c := fixture.Catalog(t)
	texts := everyText(t, c)
	for _, word := range []string{"perm", "joist", "baffle", "sheathing", "soffit", "kraft"} {
		less, err := catalog.Load(data.Files, over(map[string]string{"mine.toml": "[[word]]\nterm = \"" + word + "\"\nmeaning = \"-\"\nmatters = \"-\"\nremove = true\n"}))
		require.NoError(t, err)
		require.Len(t, less.Words(), len(c.Words())-1, word)
		without, _ := missing(less, append(texts, text{"here", "Some " + word + "s."}))
		require.NotEmpty(t, without, word)
	}
}

// Every explanation says something, and nothing is explained by itself.
func TestExplanationsExplain(t *testing.T) {
	c := fixture.Catalog(t)
	for _, w := range c.Words() {
		require.NotEqual(t, folded(w.Meaning.String()), folded(w.Term))
		require.GreaterOrEqual(t, len(strings.Fields(w.Meaning.String())), 4, w.Term)
		require.GreaterOrEqual(t, len(strings.Fields(w.Matters.String())), 4, w.Term)
		src, ok := c.Source(w.Source)
		require.True(t, ok, w.Term)
		require.NotEmpty(t, src.Title)
		require.True(t, explained(c, w.Term), w.Term)
	}
}
