package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/demo"
)

// Every source that any output names is in the data, with a title and a mark.
func TestEveryPrintedSourceExists(t *testing.T) {
	c, err := env{}.loadCatalog("")
	require.NoError(t, err)
	marks := []string{"standard", "secondary", "practice", "memory", "invented"}
	for _, name := range demo.Names() {
		for _, args := range [][]string{{"plan"}, {"order"}, {"handover"}} {
			r := runs(append(args, demoFolder+name, "--format", "json")...)
			require.Equal(t, exitDone, r.code, r.stderr)
			var v map[string]any
			require.NoError(t, json.Unmarshal([]byte(r.stdout), &v))
			named := sourcesNamed(v)
			if args[0] == "plan" {
				require.Greater(t, len(named), 10)
				listed := map[string]bool{}
				for _, s := range v["sources"].([]any) {
					s := s.(map[string]any)
					listed[s["id"].(string)] = true
					require.Contains(t, marks, s["known"], s["id"])
				}
				for id := range named {
					require.True(t, listed[id], "%s: %s is named and not listed", name, id)
				}
			}
			for id := range named {
				s, ok := c.Source(id)
				require.True(t, ok, "%s %s names the source %q", args[0], name, id)
				require.NotEmpty(t, s.Title)
			}
		}
	}
}

// sourcesNamed finds every source id under "from" and "source".
func sourcesNamed(v any) map[string]bool {
	out := map[string]bool{}
	var walk func(key string, v any)
	walk = func(key string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, x := range v {
				walk(k, x)
			}
		case []any:
			for _, x := range v {
				walk(key, x)
			}
		case string:
			if key == "from" || key == "source" {
				out[v] = true
			}
		}
	}
	walk("", v)
	return out
}

// Each printed group of figures says where they are from.
func TestEveryGroupOfFiguresHasASource(t *testing.T) {
	for _, name := range demo.Names() {
		text, _ := planJSONOf(t, demo.Text(name))
		var v map[string]any
		require.NoError(t, json.Unmarshal([]byte(text), &v))
		groups := 0
		var walk func(path string, v any)
		walk = func(path string, v any) {
			m, isMap := v.(map[string]any)
			for k, x := range m {
				walk(path+"."+k, x)
			}
			if list, ok := v.([]any); ok {
				for i, x := range list {
					walk(fmt.Sprintf("%s[%d]", path, i), x)
				}
			}
			last := path[strings.LastIndex(path, ".")+1:]
			if last == "target" && m["cavity_r"] == 0.0 && m["ci_r"] == 0.0 {
				return // the code asks for nothing there
			}
			if text, _ := m["text"].(string); last == "target" && strings.Contains(text, "your drawings") {
				return // the builder's own figure, and it says so
			}
			if text, _ := m["text"].(string); last == "target" && strings.HasSuffix(text, "as you typed") {
				return // nothing of the code stands beside it
			}
			if isMap && slices.Contains([]string{"heat", "money", "target"}, last) {
				groups++
				require.NotEmpty(t, m["from"], "%s%s", name, path)
			}
		}
		walk("", v["places"])
		require.Greater(t, groups, 10)
	}
}

// A question that was asked, has a default and was not answered is listed as
// assumed; and the value listed is the one that was used: said aloud it
// changes nothing but that list.
func TestEveryDefaultIsListedAndUsed(t *testing.T) {
	t.Parallel()
	c, err := env{}.loadCatalog("")
	require.NoError(t, err)
	l := house.NewList(c)
	listed, tried := 0, 0
	texts := []string{readFile(t, goodHouse), demo.Text("house-on-stilts.toml")}
	if testing.Short() {
		texts = texts[:1]
	}
	for _, text := range texts {
		h, err := house.Read(l, "house.toml", text)
		require.NoError(t, err)
		_, p := planJSONOf(t, house.Write(l, h))
		was := withoutSaid(t, house.Write(l, h))
		each(l, h, func(q house.Question, place *house.Place) {
			a := house.Answered{List: l, House: h, System: units.US}
			key := q.Key
			if place == nil {
				key = q.FullKey()
			}
			given := h.Answers
			id := ""
			if place != nil {
				given, id = place.Answers, place.ID
			}
			v := a.ValueOf(q, place)
			if given[key].State != house.Absent || v.Answer.State != house.Given || q.Key == "label" || !a.Asked(q, place) {
				return
			}
			require.True(t, slices.ContainsFunc(p.House.Assumed, func(s printedSaid) bool {
				return s.Place == id && s.Key == q.FullKey() && s.Value == q.Show(v.Answer, units.US)
			}), "%s %s is taken as %s and not said to be", id, q.FullKey(), q.Show(v.Answer, units.US))
			listed++
			aloud := h.Clone()
			var there *house.Place
			if place != nil {
				there = aloud.Place(place.ID)
			}
			house.Answered{List: l, House: aloud, System: units.US}.Store(q, there, v.Answer)
			said := house.Write(l, aloud)
			if _, err := house.Read(l, "said.toml", said); err != nil {
				return // a figure that follows from others and may not be typed beside them
			}
			require.Equal(t, was, withoutSaid(t, said), "%s %s said aloud changes the plan", id, q.FullKey())
			tried++
		})
	}
	t.Logf("%d defaults listed, %d said aloud", listed, tried)
	require.Greater(t, listed, 20*len(texts))
	require.Greater(t, tried, 15*len(texts))
}

// each visits every question of a house.
func each(l *house.QuestionList, h *house.House, visit func(house.Question, *house.Place)) {
	for _, q := range l.Questions {
		if q.Scope != house.PlaceScope {
			visit(q, nil)
		}
	}
	for i := range h.Places {
		for _, q := range l.In(house.PlaceScope, h.Places[i].Kind) {
			visit(q, &h.Places[i])
		}
	}
}

// withoutSaid is what a plan decides and counts: its places and its money.
func withoutSaid(t *testing.T, text string) map[string]any {
	t.Helper()
	out, _ := planJSONOf(t, text)
	var v map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &v))
	for _, place := range v["places"].([]any) {
		delete(place.(map[string]any), "order") // says what was measured and what assumed
	}
	return map[string]any{"places": v["places"], "budget": v["budget"]}
}
