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

// dampRank puts the verdicts of the damp check in order, worst last; one that
// was not checked compares with none.
var dampRank = map[string]int{candidate.NoBuildUp: 1, candidate.Dries: 2, candidate.MoldRisk: 3, candidate.StaysWet: 4}

// notJudged stands where nobody said or saw which face, or which sheet, lies toward
// which side.
var notJudged = candidate.Damp{Verdict: candidate.NotChecked, WhereLayer: -1, Note: "not judged: the side of the face or the sheet is not known"}

var dampText = map[string]string{
	candidate.NoBuildUp: "no damp build-up from vapor", candidate.Dries: "damp builds up in winter and dries again",
	candidate.MoldRisk: "damp enough for mold", candidate.StaysWet: "stays wet",
}

// DampWith names what the check takes as there, so that nobody reads its
// verdict without it.
func DampWith(d candidate.Damp, s units.System) string {
	var with []string
	if d.BoardR > 0 {
		with = append(with, "with the "+s.R(d.BoardR)+" board")
	}
	if d.UnderJoists {
		with = append(with, "with the layer under the joists")
	}
	if d.Dehumidifier {
		with = append(with, "if the dehumidifier runs from May to September")
	}
	return strings.Join(with, " and ")
}

// DampSaid is a verdict of the damp check with what it counts on and the water
// it found, empty when nothing was checked.
func DampSaid(d candidate.Damp, s units.System) string {
	text := dampText[d.Verdict]
	if with := DampWith(d, s); text != "" && with != "" {
		text = with + ": " + text
	}
	if text != "" && d.Verdict != candidate.NoBuildUp && d.PeakMonth > 0 {
		text += ", up to " + s.Moisture(d.PeakGM2) + " of water gathers"
	}
	return text
}
