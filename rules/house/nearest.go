package house

import (
	"strconv"
	"strings"
)

// nearestNumber finds the known words that differ from a word in one number
// only, and in it the least: 2x6 and 2x8 for 2x7. A slip of the key is as likely
// on any digit, but a size that does not exist lies between two that do.
func nearestNumber(word string, known []string) []string {
	var best []string
	least := -1
	for _, k := range known {
		d, ok := numberApart(strings.ToLower(word), k)
		switch {
		case !ok || least >= 0 && d > least:
		case d == least:
			best = append(best, k)
		default:
			best, least = []string{k}, d
		}
	}
	return best
}

// numberApart is by how much two words of the same letters differ in the one
// number in which they differ.
func numberApart(a, b string) (int, bool) {
	an, at := numbersOf(a)
	bn, bt := numbersOf(b)
	if at != bt || len(an) != len(bn) {
		return 0, false
	}
	by, differ := 0, 0
	for i := range an {
		if d := an[i] - bn[i]; d != 0 {
			differ++
			by = max(d, -d)
		}
	}
	return by, differ == 1
}

// numbersOf takes the whole numbers out of a word and leaves a mark for each.
func numbersOf(s string) (list []int, rest string) {
	for s != "" {
		digits := s[:len(s)-len(strings.TrimLeft(s, "0123456789"))]
		if digits == "" {
			rest, s = rest+s[:1], s[1:]
			continue
		}
		n, err := strconv.Atoi(digits)
		if err != nil {
			return nil, rest + s
		}
		list, rest, s = append(list, n), rest+"#", s[len(digits):]
	}
	return list, rest
}

// yearIn reports whether a label such as "2012 to 2018" names or spans a year.
func yearIn(label, typed string) bool {
	year, err := strconv.Atoi(typed)
	if err != nil || len(typed) != 4 {
		return false
	}
	words := strings.Fields(label)
	for i, w := range words {
		from, err := strconv.Atoi(w)
		if err != nil || len(w) != 4 {
			continue
		}
		if from == year {
			return true
		}
		if i+2 < len(words) && words[i+1] == "to" {
			if to, err := strconv.Atoi(words[i+2]); err == nil && from < year && year <= to {
				return true
			}
		}
	}
	return false
}
