package report

import (
	"strings"

	"battwright/rules/strict"
)

// writer lays out plain text of a fixed width. It is the last gate before a
// terminal: nothing passes it uncleaned.
type writer struct {
	b     strings.Builder
	width int
	aloud bool // read out: no columns
}

const labelWidth = 8

// clean and cleanAll are the same gate for the forms without lines.
func clean(s string) string {
	s, _ = strict.CleanText(s)
	return s
}

func cleanAll(list []string) []string {
	out := make([]string, 0, len(list))
	for _, s := range list {
		out = append(out, clean(s))
	}
	return out
}

func (t *writer) String() string { return t.b.String() }

func (t *writer) blank() { t.b.WriteByte('\n') }

func (t *writer) line(s string) {
	clean, _ := strict.CleanText(s)
	t.b.WriteString(strings.TrimRight(clean, " "))
	t.b.WriteByte('\n')
}

func (t *writer) heading(s, rule string) {
	if t.b.Len() > 0 {
		t.blank()
	}
	for _, l := range Wrap(s, t.width) {
		t.line(l)
	}
	t.line(strings.Repeat(rule, t.width))
}

func (t *writer) para(s string) {
	for _, l := range Wrap(s, t.width) {
		t.line(l)
	}
}

func (t *writer) item(head, s string) {
	for i, l := range Wrap(head+s, t.width-4) {
		if i == 0 {
			t.line("  " + l)
			continue
		}
		t.line("    " + l)
	}
}

func (t *writer) labelled(label, s string) {
	for i, l := range Wrap(s, t.width-labelWidth) {
		if i > 0 {
			label = ""
		}
		t.line(pad(label, labelWidth) + l)
	}
}

// drawing puts lines as they are, with room around them.
func (t *writer) drawing(lines []string) {
	if len(lines) == 0 {
		return
	}
	t.blank()
	for _, l := range lines {
		t.line(l)
	}
	t.blank()
}

func (t *writer) list(title string, items []string) {
	if len(items) == 0 {
		return
	}
	t.heading(title, "-")
	for _, s := range items {
		t.item("", s)
	}
}

func pad(s string, width int) string {
	if n := width - len([]rune(s)); n > 0 {
		return s + strings.Repeat(" ", n)
	}
	return s
}

// Wrap breaks a text into lines of at most width runes, at spaces where it
// can. All our own words are one column a rune; names from files are cleaned
// before they are shown.
func Wrap(s string, width int) []string {
	if width < 1 {
		width = 1
	}
	var lines []string
	var cur []rune
	flush := func() { lines, cur = append(lines, string(cur)), nil }
	for _, word := range strings.Fields(s) {
		w := []rune(word)
		for len(w) > width {
			if len(cur) > 0 {
				flush()
			}
			lines, w = append(lines, string(w[:width])), w[width:]
		}
		switch {
		case len(cur) == 0:
			cur = append(cur, w...)
		case len(cur)+1+len(w) <= width:
			cur = append(append(cur, ' '), w...)
		default:
			flush()
			cur = append(cur, w...)
		}
	}
	if len(cur) > 0 || len(lines) == 0 {
		flush()
	}
	return lines
}
