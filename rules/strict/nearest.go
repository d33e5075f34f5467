package strict

import (
	"strings"
	"unicode/utf8"
)

// Nearest gives the known word a person most likely meant by word, or "" when
// none is near. Capitals and the kind of dash do not count as differences, and
// a word that lacks only its unit ("area" for "area_ft2") is near. Of equally
// near words the earlier one in known wins.
func Nearest(word string, known []string) string {
	if utf8.RuneCountInString(word) > shown {
		return "" // no key is that long, and the comparison is quadratic
	}
	plain := fold(word)
	best, bestDistance := "", allowed(plain)+1
	for _, k := range known {
		if d := Distance(plain, fold(k)); d < bestDistance {
			best, bestDistance = k, d
		}
	}
	if best == "" {
		best = stem(plain, known)
	}
	return best
}

// allowed is how many slips a word of this length may hold before a guess is
// worse than none: half of a three-letter word is another word.
func allowed(word string) int {
	switch n := utf8.RuneCountInString(word); {
	case n <= 2:
		return 0
	case n <= 5:
		return 1
	case n <= 8:
		return 2
	}
	return 3
}

// stem finds the one known key that is word and a unit.
func stem(word string, known []string) string {
	found := ""
	for _, k := range known {
		if word != "" && strings.HasPrefix(fold(k), word+"_") {
			if found != "" {
				return ""
			}
			found = k
		}
	}
	return found
}

var folding = strings.NewReplacer("-", "_", " ", "_")

func fold(s string) string { return folding.Replace(strings.ToLower(s)) }

// Distance counts the insertions, deletions, changes and swaps of neighbors
// that make one word the other (optimal string alignment).
func Distance(one, other string) int {
	a, b := []rune(one), []rune(other)
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := 1
			if a[i-1] == b[j-1] {
				change = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+change)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}

// NearestOr is Nearest as what is wanted, or other words where nothing is near.
func NearestOr(word string, known []string, other string) string {
	if near := Nearest(word, known); near != "" {
		return near
	}
	return other
}
