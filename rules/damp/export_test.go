package damp

import (
	"fmt"
	"strings"

	"battwright/rules/catalog"
)

// Results is how many sections were run.
func (j *Judge) Results() int {
	j.runs.mu.Lock()
	defer j.runs.mu.Unlock()
	return len(j.runs.all)
}

// Cuts tells the sections of a build-up in words, for tests: each layer from the
// room outwards, "!" before one whose room side is watched for mold, "~" where
// the leak comes out, "^" before wood whose room side is weighed, "_" for its
// outer side. One line for each section and way.
func Cuts(c *catalog.Catalog, h House, b Build) ([]string, error) {
	l := c.DampLayers()
	var out []string
	for _, id := range b.Sections {
		sec, _ := l.Section(id)
		for _, w := range b.ways(l, &sec, h.Indoor.Cooled) {
			list, err := b.layers(l, w, &sec)
			if err != nil {
				return nil, err
			}
			cut, err := section(l, list, 1)
			if err != nil {
				return nil, err
			}
			parts := make([]string, len(list.layers))
			for i, x := range list.layers {
				parts[i] = fmt.Sprintf("%s %.0f", x.Of, x.MM)
				if x.MM == 0 {
					parts[i] = strings.TrimSpace(x.Of)
				}
				if x.Of == "" {
					parts[i] = fmt.Sprintf("perm %g", x.Perm)
				}
			}
			parts = append(parts, "") // the outer face
			mark := func(sign string, i int) { parts[i] = sign + parts[i] }
			for _, k := range cut.Skins {
				mark(map[bool]string{false: "^", true: "_"}[k.Outer], k.Layer)
			}
			for _, k := range cut.Leaks {
				mark("~", k.Layer)
			}
			for _, k := range cut.Watch {
				mark("!", k.Plane)
			}
			out = append(out, id+": "+strings.TrimSuffix(strings.Join(parts, ", "), ", "))
		}
	}
	return out, nil
}

// MonthWord and MonthOf are monthWord and monthOf.
var (
	MonthWord = monthWord
	MonthOf   = monthOf
)
