package pages

import (
	"cmp"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/damp"
)

// layersOf names the R of each layer by its bag, never their sum.
func layersOf(a candidate.Assessed, o Options) string {
	words := make([]string, len(a.Layers))
	for i, l := range a.Layers {
		words[i] = o.System.R(l.Product.NominalR)
	}
	return strings.Join(words, " and ")
}

// dampWord is the verdict of the damp check in a cell.
func dampWord(d candidate.Damp) string {
	return cmp.Or(dampWords[d.Word], "not judged")
}

var dampWords = map[string]string{
	damp.Holds: "holds", damp.HoldsIfSealed: "holds if sealed", damp.Edge: "borderline", damp.Wets: "gets wet", damp.Mold: "mold grows",
}
