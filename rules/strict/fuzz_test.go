package strict

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

func FuzzDecode(f *testing.F) {
	for _, text := range append([]string{
		allForms, tenMistakes, "version = 1\n[[place]]\nid = 'a'\ndampness = 'wet'\n",
		"a = { b.c = 1, d = [ { e = 1 }, [ 2 ] ] }", "a.b = 1\na = 2", "[a.b]\n[a]\nc = 1", "[[a]]\n[a.b]\n[[a]]\n[a.b]",
		"x = \"\"\"\\\\\"\"\"\"\"\"", "\"\" = 1", "a = nan", "a = \"\\u202e\"", "a = [1,\n2", "a = \"\"\"\nx", "a = [[[[[[", "a.b.c.d = {}",
	}, plainSamples...) {
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
		checkLines(t, tree, tree.lines, tree.values, plainText(text))
		require.True(t, sameValues(want, tree.values, text))
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

// requireRefusable holds every refusal beyond the library's to the list in the
// comment of Parse. What the values show is checked on the values; a key given
// twice and UTF-16 cannot be seen there.
func requireRefusable(t *testing.T, values map[string]any, text string, problems Problems) {
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
		require.GreaterOrEqual(t, kid.line, 1)
		require.LessOrEqual(t, kid.line, len(rows))
		require.Equal(t, kid.line, tree.Line(kid.path()...))
		if key, ok := element.(string); ok && !strings.Contains(rows[kid.line-1], `\`) {
			require.Contains(t, rows[kid.line-1], key)
		}
		checkLines(t, tree, kid, value, text)
	})
}

// sameValues compares our reading with the library's. Line ends of values
// differ by intent, and nan is not equal to itself.
func sameValues(want, got map[string]any, text string) bool {
	return strings.Contains(text, "\r") || strings.Contains(text, "nan") || reflect.DeepEqual(want, got)
}

func checkDecode(t *testing.T, text string) {
	var h, hPlain houseFile
	if _, err := Decode("f", text, &h); err == nil {
		require.NoError(t, DecodePlain(text, &hPlain))
		require.Equal(t, h, hPlain)
	} else {
		require.NotErrorIs(t, err, ErrTarget)
	}
	var r, rPlain plainFile
	if _, err := Decode("f", text, &r); err == nil {
		require.NoError(t, DecodePlain(text, &rPlain))
		require.Equal(t, r, rPlain)
	}
}
