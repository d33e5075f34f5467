package catalog

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"battwright/rules/strict"
)

// The lengths below, in characters, at which a search stops being useful:
// parts of words match nearly everything when they are shorter, and nothing in
// the glossary is longer.
const (
	shortestStart  = 2
	shortestInside = 3
	longestAsked   = 64
)

// FindWord looks a term up in the glossary. Capitals, dashes, spaces,
// apostrophes and plural endings do not count. The words that bear the term as
// their name or among their other names are found; else those with a name that
// starts with it, followed by those with a name that holds it further in. Where
// nothing is found, near is the term most likely meant, or "".
func (c *Catalog) FindWord(term string) (found []Word, near string) {
	if utf8.RuneCountInString(term) > longestAsked {
		return nil, ""
	}
	asked := foldTerm(term)
	if asked == "" {
		return nil, ""
	}
	names := c.foldedNames()
	if found = c.wordsNamed(names, asked); found == nil {
		found = c.wordsHolding(names, asked)
	}
	if found == nil {
		near = c.nearestTerm(term)
	}
	return found, near
}

// Terms gives the headwords of the glossary in the order of a dictionary.
func (c *Catalog) Terms() []string {
	terms := ids(c.Words(), func(w Word) string { return w.Term })
	slices.SortFunc(terms, func(a, b string) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a), strings.ToLower(b)), cmp.Compare(a, b))
	})
	return terms
}

// names are the term and its other names.
func (w Word) names() []string {
	return append([]string{w.Term}, w.Also...)
}

// foldedNames are the names of each word as a search compares them.
func (c *Catalog) foldedNames() [][]string {
	folded := make([][]string, len(c.Words()))
	for i, w := range c.Words() {
		folded[i] = ids(w.names(), foldTerm)
	}
	return folded
}

// wordsNamed finds by the whole name. Spaces are left out, so that "crawlspace"
// is "crawl space".
func (c *Catalog) wordsNamed(names [][]string, asked string) []Word {
	tight := strings.ReplaceAll(asked, " ", "")
	var found []Word
	for i, w := range c.Words() {
		if slices.ContainsFunc(names[i], func(name string) bool { return strings.ReplaceAll(name, " ", "") == tight }) {
			found = append(found, w)
		}
	}
	return found
}

// wordsHolding finds by a part of a name, its beginning first.
func (c *Catalog) wordsHolding(names [][]string, asked string) []Word {
	length := utf8.RuneCountInString(asked)
	var starting, holding []Word
	for i, w := range c.Words() {
		switch {
		case length < shortestStart:
		case slices.ContainsFunc(names[i], func(name string) bool { return strings.HasPrefix(name, asked) }):
			starting = append(starting, w)
		case length < shortestInside:
		case slices.ContainsFunc(names[i], func(name string) bool { return strings.Contains(name, asked) }):
			holding = append(holding, w)
		}
	}
	return append(starting, holding...)
}

// nearestTerm guesses by the other names too, but answers with the headword: a
// guess that is itself a misspelling would help nobody.
func (c *Catalog) nearestTerm(term string) string {
	var known []string
	headword := map[string]string{}
	for _, w := range c.Words() {
		for _, name := range w.names() {
			known = append(known, name)
			if _, taken := headword[name]; !taken {
				headword[name] = w.Term
			}
		}
	}
	return headword[strict.Nearest(strings.TrimSpace(term), known)]
}

// foldTerm leaves of a term what counts in a search: small letters and digits,
// single spaces, the last word in the singular.
func foldTerm(term string) string {
	term = strings.ReplaceAll(term, "&", " and ")
	plain := strings.Map(func(r rune) rune {
		switch {
		case r == '\'' || r == '’':
			return -1
		case unicode.IsLetter(r) || unicode.IsDigit(r):
			return unicode.ToLower(r)
		}
		return ' '
	}, term)
	words := strings.Fields(plain)
	if len(words) == 0 {
		return ""
	}
	last := len(words) - 1
	words[last] = singular(words[last])
	return strings.Join(words, " ")
}

// singular takes off a plural ending. It may be wrong about a word that only
// looks like a plural; it is wrong in the same way about the glossary, so the
// two still meet.
func singular(word string) string {
	const shortest = 4 // "gas" and "eps" are no plurals
	if len(word) < shortest {
		return word
	}
	if stem, ok := strings.CutSuffix(word, "ies"); ok {
		return stem + "y"
	}
	for _, ending := range []string{"sses", "xes", "ches", "shes"} {
		if strings.HasSuffix(word, ending) {
			return word[:len(word)-len("es")]
		}
	}
	for _, ending := range []string{"ss", "us", "is"} {
		if strings.HasSuffix(word, ending) {
			return word
		}
	}
	return strings.TrimSuffix(word, "s")
}

func ids[T any](list []T, id func(T) string) []string {
	out := make([]string, len(list))
	for i, v := range list {
		out[i] = id(v)
	}
	return out
}
