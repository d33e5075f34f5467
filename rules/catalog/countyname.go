package catalog

import (
	"slices"
	"strings"
	"unicode"
)

// reading is one way to understand what was typed.
type reading struct {
	key  string
	said bool // county or city was said
	city bool
}

// readings tries the whole text first, since Carson City and James City are
// whole names, then without the words that say what kind of place it is.
func readings(text string) []reading {
	text, _, _ = strings.Cut(text, ",") // "Chittenden, VT"
	words := foldWords(text)
	out := []reading{{key: strings.Join(words, "")}}
	add := func(rest []string, city bool) {
		if len(rest) > 0 {
			out = append(out, reading{key: strings.Join(rest, ""), said: true, city: city})
		}
	}
	for _, kind := range []string{"city and borough", "census area", "planning region", "county", "parish", "borough", "municipality", "co"} {
		if rest, ok := dropTail(words, strings.Fields(kind)); ok {
			add(rest, false)
		}
	}
	for _, kind := range []string{"independent city", "city"} {
		if rest, ok := dropTail(words, strings.Fields(kind)); ok {
			add(rest, true)
		}
	}
	if len(words) > 2 && words[1] == "of" {
		switch words[0] {
		case "city":
			add(words[2:], true)
		case "county", "parish", "borough", "municipality":
			add(words[2:], false)
		}
	}
	return out
}

func dropTail(words, tail []string) ([]string, bool) {
	at := len(words) - len(tail)
	if at < 0 || !slices.Equal(words[at:], tail) {
		return nil, false
	}
	return words[:at], true
}

// fold reduces a name to the letters and digits that tell it from others:
// De Kalb and DeKalb, Doña Ana and Dona Ana, Saint and St. are the same.
func fold(name string) string { return strings.Join(foldWords(name), "") }

func foldWords(name string) []string {
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch plain, accented := plainLetters[r]; {
		case accented:
			b.WriteRune(plain)
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			b.WriteRune(r)
		case r == '\'' || r == '.' || r == '\u2019' || unicode.Is(unicode.Mn, r):
			// Prince George's, St., a combining accent: no new word
		default:
			b.WriteByte(' ')
		}
	}
	words := strings.Fields(b.String())
	for i, w := range words {
		switch w {
		case "saint":
			words[i] = "st"
		case "sainte":
			words[i] = "ste"
		}
	}
	return words
}

// plainLetters covers the accents of Spanish and French place names.
var plainLetters = map[rune]rune{
	'á': 'a', 'à': 'a', 'â': 'a', 'ä': 'a', 'ç': 'c', 'é': 'e', 'è': 'e', 'ê': 'e', 'ë': 'e',
	'í': 'i', 'î': 'i', 'ï': 'i', 'ñ': 'n', 'ó': 'o', 'ô': 'o', 'ö': 'o', 'ú': 'u', 'ù': 'u', 'û': 'u', 'ü': 'u',
}
