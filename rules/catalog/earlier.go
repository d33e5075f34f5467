package catalog

import (
	"maps"
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/strict"
)

// earlier puts in place of what is said of conditions in their earlier form, a
// list of fact, op and value, and of examples one by one, how the very same is
// written now. Nobody need look anything up to bring such a file up to date.
func earlier(tree *strict.Tree, problems strict.Problems) strict.Problems {
	for _, list := range []string{"rule", "obligation"} {
		for i := 0; ; i++ {
			if _, ok := tree.Get(list, i); !ok {
				break
			}
			now := func(found, want, key string, instead ...string) {
				if _, ok := tree.Get(list, i, key); !ok {
					return
				}
				p := tree.Problem([]any{list, i, key}, found, want)
				for _, k := range append(instead, key) {
					about := tree.Problem([]any{list, i, k}, "", "").Key
					problems = slices.DeleteFunc(problems, func(q strict.Problem) bool { return q.Key == about })
				}
				problems = append(problems, p)
			}
			now("conditions in their earlier form", whereOf(tree, list, i), "when", "where")
			now("examples in their earlier form", casesOf(tree, list, i), "example")
		}
	}
	return problems
}

// ends are the earlier names of comparisons with a number.
var ends = map[string]string{"lt": "below", "le": "at_most", "gt": "above", "ge": "at_least"}

// whereOf writes the conditions of a record as they are written now; two ends
// of one number become one table.
func whereOf(tree *strict.Tree, list string, i int) string {
	var names []string
	asked := map[string]any{}
	for k := 0; ; k++ {
		name, ok := tree.Get(list, i, "when", k, "fact")
		if !ok {
			break
		}
		fact, _ := name.(string)
		op, _ := tree.Get(list, i, "when", k, "op")
		value, _ := tree.Get(list, i, "when", k, "value")
		comparison, _ := op.(string)
		now := askedNow(comparison, value)
		if end, ok := now.(map[string]any); ok {
			both := maps.Clone(end)
			if before, ok := asked[fact].(map[string]any); ok {
				maps.Copy(both, before)
			}
			now = both
		}
		if asked[fact] == nil {
			names = append(names, fact)
		}
		asked[fact] = now
	}
	return "where = " + inline(names, asked)
}

func askedNow(op string, value any) any {
	if end, ok := ends[op]; ok {
		return map[string]any{end: value}
	}
	list, _ := value.([]any)
	yes, truth := value.(bool)
	switch {
	case op == "between" && len(list) == 2:
		return map[string]any{"at_least": list[0], "below": list[1]}
	case op == "not_in":
		return map[string]any{"none_of": value}
	case op == "ne" && truth:
		return !yes
	case op == "ne":
		return map[string]any{"not": value}
	}
	return value
}

// casesOf writes the examples of a record as they are written now.
func casesOf(tree *strict.Tree, list string, i int) string {
	cases := map[string][]string{}
	for k := 0; ; k++ {
		if _, ok := tree.Get(list, i, "example", k); !ok {
			break
		}
		key := "silent_on"
		if fires, _ := tree.Get(list, i, "example", k, "fires"); fires == true {
			key = "fires_on"
		}
		facts, _ := tree.Get(list, i, "example", k, "facts")
		table, _ := facts.(map[string]any)
		cases[key] = append(cases[key], inline(tree.Keys(list, i, "example", k, "facts"), table))
	}
	var out []string
	for _, key := range slices.Sorted(maps.Keys(cases)) {
		out = append(out, key+" = [ "+strings.Join(cases[key], ", ")+" ]")
	}
	return strings.Join(out, " and ")
}

func inline(names []string, values map[string]any) string {
	parts := make([]string, len(names))
	for i, name := range names {
		parts[i] = name + " = " + rules.Show(values[name])
	}
	return "{ " + strings.Join(parts, ", ") + " }"
}
