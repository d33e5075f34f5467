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
	writeHere  = regexp.MustCompile(`_{3,}(\s+_{3,})*`)
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
