package strict

import (
	"cmp"
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/BurntSushi/toml"
)

// refusal tells what is wrong where the parser stopped; it understood all up to
// from.
func (t *Tree) refusal(from, stop int) Problem {
	b := beforeOf(t.text[:stop], from)
	if len(b.open) > MaxDepth {
		return t.tooDeep(b.open[MaxDepth].at)
	}
	if stop == len(t.text) && !b.header {
		switch {
		case b.quote.open != "":
			return t.unclosed(b.quote.at, b.quote.open, b.quote.open)
		case b.inner() != "":
			return t.unclosed(b.open[len(b.open)-1].at, b.inner(), map[string]string{"[": "]", "{": "}"}[b.inner()])
		}
	}
	p := t.refused(stop, b.wanted(t.text+"\n", stop))
	if n := len(b.open); n > 0 {
		if line := t.lineAt(b.open[n-1].at); line < p.Line {
			p.Want += fmt.Sprintf(" (the %s of line %d is still open)", b.inner(), line)
		}
	}
	return p
}

// refusedValue tells what is wrong with a text that is TOML by its grammar.
func (t *Tree) refusedValue(err error) Problem {
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		return Problem{File: t.File, Found: "text that cannot be read", Want: "lines like key = value, [table] or [[table]]"}
	}
	at := min(max(parse.Position.Start, 0), len(t.text))
	want := "each key and each [table] once"
	switch word := wordAt(t.text+"\n", at); {
	case like(date, word):
		want = wantDate
	case like(`^[+-]?\d`, word):
		want = "a number that is not so large"
	}
	return t.refused(at, want)
}

func (t *Tree) refused(at int, want string) Problem {
	line := t.lineAt(at)
	return Problem{File: t.File, Line: line, Found: t.quoteLine(line), Want: want}
}

func (t *Tree) unclosed(at int, mark, closing string) Problem {
	return Problem{File: t.File, Line: t.lineAt(at), Found: "a " + mark + " that is never closed", Want: "a closing " + closing}
}

func (t *Tree) tooDeep(at int) Problem {
	return Problem{
		File: t.File, Line: t.lineAt(at), Found: fmt.Sprintf("more than %d levels of tables and lists inside one another", MaxDepth),
		Want: "fewer levels; look for a bracket that is not closed",
	}
}

// quoteLine shows a line as it stands in the file.
func (t *Tree) quoteLine(line int) string {
	rows := strings.Split(t.text, "\n")
	if shown := Cut(strings.TrimSpace(rows[line-1])); shown != "" {
		return `"` + shown + `"`
	}
	return "an end too early"
}

const (
	wantValue = "after the equals sign a number, true, false, a list [ ... ], or text between quote marks"
	date      = `^\d+[-:][\d:.TZtz+-]*$`
	wantDate  = "a date like 2025-03-31, a plain number, or text between quote marks"
)

// wanted says what would be right where the parser stopped, in words for
// someone who has never heard of the format.
func (b before) wanted(text string, at int) string {
	next, last := text[at], b.last.text
	opened := last == "" || last == "[" || last == "{" || last == ","
	switch {
	case b.quote.open != "":
		return wantedInText(text[at:])
	case b.header:
		return "a table line like [site] or [[place]]"
	case next == ',' && opened && last != "":
		return "one comma between two values"
	case !b.value && b.inner() != "[":
		return wantedKey(next, opened)
	case last == "=" || opened:
		return cmp.Or(wantedInWord(wordAt(text, at)), wantValue)
	}
	if word := wordAt(text, b.last.at); b.last.at+len(last) == at {
		if want := wantedInWord(word); want != "" {
			return want
		}
	}
	switch b.inner() {
	case "[":
		return "a list like [ 1, 2, 3 ]: a comma between values and a closing ]"
	case "{":
		return `a table like { size = "2x6", spacing_in = 16 }: a comma between keys and a closing }`
	}
	return "one key = value on each line, and text between quote marks"
}

func wantedInText(rest string) string {
	switch {
	case rest[0] == '\n':
		return "a closing quote mark on the same line"
	case strings.HasPrefix(rest, strings.Repeat(rest[:1], 6)):
		return "three quote marks at the end of the text"
	}
	return `no single \ in text: write \\, or put the text between 'single' quote marks`
}

func wantedKey(next byte, first bool) string {
	switch {
	case next == '=' && first:
		return "a key before the equals sign, like key = value"
	case next == '.' && first:
		return "a key that does not begin with a point"
	}
	return "a line like key = value, the key in one word"
}

// wordAt is the word that begins at an offset.
func wordAt(text string, at int) string {
	return text[at : at+strings.IndexAny(text[at:], " \t\n=,[]{}#\"'")]
}

// misspelled are the ways to write a word or a number that the format does not
// have, and what would be right. The first that fits decides.
var misspelled = []struct{ like, want string }{
	{date, wantDate},
	{`^[+-]?0\d`, "a number without zeroes in front"},
	{`^[+-]?\d+(\.\d+)?$`, ""},
	{`^[+-]?\.`, "a digit before the point, as in 0.5"},
	{`^[+-]?\d[\d.]*_[\d._]*$`, "a number without _ at its ends"},
	{`^[+-]?\d+\.(\D|$)`, "digits after the point, as in 2.5"},
	{`^[+-]?(0[box]|\d[\d.eE+-]*$)|^[+-]`, "a number in plain digits, as in 7.25"},
	{`^\pL`, wantValue},
}

func wantedInWord(word string) string {
	for _, m := range misspelled {
		if like(m.like, word) {
			return m.want
		}
	}
	return ""
}

// like runs a pattern once, for a message.
func like(pattern, s string) bool { return regexp.MustCompile(pattern).MatchString(s) }
