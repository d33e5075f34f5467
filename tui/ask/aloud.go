package ask

import (
	"fmt"
	"regexp"
	"strings"
)

// A reader says signs one by one or not at all. What stands for a word is said
// as that word.
var (
	moreOrLess = regexp.MustCompile(`([+-])(\$[0-9][0-9,]*)`)
	arrow      = regexp.MustCompile(` -> `)
	ruler      = regexp.MustCompile(`^\s*[-=]{4,}\s*$`)
	writeHere  = regexp.MustCompile(`_{3,}(\s+_{3,})*`)
	tickBox    = regexp.MustCompile(`^(\s*)\[ \] `)
)

// aloud is one line as it is said: "fiberglass to cotton, $140 more".
func aloud(s string) string {
	s = arrow.ReplaceAllString(s, " to ")
	s = moreOrLess.ReplaceAllStringFunc(s, func(m string) string {
		if m[0] == '-' {
			return m[1:] + " less"
		}
		return m[1:] + " more"
	})
	return blanks(s)
}

// blanks says where there is room to write, and how often.
func blanks(s string) string {
	return writeHere.ReplaceAllStringFunc(s, func(m string) string {
		if n := len(strings.Fields(m)); n > 1 {
			return fmt.Sprintf("(%d blanks)", n)
		}
		return "(blank)"
	})
}

// pageAloud is a printed page as it is said: without ruled lines, and with a
// word where there is room to write.
func pageAloud(s string) string {
	var out []string
	for _, l := range strings.Split(s, "\n") {
		if ruler.MatchString(l) {
			continue
		}
		out = append(out, blanks(tickBox.ReplaceAllString(l, "$1- ")))
	}
	return strings.Join(out, "\n")
}

// unsigned takes the sign off the front of a line that is a label already.
func unsigned(s string) string {
	for _, sign := range []string{"! ", "? ", "+ ", "- "} {
		if rest, ok := strings.CutPrefix(s, sign); ok {
			return rest
		}
	}
	return s
}

// withUnit names what to write down: "Width, in inches".
func withUnit(text, unit string) string {
	name, ok := map[string]string{"$": "dollars", "in": "inches", "mm": "millimeters", "ft2": "square feet", "m2": "square meters"}[unit]
	switch {
	case ok:
		return text + ", in " + name
	case unit != "":
		return text + ", in " + unit
	}
	return text
}
