package pages

import (
	"strings"

	"battwright/rules/candidate"
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
	switch d.Verdict {
	case candidate.NoBuildUp:
		return "no build-up from vapor"
	case candidate.Dries:
		return "builds up, dries again"
	case candidate.MoldRisk:
		return "damp enough for mold" // as the check says it below the table
	case candidate.StaysWet:
		return "stays wet"
	}
	return "not checked"
}
