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

// DampGlance is what no line and no page about a place may leave out: that the
// plan finds it damp, and whether another blanket would be drier. Empty when
// nothing was found.
func DampGlance(d candidate.Damp, all bool) string {
	var text string
	switch {
	case d.Verdict == candidate.StaysWet:
		text = "STAYS WET"
	case d.OnlyDampSide():
		text = "on the damp side, mold possible"
	case d.Verdict == candidate.MoldRisk:
		text = "DAMP, mold risk"
	default:
		return ""
	}
	if d.FoamLeftOut {
		text += " (worked out without the foam in its bays, which makes it drier)"
	}
	if all {
		return text + ", whichever fiber goes in"
	}
	return text
}
