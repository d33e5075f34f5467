package inspect

import (
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/units"
)

// layersText names the R of each layer, never their sum.
func layersText(layers []candidate.Layer, s units.System) string {
	words := make([]string, len(layers))
	for i, l := range layers {
		words[i] = s.R(l.Product.NominalR)
	}
	return strings.Join(words, " and ")
}
