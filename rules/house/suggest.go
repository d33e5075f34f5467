package house

import (
	"fmt"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/strict"
)

const suggestions = 5

// Suggest offers completions for a text question while it is typed: states,
// counties of the state that was said, ids of listed climates. Nothing for
// other questions.
func (a Answered) Suggest(q Question, typed string) []string {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return nil
	}
	c := a.List.catalog
	switch q.FullKey() {
	case "site.state":
		return a.suggestStates(typed)
	case "site.county":
		found, err := c.Counties.Search(a.Text(Site, nil, "state"), typed, suggestions)
		if err != nil {
			return nil
		}
		out := make([]string, len(found))
		for i, f := range found {
			out[i] = f.Name
		}
		return out
	case "site.climate":
		found := beginningAs(c, typed)
		return found[:min(len(found), suggestions)]
	}
	return nil
}

// listedPlace refuses weather of a place that is not listed: without weather
// there is no damp check, and nobody would see why.
func listedPlace(c *catalog.Catalog) func(string) error {
	return func(id string) error {
		ids := make([]string, len(c.Climates()))
		for i, cl := range c.Climates() {
			if cl.ID == id {
				return nil
			}
			ids[i] = cl.ID
		}
		return fmt.Errorf("found %q%s%s", strict.Cut(id), wants, idMeant(c, id, ids))
	}
}

// wants stands between what was found and what would be right.
const wants = "; want "

// beginningAs are the ids of the listed places whose name or id begins as typed.
func beginningAs(c *catalog.Catalog, typed string) []string {
	var out []string
	for _, cl := range c.Climates() {
		if hasPrefixFold(cl.ID, typed) || hasPrefixFold(cl.Name, typed) {
			out = append(out, cl.ID)
		}
	}
	return out
}

// idMeant names the listed places whose name or id begins as typed, else the
// one that is spelled most alike, else all.
func idMeant(c *catalog.Catalog, typed string, ids []string) string {
	begin := beginningAs(c, typed)
	if len(begin) == 0 {
		if near := strict.Nearest(typed, ids); near != "" {
			begin = append(begin, near)
		}
	}
	if len(begin) == 0 || len(begin) > suggestions {
		return "one of the listed places: " + strings.Join(ids, ", ")
	}
	return "the id of a listed place (did you mean " + strings.Join(begin, " or ") + "?)"
}

func (a Answered) suggestStates(typed string) []string {
	var out []string
	for _, s := range a.List.catalog.Counties.States() {
		if len(out) < suggestions && (hasPrefixFold(s.Code, typed) || hasPrefixFold(s.Name, typed)) {
			out = append(out, s.Name)
		}
	}
	return out
}

// Doubt says what is odd about an answer that is well formed: a state or a
// county that the table does not know, with near misses. Empty when nothing is
// odd, or when nobody can tell because the house is not in the US.
func (a Answered) Doubt(q Question, answer Answer) string {
	if answer.State != Given {
		return ""
	}
	switch q.FullKey() {
	case "site.state":
		return a.doubtState(answer.Text)
	case "site.county":
		return a.doubtCounty(answer.Text)
	}
	return ""
}

// doubtState: without a state of the US the house has no climate zone, and so
// no target, unless its zone or its weather is named.
func (a Answered) doubtState(state string) string {
	_, err := a.List.catalog.Counties.State(state)
	if err == nil || a.Text(Site, nil, "zone") != "" || a.Text(Site, nil, "climate") != "" {
		return ""
	}
	text := "there is no state " + strings.TrimPrefix(err.Error(), catalog.ErrState.Error()+": ")
	if strings.Contains(text, "did you mean") {
		return text + "?"
	}
	return text + "; without it the climate zone is not known"
}

func (a Answered) doubtCounty(county string) string {
	c := a.List.catalog
	state := a.Text(Site, nil, "state")
	if _, err := c.Counties.State(state); err != nil {
		return ""
	}
	at := c.Locate(state, county, "", "", a.Text(Site, nil, "code"))
	if at.Zone == "" && len(at.Notes) > 0 {
		return at.Notes[0]
	}
	return ""
}

func hasPrefixFold(s, prefix string) bool {
	return len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix)
}
