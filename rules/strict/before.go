package strict

import (
	"regexp"
	"sync"
)

// What is wrong with a text that is no TOML is told from what stands before
// and at the place where the parser stopped, not from its words: those are for
// people who know the format, and change with the library.

// token is a text, comment, sign or word before such a place.
type token struct {
	text string
	at   int
	open string // the quote marks of a text that is not closed
}

var tokens = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?s)"""(?:\\.|[^\\])*?"{3,5}|'''.*?'{3,5}|("""|''').*|` +
		`"(?:\\.|[^"\\\n])*"|'[^'\n]*'|(["']).*|#[^\n]*|[][{}=,\n]|[^][{}=,\s"'#]+`)
})

func tokensOf(text string, from int) (all []token) {
	text = text[from:]
	for _, m := range tokens().FindAllStringSubmatchIndex(text, -1) {
		k := token{text: text[m[0]:m[1]], at: from + m[0]}
		for _, group := range [][]int{m[2:4], m[4:6]} {
			if group[0] >= 0 {
				k.open = text[group[0]:group[1]]
			}
		}
		all = append(all, k)
	}
	return all
}

// before is where in the grammar a place of a text is.
type before struct {
	open   []token // lists and tables not closed yet
	quote  token   // the text that the place is in, if it is
	last   token   // of this line, or of the open list
	header bool    // in [table] or [[table]]
	value  bool    // behind an equals sign or a closing bracket
}

// beforeOf reads on from the end of the last line that was understood.
func beforeOf(text string, from int) (b before) {
	for _, k := range tokensOf(text, from) {
		switch {
		case k.open != "":
			b.quote = k
		case k.text[0] == '#':
			continue
		case k.text == "\n":
			if len(b.open) > 0 {
				continue
			}
			k, b.value, b.header = token{}, false, false
		case k.text == "[" || k.text == "{":
			b.header = b.header || k.text == "[" && b.last.text == "" && len(b.open) == 0
			b.open = append(b.open, k)
			b.value = b.value && k.text == "["
		case k.text == "]" || k.text == "}":
			b.open = b.open[:max(len(b.open)-1, 0)]
			b.header = b.header && len(b.open) > 0
			b.value = true
		case k.text == "=":
			b.value = true
		case k.text == ",":
			b.value = b.value && b.inner() != "{"
		}
		b.last = k
	}
	return b
}

// inner is the bracket that was opened last, "" outside of all.
func (b before) inner() string {
	if len(b.open) == 0 {
		return ""
	}
	return b.open[len(b.open)-1].text
}
