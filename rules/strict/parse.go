package strict

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// MaxBytes is the largest file that is read, in bytes (1 MiB).
const MaxBytes = 1 << 20

// Parse reads TOML text. Beyond what the format forbids it refuses files over
// MaxBytes, text that is not UTF-8, nesting beyond MaxDepth, keys without a
// name, a key given twice in any way, the numbers nan and inf, and characters
// of BadRune in keys and values. Windows line ends and a UTF-8 byte order mark
// are accepted; line ends in values are plain newlines.
//
// The tree is never nil. It holds the values whenever the text is TOML at all,
// so that a caller can go on and report its own problems beside these.
func Parse(file, text string) (*Tree, Problems) {
	t := &Tree{File: file}
	text, problems := prepare(file, text)
	if len(problems) > 0 {
		return t, problems.tidy()
	}
	t.text = text
	for i := range len(text) {
		if text[i] == '\n' {
			t.ends = append(t.ends, i)
		}
	}
	s, stop := findPlaces(t)
	switch {
	case s.tooDeep != nil:
		return t, Problems{t.tooDeep(s.tooDeep.at)}
	case stop >= 0:
		return t, Problems{t.refusal(s.end, stop)}
	case len(s.twice) > 0:
		return t, append(s.problems, s.twice...).tidy() // who knows which value the library kept
	}
	values, err := readMap(text)
	if err != nil {
		return t, Problems{t.refusedValue(err)}
	}
	t.values = values
	return t, s.problems.tidy()
}

var errLibrary = errors.New("the text cannot be read")

// readMap guards against the library's own assertions, which panic.
func readMap(text string) (values map[string]any, err error) {
	defer func() {
		if recover() != nil {
			err = errLibrary
		}
	}()
	values = map[string]any{}
	_, err = toml.Decode(text, &values)
	return values, err
}

// prepare refuses text that is no text, and evens out line ends.
func prepare(file, text string) (string, Problems) {
	if len(text) > MaxBytes {
		return "", Problems{{File: file, Found: fmt.Sprintf("a file of %d bytes", len(text)), Want: fmt.Sprintf("at most %d bytes (1 MiB); is this the right file?", MaxBytes)}}
	}
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") {
		return "", Problems{{File: file, Line: 1, Found: "text saved as UTF-16", Want: "the file saved as plain text in UTF-8"}}
	}
	text = plainText(text)
	if problems := badBytes(file, text); len(problems) > 0 {
		return "", problems
	}
	return text, nil
}

// plainText drops the byte order mark and makes Windows line ends plain ones.
// A carriage return that ends no line stays, to be refused.
func plainText(text string) string {
	text = strings.TrimPrefix(text, "\ufeff")
	if strings.Contains(text, "\r\n") && !strings.Contains(text, "\r\r\n") {
		text = strings.ReplaceAll(text, "\r\n", "\n")
	}
	return text
}

// badBytes finds what no TOML file may hold anywhere, comments included:
// broken UTF-8 and control characters. One of each line is reported.
func badBytes(file, text string) (problems Problems) {
	line := 0
	for row := range strings.Lines(text) {
		line++
		for i, r := range row {
			if r >= ' ' && r != 0x7f && r != utf8.RuneError || r == '\t' || r == '\n' {
				continue
			}
			if p, bad := badByte(row[i:], r); bad {
				p.File, p.Line = file, line
				problems = append(problems, p)
				break
			}
		}
		if len(problems) > MaxProblems {
			return problems // no text at all: what follows is more of the same
		}
	}
	return problems
}

func badByte(at string, r rune) (Problem, bool) {
	if r == utf8.RuneError {
		if _, size := utf8.DecodeRuneInString(at); size > 1 {
			return Problem{}, false // a replacement character that was really typed
		}
		return Problem{Found: fmt.Sprintf("the byte 0x%02X, which is no character in UTF-8", at[0]), Want: "the file saved as plain text in UTF-8"}, true
	}
	if r == '\r' {
		return Problem{Found: "a carriage return (U+000D) that ends no line", Want: "lines that end as on Linux, a Mac or Windows"}, true
	}
	return Problem{Found: "the control character " + runeName(r), Want: "plain text without it"}, true
}
