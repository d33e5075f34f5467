package house

import "battwright/rules/strict"

// HasComments reports whether a house file holds comments, which writing it
// again would drop. A text that cannot be parsed counts as having some: it is
// not ours to overwrite.
func HasComments(text string) bool {
	tree, problems := strict.Parse("", text)
	return len(problems) > 0 || tree.HasComments()
}
