package strict

import (
	"errors"
	"fmt"
	"strings"

	"github.com/BurntSushi/toml"
)

// syntax turns the library's refusal into one problem on the true line.
func (s *scanner) syntax(err error) Problem {
	stop, opened := s.stopLine()
	p := Problem{File: s.file, Line: stop}
	if opened != "" {
		p.Found, p.Want = s.unclosed(opened)
		return p
	}
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		p.Found, p.Want = s.quoteLine(p.Line), "lines like key = value, [table] or [[table]]"
		return p
	}
	p.Line = s.errorLine(parse.Position.Start, stop)
	if strings.Contains(parse.Message, "already") {
		for _, twice := range s.twice {
			if twice.Line == p.Line {
				return twice // it knows the key and where the first one is
			}
		}
	}
	p.Found, p.Want = s.quoteLine(p.Line), wanted(parse.Message)
	if n := len(s.open); n > 0 && !s.done && p.Line == stop && s.open[n-1].line < stop {
		p.Want += fmt.Sprintf(" (the %s of line %d is still open)", s.open[n-1].mark, s.open[n-1].line)
	}
	return p
}

// stopLine gives the line where the scan stopped. When that is the end of the
// text because something was never closed, it is the line where that opened
// (or 1 in a text without an end), with its mark.
func (s *scanner) stopLine() (line int, opened string) {
	if s.pos >= len(s.text) && !s.done {
		switch {
		case s.str.mark != "":
			return s.str.line, s.str.mark
		case len(s.open) > 0:
			last := s.open[len(s.open)-1]
			return last.line, last.mark
		}
	}
	return lineOf(s.text, s.pos), ""
}

func (s *scanner) unclosed(mark string) (found, want string) {
	closing := map[string]string{"[": "]", "{": "}"}[mark]
	if closing == "" {
		closing = mark
	}
	return "a " + mark + " that is never closed", "a closing " + closing
}

// errorLine is the line of the library's offset, unless the scan stopped in
// the very same text, whose beginning is all that the library tells of.
func (s *scanner) errorLine(start, stop int) int {
	line := lineOf(s.text, start)
	token := s.pos
	if s.str.mark != "" {
		token = s.token
	}
	if !s.done && line >= lineOf(s.text, token) {
		return stop
	}
	return line
}

// lineOf counts lines up to an offset. The library's own line number is one
// too small at an end of text and the end, not the start, of a long text; its
// offset may lie outside the text by one.
func lineOf(text string, offset int) int {
	return 1 + strings.Count(text[:min(max(offset, 0), len(text))], "\n")
}

// quoteLine shows a line as it stands in the file.
func (s *scanner) quoteLine(line int) string {
	n := 0
	for row := range strings.Lines(s.text) {
		if n++; n == line {
			if shown := cut(strings.TrimSpace(row)); shown != "" {
				return `"` + shown + `"`
			}
			break
		}
	}
	return "an end too early"
}

// meanings puts the library's messages into words for someone who has never
// heard of the format. The first part that a message holds decides.
var meanings = []struct{ part, want string }{
	{"expected value", "after the equals sign a number, true, false, a list [ ... ], or text between quote marks"},
	{"already", "each key and each [table] once"},
	{"is not a table", "each key and each [table] once"},
	{"top-level item", "one key = value on each line, and text between quote marks"},
	{"table name", "a table line like [site] or [[place]]"},
	{"table array name", "a table line like [site] or [[place]]"},
	{"array terminator", "a list like [ 1, 2, 3 ]: a comma between values and a closing ]"},
	{"inline table terminator", `a table like { size = "2x6", spacing_in = 16 }: a comma between keys and a closing }`},
	{"unexpected comma", "one comma between two values"},
	{`expected '.' or '='`, "a line like key = value, the key in one word"},
	{"unexpected '='", "a key before the equals sign, like key = value"},
	{"unexpected '.'", "a key that does not begin with a point"},
	{"strings cannot contain newlines", "a closing quote mark on the same line"},
	{`unexpected EOF; expected '"'`, "a closing quote mark on the same line"},
	{`unexpected EOF; expected "'"`, "a closing quote mark on the same line"},
	{"unexpected EOF", "a whole line: key = value, [table] or [[table]]"},
	{`unexpected '""""""'`, "three quote marks at the end of the text"},
	{`unexpected "''''''"`, "three quote marks at the end of the text"},
	{"escape", `no single \ in text: write \\, or put the text between 'single' quote marks`},
	{"hexadecimal", `no single \ in text: write \\, or put the text between 'single' quote marks`},
	{"Escaped character", `no single \ in text: write \\, or put the text between 'single' quote marks`},
	{"leading zero", "a number without zeroes in front"},
	{"underscores", "a number without _ at its ends"},
	{"floats must start", "a digit before the point, as in 0.5"},
	{"'.' must be followed", "digits after the point, as in 2.5"},
	{"out of range", "a number that is not so large"},
	{"datetime", "a date like 2025-03-31, a plain number, or text between quote marks"},
	{"nvalid integer", "a number in plain digits, as in 1120"},
	{"nvalid float", "a number in plain digits, as in 7.25"},
	{"expected a digit", "a number in plain digits, as in 7.25"},
}

func wanted(message string) string {
	for _, m := range meanings {
		if strings.Contains(message, m.part) {
			return m.want
		}
	}
	return "text in the TOML format (" + cutTo(message, 2*shown) + ")"
}
