package strict

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// p makes a path.
func p(path ...any) []any { return path }

// Every form of key and value in the TOML grammar (toml.abnf of the format's
// repository, read in its draft; versions 1.0 and 1.1 from memory). The lines
// are counted by hand.
const allForms = `# line 1
bare-key_1 = 1
"quoted key" = 2
'literal key' = 3
a.b . "c.d" = 4
a.e = 5

text = """
first
second \
    joined""" # line 11
raw = '''
'' not closed'''''
list = [ # line 14
  1,
  2, 3, # three

  [ 4,
    5 ],
]
point = { x = 1, y.z = "}", w = [ { deep = true } ] }
"\u0041" = "A"
[table]
k = "# no comment"
[table.sub."x.y"]
k = ["]", '[', """]
"""]
[[many]]
n = 1
[[many]]
n = 2
[many.inner]
q = 1979-05-27 07:32:00
[[many.more]]
r = -1_000.5e+3
[[many.more]]
r = 0xFF
[late.sub]
z = 1
[late]
y = 2
`

func TestLinesOfAllForms(t *testing.T) {
	tree, problems := Parse("f.toml", allForms)
	require.Empty(t, problems)
	for _, c := range []struct {
		path []any
		line int
	}{
		{p("bare-key_1"), 2},
		{p("quoted key"), 3},
		{p("literal key"), 4},
		{p("a"), 5},
		{p("a", "b", "c.d"), 5},
		{p("a", "e"), 6},
		{p("text"), 8},
		{p("raw"), 12},
		{p("list"), 14},
		{p("list", 0), 15},
		{p("list", 1), 16},
		{p("list", 2), 16},
		{p("list", 3), 18},
		{p("list", 3, 0), 18},
		{p("list", 3, 1), 19},
		{p("point", "x"), 21},
		{p("point", "y", "z"), 21},
		{p("point", "w", 0, "deep"), 21},
		{p("A"), 22},
		{p("table"), 23},
		{p("table", "k"), 24},
		{p("table", "sub"), 25},
		{p("table", "sub", "x.y"), 25},
		{p("table", "sub", "x.y", "k", 1), 26},
		{p("table", "sub", "x.y", "k", 2), 26},
		{p("many"), 28},
		{p("many", 0), 28},
		{p("many", 0, "n"), 29},
		{p("many", 1), 30},
		{p("many", 1, "n"), 31},
		{p("many", 1, "inner"), 32},
		{p("many", 1, "inner", "q"), 33},
		{p("many", 1, "more", 0), 34},
		{p("many", 1, "more", 0, "r"), 35},
		{p("many", 1, "more", 1), 36},
		{p("many", 1, "more", 1, "r"), 37},
		{p("late", "sub"), 38},
		{p("late", "sub", "z"), 39},
		{p("late"), 40},
		{p("late", "y"), 41},
		// Absent: the nearest parent.
		{p(), 0},
		{p("none"), 0},
		{p("table", "none"), 23},
		{p("many", 1, "none", 4), 30},
		{p("many", 9), 28},
		{p("many", -1), 28},
		{p("list", "x"), 14},
	} {
		require.Equal(t, c.line, tree.Line(c.path...), "%v", c.path)
	}
}

func TestTree(t *testing.T) {
	tree, problems := Parse("f.toml", allForms)
	require.Empty(t, problems)
	require.Equal(t, "f.toml", tree.File)
	require.True(t, tree.HasComments())

	get := func(path ...any) any {
		v, ok := tree.Get(path...)
		require.True(t, ok, "%v", path)
		return v
	}
	require.Equal(t, "first\nsecond joined", get("text"))
	require.Equal(t, "'' not closed''", get("raw"))
	require.Equal(t, int64(5), get("list", 3, 1))
	require.Equal(t, true, get("point", "w", 0, "deep"))
	require.Equal(t, -1000500.0, get("many", 1, "more", 0, "r"))
	require.IsType(t, time.Time{}, get("many", 1, "inner", "q"))
	require.Len(t, get("many"), 2)
	for _, path := range [][]any{p("none"), p("text", 0), p("list", 9), p("list", -1), p("many", 2), p("list", "0"), p("point", 0), p(1.5), p("table", nil)} {
		_, ok := tree.Get(path...)
		require.False(t, ok, "%v", path)
	}

	require.Equal(t, []string{"bare-key_1", "quoted key", "literal key", "a", "text", "raw", "list", "point", "A", "table", "many", "late"}, tree.Keys())
	require.Equal(t, []string{"x", "y", "w"}, tree.Keys("point"), "order within a line")
	require.Equal(t, []string{"n", "inner", "more"}, tree.Keys("many", 1))
	require.Equal(t, []string{"sub", "y"}, tree.Keys("late"))
	require.Empty(t, tree.Keys("text"))
	require.Empty(t, tree.Keys("none"))
	require.Empty(t, tree.Keys("list", 0))

	for text, want := range map[string]bool{"": false, "a = '#'": false, "a = \"\"\"\n# no\n\"\"\"": false, "'#' = 1": false, "a = 1 # yes": true, "# yes": true, "a = [ # yes\n]": true} {
		tree, problems := Parse("f", text)
		require.Empty(t, problems, text)
		require.Equal(t, want, tree.HasComments(), text)
	}
	var none *Tree
	require.Zero(t, none.Line("a"))
	require.Empty(t, none.Keys())
	require.False(t, none.HasComments())
}

func TestLineEndsAndByteOrderMark(t *testing.T) {
	plain, problems := Parse("f", allForms)
	require.Empty(t, problems)
	for _, text := range []string{strings.ReplaceAll(allForms, "\n", "\r\n"), "\ufeff" + allForms} {
		tree, problems := Parse("f", text)
		require.Empty(t, problems)
		require.Equal(t, plain.values, tree.values)
		require.Equal(t, 33, tree.Line("many", 1, "inner", "q"))
	}
}

// What the format forbids, with the line where a person must look. Each text
// is wrong in one place only.
func TestSyntaxLines(t *testing.T) {
	for _, c := range []struct {
		text string
		line int
		want string
	}{
		{"a = 1\nb = big\nc = 3\n", 2, "text between quote marks"},
		{"a = 1\nb =\nc = 3\n", 2, "after the equals sign"},
		{"a = 1\nb", 2, "key = value"},
		{"a = 1\nsquare feet = 3\nc = 1\n", 2, "key in one word"},
		{"a = 1\n= 3\n", 2, "before the equals sign"},
		{"a = 1\na = 2\n", 2, "first is on line 1"},
		{"[t]\na = 1\n[u]\n[t]\n", 4, "once"},
		{"[[t]]\na = 1\n[[t]]\na = 1\na = 2\n", 5, "first is on line 4"},
		{"a = [1\n[b]\n", 2, "[ of line 1"},
		{"a = [1,\n2,\n", 1, "closing ]"},
		{"a = 1\nb = { c = 1,\n d = [ 2, 3 ]\n", 2, "closing }"},
		{"a = 1\nb = \"\"\"\nx\ny\n", 2, `closing """`},
		{"a = 1\nb = '''x\n\n\n", 2, "closing '''"},
		{"a = 1\nb = \"x\nc = 2\n", 2, "same line"},
		{"a = 1\nb = \"x", 2, `closing "`},
		{"a = 1\nb = \"\"\"\nx\n\\q\ny\"\"\"\n", 4, `\\`},
		{"a = 1\nb = \"\"\"\nx\ny\\ z\"\"\"\nc = 1\n", 4, `\\`},
		{"a = 1\nb = \"\"\"\nx\"\"\"\"\"\"\n", 3, "three quote marks"},
		{"a = 'C:\\x'\nb = \"C:\\x\"\n", 2, `\\`},
		{"a = 1\nb = \"\\uD800\"\n", 2, `\\`},
		{"a = 1\nb = 007\n", 2, "without zeroes"},
		{"a = 1\nb = 1__0\n", 2, "_"},
		{"a = 1\nb = .5\n", 2, "0.5"},
		{"a = 1\nb = 5.\n", 2, "2.5"},
		{"a = 1\nb = 99999999999999999999\n", 2, "not so large"},
		{"a = 1\nb = 1e999\n", 2, "not so large"},
		{"a = 1\nb = 2025-13-01\n", 2, "2025-03-31"},
		{"a = 1\nb = 7 1/4\n", 2, "text between quote marks"},
		{"a = 1\nb = 0xZZ\n", 2, "plain digits"},
		{"a = 1\nb = 1.2.3\n", 2, "plain digits"},
		{"a = 1\nb = -\n", 2, "plain digits"},
		{"a = 1\nb = truex\n", 2, "after the equals sign"},
		{"a = 1\nb = 2025-03-31;\n", 2, "on each line"},
		{"a = [\n 1,\n 2.,\n]\n", 3, "[ of line 1"},
		{"a = { b: 1 }\n", 1, "key in one word"},
		{"a = { b = 1 c = 2 }\n", 1, "closing }"},
		{"a = \"\\u20\"\nb = 1\n", 1, `\\`},
		{"a = 1\n[]\n", 2, "[site]"},
		{"a = 1\n[b\n", 2, "[site]"},
		{"a = 1\n[[b]\n", 2, "[[place]]"},
		{"a = [\n 1,,\n]\n", 2, "comma"},
		{"a = [\n 1\n 2\n]\n", 3, "comma"},
		{"a = 1 b = 2\n", 1, "on each line"},
		{"[a] b = 2\n", 1, "on each line"},
		{"a = 1\na.b = 2\n", 2, "on line 1"},
		{"a = [1]\n[[a]]\n", 2, "on line 1"},
	} {
		tree, problems := Parse("f", c.text)
		require.Len(t, problems, 1, "%q", c.text)
		require.Equal(t, c.line, problems[0].Line, "%q: %v", c.text, problems)
		require.Contains(t, problems[0].Want, c.want, "%q: %v", c.text, problems)
		require.NotContains(t, problems.Error(), "EOF", "%q", c.text)
		_, ok := tree.Get()
		require.False(t, ok)
	}
}

// What the format allows and this package refuses.
func TestExtraRefusals(t *testing.T) {
	brackets := func(n int) string { return strings.Repeat("[", n) + strings.Repeat("]", n) }
	for _, c := range []struct {
		text  string
		line  int
		found string
		key   string
	}{
		{"a = 1\n\"\" = 2\n", 2, "without a name", `""`},
		{"[t]\nx = { a.'' = 2 }\n", 2, "without a name", `t.x.a.""`},
		{"a = 1\nb = \"x\u202Ey\"\n", 2, "U+202E", "b"},
		{"a = 1\nb = [\n \"x\",\n \"\\u001b[2J\",\n]\n", 4, "U+001B", "b[2]"},
		{"[[t]]\n[[t]]\nb = '''\nx\n\u200b'''\n", 5, "U+200B", "t[2].b"},
		{"a = \"\"\"\nx\n\\r\"\"\"\n", 3, "U+000D", "a"},
		{"a = 1\n\"x\\u2066y\" = 1\n", 2, "U+2066", `"xy"`},
		{"a = 1\n\"x\\ny\" = 1\n", 2, "U+000A", `"x y"`},
		{"a = 1\nb = [1.0, -inf]\n", 2, "-inf", "b[2]"},
		{"a = { x = nan }\n", 1, "nan", "a.x"},
		{"a.b = 1\na = 2\n", 2, "a second time", "a"},
		{"a = { b = 1 }\na.c = 2\n", 2, "its value already", "a"},
		{"a = 1\nb = [[ { c = 1 } ]]\nb.c.d = 1\n", 3, "its value already", "b"},
		{"a = 1\nb = " + brackets(MaxDepth+1) + "\n", 2, "more than 64", ""},
		{"a = 1\n" + strings.Repeat("b.", MaxDepth) + "b = 1\n", 2, "more than 64", ""},
		{"a = 1\n[" + strings.Repeat("b.", MaxDepth) + "b]\n", 2, "more than 64", ""},
		{"a = 1\nb = " + strings.Repeat("{c=", MaxDepth) + "1" + strings.Repeat("}", MaxDepth), 2, "more than 64", ""},
		{"a = 1\nb = \x00\n", 2, "U+0000", ""},
		{"a = 1\n# \x1b\nb = \x07\n", 2, "U+001B", ""},
		{"a = 1\r\rb = 2\n", 1, "U+000D", ""},
		{"a = 1\nb = \"\xff\"\n", 2, "0xFF", ""},
		{"\xff\xfea\x00", 1, "UTF-16", ""},
		{strings.Repeat("#\n", MaxBytes/2) + "#", 0, fmt.Sprint(MaxBytes + 1), ""},
	} {
		_, problems := Parse("f", c.text)
		require.NotEmpty(t, problems, "%q", c.text)
		require.Equal(t, c.line, problems[0].Line, "%v", problems)
		require.Contains(t, problems[0].Found, c.found)
		require.Equal(t, c.key, problems[0].Key)
		require.NotEmpty(t, problems[0].Want)
	}
	for _, text := range []string{
		"a = " + brackets(MaxDepth), strings.Repeat("b.", MaxDepth-1) + "b = 1", strings.Repeat("#\n", MaxBytes/2),
		"a = \"\uFFFD é \\t \\n\"", "# \u202e in a comment is nobody's business", "information = 1\nnan_ = 2",
	} {
		_, problems := Parse("f", text)
		require.Empty(t, problems)
	}
}

// A bracket a line could hold by the hundred thousand must not reach the
// library, which recurses: the stack would end the program.
func TestHugeNestingIsRefusedEarly(t *testing.T) {
	for _, open := range []string{"[", "{a=", "a."} {
		for _, before := range []string{"a = ", "a = 1\n", "x = ? ", "x = \"\"\"\\q", "x = [ \"\n", ""} {
			_, problems := Parse("f", before+strings.Repeat(open, 200_000))
			require.NotEmpty(t, problems)
		}
	}
}

func TestAllBadCharactersAtOnce(t *testing.T) {
	_, problems := Parse("f", "a = \"\u200b\"\nb = \"ok\"\n\"\" = 1\nc = ['\u2028', '\u2029']\nd = nan\n")
	var lines []int
	for _, p := range problems {
		lines = append(lines, p.Line)
	}
	require.Equal(t, []int{1, 3, 4, 4, 5}, lines)
}

func TestProblemText(t *testing.T) {
	for want, p := range map[string]Problem{
		`house.toml:12: place[1].area_ft2: found "big"; want a number of square feet`: {"house.toml", 12, "place[1].area_ft2", `"big"`, "a number of square feet"},
		`house.toml: version: found nothing; want version = 1`:                        {"house.toml", 0, "version", "nothing", "version = 1"},
		`h.toml:3: aera: found a key; did you mean area?`:                             {"h.toml", 3, "aera", "a key", "did you mean area?"},
		`h.toml:3: want a file`: {"h.toml", 3, "", "", "a file"},
		`h x.toml:3: found y`:   {"h\nx\x1b.toml", 3, "", "y\u202e", ""},
	} {
		require.Equal(t, want, p.Error())
	}
	ps := Problems{{File: "b", Line: 1}, {File: "a", Line: 9}, {File: "a", Line: 2, Key: "y"}, {File: "a", Line: 2, Key: "x"}}
	ps.Sort()
	require.Equal(t, Problems{{File: "a", Line: 2, Key: "x"}, {File: "a", Line: 2, Key: "y"}, {File: "a", Line: 9}, {File: "b", Line: 1}}, ps)
	require.Equal(t, "a:2: x\na:2: y\na:9\nb:1", ps.Error())
}
