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
	s := scan(file, text)
	if s.tooFar {
		return t, Problems{{
			File: file, Line: s.lineAt(s.pos), Found: fmt.Sprintf("more than %d levels of tables and lists inside one another", MaxDepth),
			Want: "fewer levels; look for a bracket that is not closed",
		}}
	}
	values, err := readMap(s.understood())
	if err != nil || !s.done {
		return t, Problems{s.syntax(err)}
	}
	if len(s.twice) > 0 {
		return t, append(s.problems, s.twice...).tidy() // who knows which value the library kept
	}
	t.values, t.lines, t.comments = values, s.root, s.comments
	return t, s.problems.tidy()
}

// understood is the text the library may see: all of it, or a little beyond
// the place where the scan stopped, since only that much is known to be safe.
func (s *scanner) understood() string {
	const beyond = 200 // enough for any error of the library to be the same
	if s.done || len(s.text)-s.pos <= beyond {
		return s.text
	}
	end := s.pos + beyond
	for !utf8.RuneStart(s.text[end]) {
		end--
	}
	return s.text[:end]
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
