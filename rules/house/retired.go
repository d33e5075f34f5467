package house

import "slices"

// retired are keys of older files of which nothing is made any more: an answer
// to them changed no line. They are read for ever, said nothing about, and left
// out when the file is written again.
var retired = []struct {
	scope Scope
	key   string
	kinds []string // of place; nil for a table of the house
}{
	{Site, "cdd50", nil},
	{PlaceScope, "exposed", []string{"attic", "crawl-space"}},
	{PlaceScope, "length_ft", []string{"chimney"}},
}

// isRetired reports whether a key was once asked there.
func isRetired(scope Scope, kind, key string) bool {
	for _, r := range retired {
		if r.scope == scope && r.key == key && (r.kinds == nil || slices.Contains(r.kinds, kind)) {
			return true
		}
	}
	return false
}
