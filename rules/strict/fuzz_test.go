package strict

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	other "github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"
)

func FuzzDecode(f *testing.F) {
	for _, text := range []string{
		allForms, tenMistakes, "version = 1\n[[place]]\nid = 'a'\ndampness = 'wet'\n",
		"a = { b.c = 1, d = [ { e = 1 }, [ 2 ] ] }", "a.b = 1\na = 2", "[a.b]\n[a]\nc = 1", "[[a]]\n[a.b]\n[[a]]\n[a.b]",
		"x = \"\"\"\\\\\"\"\"\"\"\"", "\"\" = 1", "a = nan", "a = \"\\u202e\"", "a = [1,\n2", "a = \"\"\"\nx", "a = [[[[[[", "a.b.c.d = {}",
		"[[record]]\r\nid = \"a\"\r\ntext = \"\"\"\r\ntwo\r\nlines\"\"\"\r\n",
		"\ufeff[one]\nid = 'x'\nnumber = 3\nmaybe = 4\nfour = [[1, 2.5], [3, 4]]\nrows = [[], ['a', 'b']]\nsource = 's'\nknown = 'memory'\n",
		"by.a = { id = 'a', whole = -7 }\n[by.b]\nid = 'b'\nyes = true\n[by.b.facts]\nplace = 'attic'\nlist = [1, 'x', [2]]\ntables = [{ a = 1 }]\n",
		"record = [ { id = 'a', facts = {} }, { id = 'b' } ]\nany = 1979-05-27\n", "[[any]]\nx = 1\n[[any]]\nx = [{ y = 2 }]\n",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 1<<14 {
			t.Skip("the library alone may not be given any depth")
		}
		checkAll(t, text)
	})
}

// checkAll holds every promise of Parse and Decode that can be checked without
// knowing the text.
func checkAll(t *testing.T, text string) {
	want, wantErr := libraryAlone(text)
	tree, problems := Parse("f", text)
	if wantErr != nil {
		require.NotEmpty(t, problems, "the library says %v", wantErr)
	} else if len(problems) > 0 {
		requireRefusable(t, want, text, problems)
	}
	checkProblems(t, text, problems)
	if tree.values != nil {
		checkLines(t, tree, tree.root, tree.values, tree.text)
		require.True(t, sameValues(want, tree.values, text))
	}
	if len(problems) == 0 && otherRefuses(text) == nil {
		requireAgree(t, tree)
	}
	checkDecode(t, text)
}

// Pieces of TOML in random order find the odd corners of the grammar that a
// mutation of bytes seldom reaches.
func TestRandomPieces(t *testing.T) {
	pieces := []string{
		"[", "]", "[[", "]]", "{", "}", "=", ".", ",", "a", "b", `"a"`, "'b'", `"""`, "'''", `"`, "'", `\\`, `\`, "\n", "\n", "\n", "#", " ",
		"1", "true", "a = 1\n", "b = 2\n", "[a]\n", "[b]\n", "[[a]]\n", "[[b]]\n", "[a.b]\n", "[[a.b]]\n", "[b.a.b]\n", "a.b = 1\n", "a.b.a = 1\n",
		"a = {b = 1}\n", "a = {b.a = 1, b.b = {}}\n", "a = [{b=1}, {b=2}]\n", "a = [[{b=1}]]\n", "b = []\n", "a = \"\"\"\n", `"" = `, "nan", "\r\n", `\u0041`, `\u202e`, `\ `,
	}
	rng := rand.New(rand.NewPCG(5, 6))
	read := 0
	for range randomFiles {
		var b strings.Builder
		for range 1 + rng.IntN(9) {
			b.WriteString(pieces[rng.IntN(len(pieces))])
		}
		text := b.String()
		if !t.Run("", func(t *testing.T) { checkAll(t, text) }) {
			t.Fatalf("%q", text)
		}
		if _, err := libraryAlone(text); err == nil {
			read++
		}
	}
	require.Greater(t, read, randomFiles/50, "enough of them are TOML")
}

const randomFiles = 10_000

func otherRefuses(text string) error {
	return other.Unmarshal([]byte(plainText(text)), &map[string]any{})
}

func libraryAlone(text string) (values map[string]any, err error) {
	defer func() {
		if recover() != nil {
			err = errors.New("panic")
		}
	}()
	values = map[string]any{}
	_, err = toml.Decode(text, &values)
	return values, err
}

// requireRefusable holds every refusal beyond the libraries' to the list in the
// comment of Parse. What the values show is checked on the values; a key given
// twice and UTF-16 cannot be seen there.
func requireRefusable(t *testing.T, values map[string]any, text string, problems Problems) {
	if otherRefuses(text) != nil {
		return
	}
	for _, p := range problems {
		ok := false
		switch {
		case strings.Contains(p.Found, "a second time"), strings.Contains(p.Found, "its value already"):
			ok = true
		case strings.Contains(p.Found, "UTF-16"):
			ok = strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff")
		case strings.Contains(p.Found, "more than 64 levels"):
			ok = depth(values) > MaxDepth
		case strings.Contains(p.Found, "without a name"), strings.Contains(p.Found, "the character U+"), p.Want == "a number written in digits":
			ok = odd(values)
		}
		// A value that the library drops in silence cannot show what is odd.
		require.True(t, ok || strings.Contains(problems.Error(), "a second time") || strings.Contains(problems.Error(), "its value already"), "%v", p)
	}
}

func depth(v any) int {
	deepest := 0
	each(v, func(_ any, e any) { deepest = max(deepest, 1+depth(e)) })
	return deepest
}

// odd reports whether anything in a value is of the kinds Parse refuses.
func odd(v any) bool {
	found := false
	switch v := v.(type) {
	case float64:
		return math.IsNaN(v) || math.IsInf(v, 0)
	case string:
		return strings.ContainsFunc(strings.ReplaceAll(v, "\r\n", "\n"), BadRune)
	}
	each(v, func(key, e any) {
		name, isKey := key.(string)
		found = found || odd(e) || isKey && (name == "" || badIn(name) >= 0)
	})
	return found
}

func each(v any, do func(element, value any)) {
	switch v := v.(type) {
	case map[string]any:
		for k, e := range v {
			do(k, e)
		}
	case []any:
		for i, e := range v {
			do(i, e)
		}
	case []map[string]any:
		for i, e := range v {
			do(i, e)
		}
	}
}

func checkProblems(t *testing.T, text string, problems Problems) {
	last := 1 + strings.Count(text, "\n")
	for _, p := range problems {
		require.GreaterOrEqual(t, p.Line, 0)
		require.LessOrEqual(t, p.Line, last)
		require.NotEmpty(t, p.Found)
		require.NotEmpty(t, p.Want)
		clean, changed := CleanText(p.Error())
		require.False(t, changed, "%q", clean)
		require.Less(t, len(p.Found), 400)
	}
}

// checkLines wants a line of its own for every path, and a bare key to stand
// on it.
func checkLines(t *testing.T, tree *Tree, n *node, v any, text string) {
	rows := strings.Split(text, "\n")
	each(v, func(element, value any) {
		kid := n.step(element)
		require.NotNil(t, kid, "%v %v", n.path(), element)
		line := tree.Line(kid.path()...)
		require.GreaterOrEqual(t, line, 1)
		require.LessOrEqual(t, line, len(rows))
		if key, ok := element.(string); ok && !strings.Contains(rows[line-1], `\`) {
			require.Contains(t, rows[line-1], key)
		}
		checkLines(t, tree, kid, value, text)
	})
}

// sameValues compares our reading with the library's. Line ends of values
// differ by intent, and nan is not equal to itself.
func sameValues(want, got map[string]any, text string) bool {
	return strings.Contains(text, "\r") || strings.Contains(text, "nan") || reflect.DeepEqual(want, got)
}

// checkDecode wants that what passes the check fills its struct, and that
// nothing is refused but in words for people.
func checkDecode(t *testing.T, text string) {
	for _, v := range []any{&houseFile{}, &plainFile{}} {
		if _, err := Decode("f", text, v); err != nil {
			require.IsType(t, Problems{}, err, "%q", text)
		}
	}
}

type plainFile struct {
	Records []plainRecord            `toml:"record"`
	One     *plainRecord             `toml:"one"`
	By      map[string]plainRecord   `toml:"by"`
	Lists   map[string][]plainRecord `toml:"lists"`
	Any     any                      `toml:"any"`
}

type plainRecord struct {
	ID     string           `toml:"id,required"`
	Text   string           `toml:"text"`
	Yes    bool             `toml:"yes"`
	Whole  int              `toml:"whole"`
	Number float64          `toml:"number"`
	Maybe  *float64         `toml:"maybe"`
	Four   [2][2]float64    `toml:"four"`
	Rows   [][]string       `toml:"rows"`
	Facts  map[string]any   `toml:"facts"`
	Counts map[mark]float64 `toml:"counts"`
	origin
}
