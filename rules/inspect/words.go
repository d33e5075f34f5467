package inspect

import (
	"cmp"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/damp"
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
	text := map[string]string{damp.Wets: "GETS WET", damp.Mold: "MOLD grows"}[d.Word]
	if text != "" && all {
		text += ", whichever fiber goes in"
	}
	return text
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
	if d.FoamInBays {
		with = append(with, "with the foam in its bays")
	}
	if d.EarthCovered {
		with = append(with, "once the earth below is covered")
	}
	if d.VentsOpen {
		with = append(with, "once the vents of the roof are open")
	}
	if d.FansOutdoors {
		with = append(with, "once the fans blow outdoors")
	}
	if d.Dehumidifier {
		with = append(with, "if the dehumidifier runs from May to September")
	}
	return strings.Join(with, " and ")
}

// DampSaid is a verdict of the damp check with what it counts on, empty when nothing
// was judged.
func DampSaid(d candidate.Damp, s units.System) string {
	text := dampFound(d, s)
	if with := DampWith(d, s); text != "" && with != "" {
		text = with + ": " + text
	}
	return text
}

// DampHoled is the verdict with holes toward the room, with what it counts on.
func DampHoled(d candidate.Damp, s units.System) string {
	text := worstOf(d.WithHoles, d.Holed, s)
	if d.WithHoles == damp.Edge {
		text = "borderline: " + text
	}
	if with := DampWith(d, s); with != "" {
		text = with + ": " + text
	}
	return text
}

func dampFound(d candidate.Damp, s units.System) string {
	switch d.Word {
	case damp.Holds:
		if d.Sealed.Moisture == 0 { // no wood in it
			return "no mold grows" + holes(d)
		}
		return wood(d.Sealed) + " gets no wetter than " + s.Percent(d.Sealed.Moisture) + ", and no mold grows" + holes(d)
	case damp.HoldsIfSealed:
		if d.Built == damp.Edge {
			built, holed := worstOf(d.Built, d.Sealed, s), worstOf(d.WithHoles, d.Holed, s)
			if strings.HasSuffix(built, moldOn(d.Holed)) { // it is named already
				holed = strings.TrimSuffix(holed, moldOn(d.Holed))
			}
			if rest, ok := strings.CutPrefix(holed, wood(d.Sealed)); ok && strings.HasPrefix(built, wood(d.Sealed)) {
				holed = "it" + rest
			}
			return "borderline where it is built well (" + built + "), and " + holed + " where room air leaks through holes"
		}
		return "it holds only if it is sealed: " + worstOf(d.WithHoles, d.Holed, s) + " where room air leaks through holes"
	case damp.Edge:
		return "borderline: " + worstOf(d.Word, d.Sealed, s)
	case damp.Wets:
		return "it gets wet even where it is built well: " + worstOf(d.Word, d.Sealed, s)
	case damp.Mold:
		return "mold grows" + moldOn(d.Sealed) + " even where it is built well"
	}
	return ""
}

// holes is said behind a place that holds and is borderline with holes.
func holes(d candidate.Damp) string {
	if d.WithHoles == damp.Edge {
		return ", built well; with holes toward the room it is borderline"
	}
	return ""
}

// worstOf tells what a year does, and to what.
func worstOf(word string, w damp.Worst, s units.System) string {
	switch {
	case word == damp.Mold:
		return "mold grows" + moldOn(w)
	case word == damp.Edge && w.Mold >= 1:
		return "mold can begin to grow" + moldOn(w)
	}
	return wood(w) + " gets to " + s.Percent(w.Moisture) + " water in its wettest month" + under(w)
}

// wood names the wettest wood.
func wood(w damp.Worst) string { return "the " + cmp.Or(w.MoistureOf, "wood") }

// moldOn says where most mold grows, and under what.
func moldOn(w damp.Worst) string {
	if w.MoldOn == "" {
		return under(w)
	}
	return " on the " + w.MoldOn + under(w)
}

// under names the cover that nobody said and that makes it so.
func under(w damp.Worst) string {
	if w.Under == "" {
		return ""
	}
	return " under " + w.Under
}
