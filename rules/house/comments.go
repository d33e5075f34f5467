package house

import (
	"strings"

	"battwright/rules/strict"
)

// What the program itself writes as comments into answers that it keeps: first
// which file they belong to and what that file held, then how the house is asked
// about, then what was noted of the finished work.
const (
	PathMark  = "# answers kept by battwright for: "
	BeganMark = "# they began from the text with the SHA-256 sum: "
	WayMark   = "# the questions of battwright: "
	WorkMark  = "#| "
)

// ours reports whether the program wrote a line of kept answers as a comment.
func ours(line string) bool {
	for _, mark := range []string{PathMark, BeganMark, WayMark, WorkMark} {
		if strings.HasPrefix(line, mark) {
			return true
		}
	}
	return false
}

// HasComments reports whether a house file holds comments of a person, which
// writing it again would drop. A text that cannot be parsed counts as having
// some: it is not ours to overwrite.
func HasComments(text string) bool {
	var rest []string
	for _, l := range strings.Split(text, "\n") {
		if !ours(l) {
			rest = append(rest, l)
		}
	}
	tree, problems := strict.Parse("", strings.Join(rest, "\n"))
	if len(problems) > 0 || tree.HasComments() {
		return true
	}
	_, problems = strict.Parse("", FinishedWork(text)) // a note of a person may begin like ours
	return len(problems) > 0
}

// FinishedWork is what a text of kept answers holds of the finished work, empty
// when that is nothing.
func FinishedWork(text string) string {
	var b strings.Builder
	for _, l := range strings.Split(text, "\n") {
		if own, ok := strings.CutPrefix(l, WorkMark); ok {
			b.WriteString(own + "\n")
		}
	}
	return b.String()
}
