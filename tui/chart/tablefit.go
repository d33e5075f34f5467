package chart

import "slices"

// mostWord is the longest word that a column makes room for; longer ones,
// such as addresses, are split rather than costing the whole table its shape.
const mostWord = 16

// columns finds the width of each column, or nil when even the longest words
// do not fit beside one another.
func (p Pen) columns(headers []string, rows [][]string, width int, o TableOpts) []int {
	want, least := p.columnNeeds(headers, rows, o)
	room := width - columnGap*(len(want)-1)
	if sum(want) <= room {
		return want
	}
	if sum(least) > room {
		return nil
	}
	return shareRoom(want, least, room)
}

// columnNeeds gives for each column the width at which nothing wraps and the
// least at which no word is cut.
func (p Pen) columnNeeds(headers []string, rows [][]string, o TableOpts) (want, least []int) {
	want, least = make([]int, len(headers)), make([]int, len(headers))
	for c := range headers {
		texts := []string{headers[c]}
		for _, r := range rows {
			texts = append(texts, r[c])
		}
		want[c] = max(p.widest(texts), 1)
		word := 1
		for _, t := range texts {
			word = max(word, p.longestWord(t))
		}
		least[c] = min(word, mostWord, want[c])
		if slices.Contains(o.Keep, c) {
			least[c] = want[c]
		}
	}
	return want, least
}

// shareRoom hands out the room column by column to the one that would otherwise
// wrap into the most lines; equal needs go to the left.
func shareRoom(want, least []int, room int) []int {
	got := slices.Clone(least)
	for left := room - sum(got); left > 0; left-- {
		neediest, need := -1, 1.0
		for c := range got {
			if n := float64(want[c]) / float64(got[c]); n > need {
				neediest, need = c, n
			}
		}
		if neediest < 0 {
			break
		}
		got[neediest]++
	}
	return got
}

func sum(n []int) int {
	total := 0
	for _, v := range n {
		total += v
	}
	return total
}
