package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// unsafe is what may never reach a person: written down here a second time,
// so that the program's own idea of it is held to something.
// Sources: ECMA-48 and ISO/IEC 6429 (C0, DEL, C1), Unicode Annex 9 (direction
// marks and overrides), Unicode DerivedCoreProperties (zero-width and tag
// characters). Mark: memory.
var unsafe = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x00, Hi: 0x09, Stride: 1},
		{Lo: 0x0b, Hi: 0x1f, Stride: 1}, // a newline lays out lines
		{Lo: 0x7f, Hi: 0x9f, Stride: 1},
		{Lo: 0xad, Hi: 0xad, Stride: 1},
		{Lo: 0x61c, Hi: 0x61c, Stride: 1},
		{Lo: 0x200b, Hi: 0x200f, Stride: 1},
		{Lo: 0x2028, Hi: 0x202e, Stride: 1},
		{Lo: 0x2060, Hi: 0x206f, Stride: 1},
		{Lo: 0xfe00, Hi: 0xfe0f, Stride: 1},
		{Lo: 0xfeff, Hi: 0xfeff, Stride: 1},
	},
	R32: []unicode.Range32{{Lo: 0xe0000, Hi: 0xe0fff, Stride: 1}},
}

func requireSafe(t *testing.T, what, text string) {
	t.Helper()
	require.True(t, utf8.ValidString(text), "%s: not UTF-8", what)
	for i, r := range text {
		require.False(t, unicode.Is(unsafe, r), "%s: %U in %q", what, r, text[max(0, i-40):min(len(text), i+10)])
	}
}

// requireSafeJSON looks at what a program reads out of the JSON, since an
// escaped character is a plain one there.
func requireSafeJSON(t *testing.T, what, text string) {
	t.Helper()
	var v any
	require.NoError(t, json.Unmarshal([]byte(text), &v), what)
	var walk func(any)
	walk = func(v any) {
		switch v := v.(type) {
		case string:
			requireSafe(t, what, v)
		case []any:
			for _, x := range v {
				walk(x)
			}
		case map[string]any:
			for k, x := range v {
				requireSafe(t, what, k)
				walk(x)
			}
		}
	}
	walk(v)
}

// requireNoFormulas holds every cell to what spreadsheets take for the start
// of one. Source: CWE-1236 and the OWASP verification standard, 1.2.10 (mark:
// secondary); the wide forms (mark: memory).
func requireNoFormulas(t *testing.T, what, text string) {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	require.NoError(t, err, what)
	for _, row := range rows {
		require.Len(t, row, len(rows[0]), what)
		for _, cell := range row {
			require.NotRegexp(t, `^[\s\x00]*[=+\-@＝＋－＠]`, cell, what)
		}
	}
}

// nastyTexts are what somebody might put in a name to take over a terminal, a
// page or a table.
var nastyTexts = []string{
	"\x1b[31mred\x1b[0m", "\x1b]0;title\x07", "\u009b31m", "a\u202eb", "a\u2066b\u2069", "zero\u200bwidth", "\ufeffmark", "tag\U000e0041",
	"=1+1", "+1", "-1", "@SUM(A1)", " =1", "＝1+1", "\t=1", "'=1", "\"=1", "a,b\"c", "<script>x</script>", "[x](y)", "|x|y|", "`x`", "\r\nx", "\xff\xfe", "\x00",
}

// hostileHouse puts a text where a house file takes free text: in the names
// of the house, of a place, of a saved plan, in an id and in a reason.
func hostileHouse(text string) string {
	q := tomlText(text)
	return "version = 1\nname = " + q + "\nstage = \"framed\"\nold = false\n[site]\nstate = \"MN\"\ncounty = \"Hennepin\"\n" +
		"[[place]]\nid = \"wall\"\nkind = \"exterior-wall\"\nlabel = " + q + "\nlength_ft = 30\nheight_ft = 8\nopenings_ft2 = 40\nframing.size = \"2x6\"\nframing.spacing_in = 16\n" +
		"[[variant]]\nname = " + q + "\n[variant.priorities]\ncost = 0\n"
}

// tomlText writes a basic string with everything unusual escaped.
func tomlText(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteString("\\" + string(r))
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, "\\u%04X", r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + "\""
}

// outputCommands are the ways a house comes out.
var outputCommands = [][]string{
	{"plan", "--format", "text"},
	{"plan", "--format", "markdown"},
	{"plan", "--format", "json"},
	{"plan", "--format", "csv"},
	{"order", "--format", "text"},
	{"order", "--format", "markdown"},
	{"order", "--format", "json"},
	{"order", "--format", "csv"},
	{"order", "--ask"},
	{"compare"},
	{"handover"},
	{"handover", "--format", "markdown"},
	{"handover", "--format", "json"},
	{"check"},
}

func requireSafeRun(t *testing.T, args []string, r result) {
	t.Helper()
	what := strings.Join(args[:min(3, len(args))], " ")
	require.NotEqual(t, exitInternal, r.code, "%s: %s", what, r.stderr)
	requireSafe(t, what, r.stdout)
	requireSafe(t, what+", messages", r.stderr)
	if r.stdout == "" {
		return
	}
	switch format := args[min(2, len(args)-1)]; format {
	case "json":
		requireSafeJSON(t, what, r.stdout)
	case "csv":
		requireNoFormulas(t, what, r.stdout)
	}
}

// The same for what is typed on the command line: file names, values, words.
func TestArgumentsAreOnlyText(t *testing.T) {
	if testing.Short() {
		t.Skip("many pages, one after the other: the plain run reads them all")
	}
	t.Parallel()
	dir := t.TempDir()
	for i, text := range nastyTexts {
		for j, args := range [][]string{
			{text},
			{"plan", text},
			{"plan", filepath.Join(dir, "x"+text+".toml")},
			{"plan", "--variant", text, goodHouse},
			{"plan", "--format", text},
			{"plan", "--units", text},
			{"plan", "--priority", text},
			{"plan", "--data", text},
			{"plan", "--" + text},
			{"words", text},
			{"check", text},
			{"ask", text},
			{"handover", "--page", text},
			{"handover", "--drywall", text},
			{"order", "--width", text},
			{"completion", text},
			{"offer", text, text},
			{"inspect", goodHouse, text},
			{"compare", "--variant", text, goodHouse},
			{"tour", text},
			{"plan", goodHouse, "--out", filepath.Join(dir, "no", "such", text)},
		} {
			if i%3 != j%3 {
				continue
			}
			r := with{environ: map[string]string{"XDG_STATE_HOME": dir}}.run(args...)
			require.NotEqual(t, exitInternal, r.code, "%q: %s", args, r.stderr)
			requireSafe(t, args[0], r.stdout)
			requireSafe(t, fmt.Sprintf("messages of %q", args), r.stderr)
		}
	}
}

// Whatever stands in a name, or in the whole file, no output and no message
// carries a character that acts.
func FuzzOutputSafe(f *testing.F) {
	for i, s := range nastyTexts {
		f.Add(s, uint8(i), false)
	}
	f.Add("version = 1\nname = \"x\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nlabel = \"\\u001b[31m\"\n", uint8(2), true)
	f.Add("version = 1\n\"\\u202e\" = 1\n# \x1b\n", uint8(0), true)
	f.Fuzz(func(t *testing.T, text string, which uint8, raw bool) {
		if len(text) > 1<<12 {
			return
		}
		path := filepath.Join(t.TempDir(), "house.toml")
		house := text
		if !raw {
			house = hostileHouse(text)
		}
		require.NoError(t, os.WriteFile(path, []byte(house), 0o600))
		args := append(append([]string{}, outputCommands[int(which)%len(outputCommands)]...), path)
		requireSafeRun(t, args, runs(args...))
		args[len(args)-1] = "-"
		requireSafeRun(t, args, with{stdin: house}.run(args...))
	})
}
