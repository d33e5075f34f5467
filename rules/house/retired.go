package house

import "slices"

// isRetired reports whether a key was once asked there, in files of earlier
// versions: an answer to it changed no line. Such keys are read for ever, said
// nothing about, and left out when the file is written again. Those of places
// stand with the kinds, in places.toml.
func (l *QuestionList) isRetired(scope Scope, kind, key string) bool {
	if scope == PlaceScope {
		k, _ := l.catalog.Kind(kind)
		return slices.Contains(k.NoLongerAsked, key)
	}
	return scope == Site && key == "cdd50"
}
