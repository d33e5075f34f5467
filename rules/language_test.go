package rules

import (
	"encoding/csv"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// printed is a text that a builder may read, and where it stands.
type printed struct{ where, text string }

// neverSaid is a row of testdata/language.csv.
type neverSaid struct {
	words, why, instead string
	re                  *regexp.Regexp
}

// neverList reads the words that no printed text may hold. A star stands for
// any ending.
func neverList(t *testing.T) []neverSaid {
	t.Helper()
	f, err := os.Open("../testdata/language.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	var out []neverSaid
	for _, r := range rows[1:] {
		pattern := strings.ReplaceAll(regexp.QuoteMeta(r[0]), `\*`, `\w*`)
		out = append(out, neverSaid{r[0], r[1], r[2], regexp.MustCompile(`(?i)\b` + pattern + `\b`)})
	}
	return out
}

var quotedText = regexp.MustCompile(`"((?:[^"\\]|\\.)*)"`)

// dataTexts are the texts of the data files and demo houses. Not among them are
// comments, and the other names of a word, which are what people may type.
func dataTexts(t *testing.T) []printed {
	t.Helper()
	var out []printed
	for _, pattern := range []string{"../data/*.toml", "../testdata/demo/*.toml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, file := range files {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			require.NotContains(t, string(text), `"""`, "%s: this test reads line by line", file)
			for i, line := range strings.Split(string(text), "\n") {
				if strings.HasPrefix(line, "also = ") || strings.HasPrefix(line, "#") {
					continue
				}
				for _, m := range quotedText.FindAllStringSubmatch(line, -1) {
					out = append(out, printed{filepath.Base(file) + ":" + strconv.Itoa(i+1), m[1]})
				}
			}
		}
	}
	return out
}

// goTexts are the strings of the program, tests left out, and the lines of what
// it says about itself. The keys of earlier files are still read, never printed.
func goTexts(t *testing.T) []printed {
	t.Helper()
	var out []printed
	for _, f := range sources(t) {
		if f.test || strings.HasPrefix(f.dir, "testdata") {
			continue
		}
		fset := token.NewFileSet()
		parsed, err := parser.ParseFile(fset, filepath.Join("..", filepath.FromSlash(f.path)), nil, 0)
		require.NoError(t, err)
		ast.Inspect(parsed, func(n ast.Node) bool {
			if pair, ok := n.(*ast.KeyValueExpr); ok {
				if key, ok := pair.Key.(*ast.Ident); ok && key.Name == "Earlier" {
					return false
				}
			}
			lit, ok := n.(*ast.BasicLit)
			if !ok || lit.Kind != token.STRING {
				return true
			}
			text, err := strconv.Unquote(lit.Value)
			require.NoError(t, err)
			out = append(out, printed{f.path + ":" + strconv.Itoa(fset.Position(lit.Pos()).Line), text})
			return true
		})
	}
	for _, file := range []string{"README.md", "DEVELOPERS.md"} {
		text, err := os.ReadFile("../" + file)
		require.NoError(t, err)
		output := false // between fences stands what the program prints
		for i, line := range strings.Split(string(text), "\n") {
			if strings.HasPrefix(line, "```") {
				output = !output
			}
			if !output {
				out = append(out, printed{file + ":" + strconv.Itoa(i+1), line})
			}
		}
	}
	return out
}

// No text a builder may read argues with somebody who is not there, promises
// what nobody checked, is English word for word from another language, or is
// spelled the British way.
func TestPlainAmericanEnglish(t *testing.T) {
	texts := append(dataTexts(t), goTexts(t)...)
	require.Greater(t, len(texts), 5000, "the texts were not found")
	var found []string
	for _, n := range neverList(t) {
		require.NotEmpty(t, n.why, n.words)
		require.NotEmpty(t, n.instead, n.words)
		require.Regexp(t, n.re, "so "+strings.TrimSuffix(n.words, "*")+".", "the row finds its own words")
		for _, s := range texts {
			if n.re.MatchString(s.text) {
				found = append(found, s.where+": "+n.words+" ("+n.why+"; "+n.instead+"): "+s.text)
			}
		}
	}
	slices.Sort(found)
	require.Empty(t, strings.Join(found, "\n"))
}

// Sources name the text itself. A page of a firm or a private person it was
// read on goes away, and is nobody's standard; public offices may be named.
func TestNoAddressButOfPublicOffices(t *testing.T) {
	address := regexp.MustCompile(`\b(?:[a-z0-9-]+\.)+(?:com|net|org|info|biz|io|us|uk|ca|edu|eu|de)\b`)
	texts := dataTexts(t)
	published, err := filepath.Glob("../testdata/published/*")
	require.NoError(t, err)
	require.Greater(t, len(published), 10)
	for _, file := range published {
		if about, err := os.Stat(file); err == nil && about.IsDir() {
			continue // packed hours, and a license that names its own page
		}
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		texts = append(texts, printed{file, string(text)})
	}
	const convention = "no-color.org" // the name of the convention itself
	for _, s := range texts {
		for _, a := range address.FindAllString(s.text, -1) {
			require.Equal(t, convention, a, s.where)
		}
	}
}
