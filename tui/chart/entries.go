package chart

// entry is one item of a vertical list: a sign at the left, words, and a
// short text in a column at the right.
type entry struct {
	first, more string // signs of the first line and of those after it
	head, note  string
	right       string
}

// Limits of a list.
const (
	leastText = 12 // columns of words below which the right column moves down
	mostNote  = 60 // longer lines of prose are hard to read
)

// entries draws a list; each item is a group of lines. The right column stands
// close behind the longest text, not at the far edge of a wide window.
func (p Pen) entries(es []entry, width int) [][]string {
	left, right, text := 0, 0, 0
	for _, e := range es {
		left = max(left, columns(e.first), columns(e.more))
		right = max(right, columns(clean(e.right)))
		text = max(text, columns(clean(e.head)), min(columns(clean(e.note)), mostNote))
	}
	room := width - left - 1
	beside := right > 0 && room-right-2 >= leastText
	if beside {
		room -= right + 2
	}
	room = min(room, max(text, leastText))
	groups := make([][]string, len(es))
	for i, e := range es {
		groups[i] = p.entry(e, left, room, right, beside)
	}
	return groups
}

func (p Pen) entry(e entry, left, room, right int, beside bool) []string {
	texts := wrap(e.head, room)
	if clean(e.note) != "" {
		texts = append(texts, wrap(e.note, min(room, mostNote))...)
	}
	if !beside && clean(e.right) != "" {
		texts = append(texts, wrap(e.right, room)...)
	}
	for i, t := range texts {
		sign := e.more
		if i == 0 {
			sign = e.first
		}
		line := padRight(sign, left) + " " + t
		if i == 0 && beside {
			line = padRight(line, left+1+room) + "  " + padLeft(clean(e.right), right)
		}
		texts[i] = line
	}
	return texts
}
