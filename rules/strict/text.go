package strict

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// BadRune reports whether r may never reach a terminal: control characters,
// direction overrides, everything without a width or a picture (zero-width
// characters, fillers, variation selectors, the byte order mark), line and
// paragraph separators, surrogates, and private or unassigned code points as
// the Unicode tables of the Go release know them. Newline and tab are not bad
// in themselves: they lay out text, and CleanText makes spaces of them.
//
// Combining marks are allowed, since "é" may be written with one.
func BadRune(r rune) bool {
	if r >= ' ' && r <= '~' || r == '\n' || r == '\t' {
		return false
	}
	// IsGraphic is letters, marks, numbers, punctuation, symbols and spaces; a
	// few of its letters and marks are nevertheless invisible.
	return !unicode.IsGraphic(r) || unicode.In(r, unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector, blanks)
}

// blanks are symbols and marks that the tables call graphic though they show
// nothing: the braille pattern without dots.
var blanks = &unicode.RangeTable{R16: []unicode.Range16{{Lo: 0x2800, Hi: 0x2800, Stride: 1}}}

// CleanText makes text fit for one line of a terminal: bad characters and
// broken UTF-8 are dropped, a newline or a tab becomes a space. It says
// whether anything had to change; clean text is returned as it is.
func CleanText(s string) (clean string, changed bool) { return cleaned(s, false) }

// CleanLines is CleanText for text of several lines: newlines stay.
func CleanLines(s string) (clean string, changed bool) { return cleaned(s, true) }

func cleaned(s string, newlines bool) (string, bool) {
	at := firstUnclean(s, newlines)
	if at < 0 {
		return s, false
	}
	var b strings.Builder
	b.Grow(len(s))
	b.WriteString(s[:at])
	for i := at; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		i += size
		switch {
		case broken(r, size):
		case r == '\n' && newlines:
			b.WriteByte('\n')
		case r == '\n' || r == '\t':
			b.WriteByte(' ')
		case !BadRune(r):
			b.WriteRune(r)
		}
	}
	return b.String(), true
}

func firstUnclean(s string, newlines bool) int {
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		if broken(r, size) || r == '\t' || r == '\n' && !newlines || BadRune(r) {
			return i
		}
		i += size
	}
	return -1
}

// broken tells a byte that is not UTF-8 from a replacement character that
// really stands in the text.
func broken(r rune, size int) bool { return r == utf8.RuneError && size <= 1 }

// shown is how much of something found in a file a message repeats.
const shown = 40

// Cut shortens text to what a message repeats and cleans it.
func Cut(s string) string {
	// A value can be a megabyte: clean no more of it than can be shown.
	short, whole := head(s, 8*shown)
	clean, _ := CleanText(short)
	clean, fits := head(clean, shown)
	if whole && fits {
		return clean
	}
	clean, _ = head(clean, shown-1)
	return clean + "…"
}

// head is the first n characters of s, and whether that is all of it.
func head(s string, n int) (string, bool) {
	count := 0
	for i := range s {
		if count == n {
			return s[:i], false
		}
		count++
	}
	return s, true
}
