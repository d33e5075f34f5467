package chart

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// clean makes a text safe to place in a line: one line, single spaces, no
// control character that could move the cursor, no sign that turns the
// direction of writing for the rest of the line. A no-break space stays.
func clean(s string) string {
	var b strings.Builder
	space := false
	for _, r := range strings.ToValidUTF8(s, "?") {
		switch {
		case r != '\u00a0' && (unicode.IsSpace(r) || unicode.IsControl(r)):
			space = true
		case unicode.Is(unicode.Bidi_Control, r):
		default:
			if space && b.Len() > 0 {
				b.WriteByte(' ')
			}
			space = false
			b.WriteRune(r)
		}
	}
	return b.String()
}

// fits reports whether s may stand in that many columns. The length in bytes
// is bounded too: signs that take no column could go on for ever.
func (p Pen) fits(s string, cells int) bool {
	return len(s) <= 32*cells+64 && p.Measure(s) <= cells
}

// take splits off as many runes as fit into cells. Whole prefixes are
// measured, since a rune may widen the one before it. A rune that fits nowhere
// is replaced, so that a split always gets on.
func (p Pen) take(s string, cells int) (head, rest string) {
	for end := 0; end < len(s); {
		_, size := utf8.DecodeRuneInString(s[end:])
		if !p.fits(s[:end+size], cells) {
			if end == 0 {
				return "?", s[size:]
			}
			return s[:end], s[end:]
		}
		end += size
	}
	return s, ""
}

// wrap breaks a text at its spaces into lines of at most cells columns; a word
// longer than that is split between runes. There is always one line.
func (p Pen) wrap(s string, cells int) []string { return p.flow(s, cells, cells) }

// flow is wrap with a room of its own for the first line.
func (p Pen) flow(s string, first, more int) []string {
	var lines []string
	room := func() int {
		if len(lines) == 0 {
			return max(first, 1)
		}
		return max(more, 1)
	}
	line := ""
	for word := range strings.SplitSeq(clean(s), " ") {
		if line != "" {
			if p.fits(line+" "+word, room()) {
				line += " " + word
				continue
			}
			lines = append(lines, line)
		}
		for !p.fits(word, room()) {
			var head string
			head, word = p.take(word, room())
			lines = append(lines, head)
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// hang wraps a text with one indent for the first line and one for the rest.
func (p Pen) hang(s string, width int, first, more string) []string {
	lines := p.flow(s, width-p.Measure(first), width-p.Measure(more))
	for i := range lines {
		if i == 0 {
			lines[i] = first + lines[i]
			continue
		}
		lines[i] = more + lines[i]
	}
	return lines
}

func (p Pen) padRight(s string, cells int) string {
	return s + blank(cells-p.Measure(s))
}

func (p Pen) padLeft(s string, cells int) string {
	return blank(cells-p.Measure(s)) + s
}

func (p Pen) center(s string, cells int) string {
	return p.padRight(blank((cells-p.Measure(s))/2)+s, cells)
}

func blank(cells int) string { return strings.Repeat(" ", max(cells, 0)) }

func (p Pen) widest(texts []string) int {
	w := 0
	for _, t := range texts {
		w = max(w, p.Measure(t))
	}
	return w
}
