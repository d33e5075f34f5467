package strict

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// The code points and what they are: the Unicode Standard's code charts and,
// for the direction controls, its annex 9 (memory).
var codePoints = []struct {
	r    rune
	bad  bool
	what string
}{
	{'a', false, "letter"},
	{'é', false, "letter"},
	{'ß', false, "letter"},
	{'½', false, "fraction"},
	{'°', false, "degree sign"},
	{'…', false, "ellipsis"},
	{'─', false, "box drawing"},
	{0x0301, false, "combining acute accent"},
	{0x00A0, false, "no-break space"},
	{'中', false, "ideograph"},
	{0x1F600, false, "emoji"},
	{utf8.RuneError, false, "replacement character, typed"},
	{'\n', false, "newline"},
	{'\t', false, "tab"},
	{' ', false, "space"},
	{'~', false, "last of ASCII"},
	{0x00, true, "null"},
	{0x07, true, "bell"},
	{0x08, true, "backspace"},
	{'\r', true, "carriage return"},
	{0x1B, true, "escape"},
	{0x7F, true, "delete"},
	{0x85, true, "next line"},
	{0x9B, true, "control sequence introducer"},
	{0xAD, true, "soft hyphen"},
	{0x061C, true, "Arabic letter mark"},
	{0x200B, true, "zero width space"},
	{0x200C, true, "zero width non-joiner"},
	{0x200D, true, "zero width joiner"},
	{0x200E, true, "left-to-right mark"},
	{0x200F, true, "right-to-left mark"},
	{0x2028, true, "line separator"},
	{0x2029, true, "paragraph separator"},
	{0x202A, true, "left-to-right embedding"},
	{0x202B, true, "right-to-left embedding"},
	{0x202C, true, "pop directional formatting"},
	{0x202D, true, "left-to-right override"},
	{0x202E, true, "right-to-left override"},
	{0x2060, true, "word joiner"},
	{0x2066, true, "left-to-right isolate"},
	{0x2067, true, "right-to-left isolate"},
	{0x2068, true, "first strong isolate"},
	{0x2069, true, "pop directional isolate"},
	{0x034F, true, "combining grapheme joiner"},
	{0x115F, true, "Hangul filler"},
	{0x3164, true, "Hangul filler"},
	{0xFFA0, true, "halfwidth Hangul filler"},
	{0x180E, true, "Mongolian vowel separator"},
	{0x2800, true, "braille blank"},
	{0xFE0F, true, "variation selector"},
	{0xE0100, true, "variation selector"},
	{0xFEFF, true, "byte order mark"},
	{0xFFF9, true, "interlinear annotation"},
	{0xE0041, true, "tag letter"},
	{0xD800, true, "surrogate"},
	{0xDFFF, true, "surrogate"},
	{0xE000, true, "private use"},
	{0x10FFFD, true, "private use"},
	{0xFFFE, true, "noncharacter"},
	{0xFFFF, true, "noncharacter"},
	{0x0378, true, "unassigned"},
	{-1, true, "no character"},
	{utf8.MaxRune + 1, true, "no character"},
}

func TestBadRune(t *testing.T) {
	for _, c := range codePoints {
		require.Equal(t, c.bad, BadRune(c.r), "U+%04X %s", c.r, c.what)
	}
}

func TestCleanText(t *testing.T) {
	for _, c := range []struct{ in, line, lines string }{
		{"", "", ""},
		{"Attic 7 ½ in, café", "Attic 7 ½ in, café", "Attic 7 ½ in, café"},
		{"a\tb\nc", "a b c", "a b\nc"},
		{"a\r\nb", "a b", "a\nb"},
		{"\x1b[31mred\x1b[0m", "[31mred[0m", "[31mred[0m"},
		{"user\u202Egnp", "usergnp", "usergnp"},
		{"\ufeffname", "name", "name"},
		{"a\xffb\xc3", "ab", "ab"},
		{"a\uFFFDb", "a\uFFFDb", "a\uFFFDb"},
		{"\x9b", "", ""},
		{"\xed\xa0\x80x", "x", "x"}, // a surrogate in UTF-8's clothes
	} {
		got, changed := CleanText(c.in)
		require.Equal(t, c.line, got, "%q", c.in)
		require.Equal(t, c.line != c.in, changed, "%q", c.in)
		got, changed = CleanLines(c.in)
		require.Equal(t, c.lines, got, "%q", c.in)
		require.Equal(t, c.lines != c.in, changed, "%q", c.in)
	}
}

func TestCutKeepsAMessageShort(t *testing.T) {
	require.Equal(t, strings.Repeat("x", shown), Cut(strings.Repeat("x", shown)))
	require.Equal(t, strings.Repeat("é", shown-1)+"…", Cut(strings.Repeat("é", shown+1)))
	require.Equal(t, "…", Cut(strings.Repeat("\u200b", 1<<20)))
	require.Equal(t, "a b", Cut("a\u200b\nb"))
}

func FuzzCleanText(f *testing.F) {
	for _, s := range []string{"plain", "a\tb\r\nc", "\x1b[2J", "a\u202Eb\u2066", "\xff\xfe", "e\u0301\ufe0f", "\ufeff\u2028"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, clean := range []func(string) (string, bool){CleanText, CleanLines} {
			got, changed := clean(s)
			require.True(t, utf8.ValidString(got))
			require.Equal(t, got != s, changed)
			if at := strings.IndexFunc(got, BadRune); at >= 0 {
				t.Fatalf("%q keeps a bad character at %d", got, at)
			}
			again, changed := clean(got)
			require.False(t, changed)
			require.Equal(t, got, again)
		}
		got, _ := CleanText(s)
		require.NotContains(t, got, "\n")
		require.LessOrEqual(t, utf8.RuneCountInString(Cut(s)), shown)
	})
}
