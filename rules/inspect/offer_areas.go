package inspect

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"battwright/rules/candidate"
	"battwright/rules/damp"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Split reports whether the lines of a place are parts of it, side by side, not
// layers: each covers less than the whole. Where layers are usual, over the joists of
// an attic, they are parts only if they make up the whole.
func (p OfferedPlace) Split(areaOff float64) bool {
	want, sum := p.Plan.Surface.AreaFt2, 0.0
	for _, part := range p.Parts {
		ft2, said := part.num("area_ft2")
		if !said || ft2 >= want*(1-areaOff) {
			return false
		}
		sum += ft2
	}
	whole := sum >= want*(1-areaOff) && sum <= want*(1+areaOff)
	return len(p.Parts) > 1 && (whole || !p.Plan.Surface.Kind.StackOverFraming)
}

// assessParts works out each part of a split place by itself, and keeps the poorest
// for the comparison, with the dampest verdict of all.
func (p *OfferedPlace) assessParts(j Job) {
	s, label := j.System, p.Plan.Surface.Label
	words := make([]string, len(p.Parts))
	for i, part := range p.Parts {
		ft2, _ := part.num("area_ft2")
		words[i] = s.Area(ft2)
		if r, said := part.num("r"); said {
			words[i] += " of " + s.R(r)
		}
	}
	p.find(Finding{
		ID: "parts", Level: Note, Line: p.Parts[0].Line, Ref: practice, Text: "lines that each cover a part, read as side by side: " + strings.Join(words, " and ") + "; each is judged, and the table has the poorest",
		Ask: label + ": Do these lines lie side by side: " + strings.Join(words, " and ") + "?",
	})
	for i := range p.Parts {
		one := OfferedPlace{Plan: p.Plan, Parts: []Part{p.alone(i)}}
		one.assess(j)
		for _, f := range one.Findings {
			if !slices.ContainsFunc(p.Findings, func(x Finding) bool { return x.ID == f.ID && x.Text == f.Text }) {
				p.find(f)
			}
		}
		p.Offered = poorer(p.Offered, one.Offered)
	}
}

// alone is a line with what other lines of its place say of the parts beside the
// blanket.
func (p OfferedPlace) alone(i int) Part {
	out := p.Parts[i]
	out.Answers = maps.Clone(out.Answers)
	for _, part := range p.Parts {
		for _, key := range []string{boardBy, "board_r", bayFoamBy, alsoKey} {
			if a := part.Answers[key]; a.State == house.Given && out.Answers[key].State != house.Given {
				out.Answers[key] = a
			}
		}
	}
	return out
}

// poorer is the one of less R, with the worse verdict of damp of the two; one that
// was not judged is worse than a good one.
func poorer(a, b *candidate.Assessed) *candidate.Assessed {
	switch {
	case a == nil:
		return b
	case b == nil:
		return a
	}
	rank := func(x *candidate.Assessed) int {
		return cmp.Or(damp.Rank(x.Damp.Word), damp.Rank(damp.Edge))
	}
	out := *a
	if b.Heat.AssemblyR < a.Heat.AssemblyR {
		out = *b
	}
	out.Damp = a.Damp
	if rank(b) > rank(a) || rank(b) == rank(a) && !b.Damp.Judged() {
		out.Damp = b.Damp
	}
	return &out
}

// covered is the area that the lines of a place cover: the widest of layers, the sum
// of parts. It says where that is not the place.
func (p *OfferedPlace) covered(j Job) {
	limits, s, want := j.Catalog().Acceptance().Limits, j.System, p.Plan.Surface.AreaFt2
	off := func(got float64, line int, subject string) {
		if d := got/want - 1; d > limits.AreaOff || d < -limits.AreaOff {
			word := "more"
			if d < 0 {
				word = "less"
			}
			p.find(Finding{
				ID: "area-off", Level: Wrong, Line: line, Ref: limits.Ref,
				Text: fmt.Sprintf("%s %s, the house file has %s: %s %s", subject, s.Area(got), s.Area(want), s.Area(max(got-want, want-got)), word),
				Ask:  fmt.Sprintf("%s: How did you measure it? I have %s, openings taken off.", p.Plan.Surface.Label, s.Area(want)),
			})
		}
	}
	split := p.Split(limits.AreaOff)
	for _, part := range p.Parts {
		got, ok := part.num("area_ft2")
		switch {
		case !ok || want <= 0:
		case split:
			p.AreaFt2 += got
		default:
			p.AreaFt2 = max(p.AreaFt2, got)
			off(got, part.Line, "covers")
		}
	}
	if split {
		off(p.AreaFt2, p.Parts[0].Line, "the lines together cover")
	}
}

// noRoomText says of a blanket that nothing of its room is left.
func noRoomText(l candidate.Layer, s units.System) string {
	return fmt.Sprintf("no room is left for its %s: the frame is full without it, so it counts %s, not %s", s.Inches(l.Product.ThicknessIn), s.R(l.R), s.R(l.Product.NominalR))
}
