package house_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// What is typed brings up the states, counties and weather places that begin
// so, a handful at most, and as much as there is when that is less.
func TestSuggestionsBeginAsTyped(t *testing.T) {
	a := fixture.Read(t, "version = 1\n[site]\nstate = \"VT\"\n")
	question := func(key string) house.Question { return find(t, a.List, key) }
	for _, c := range []struct {
		key, typed string
		want       []string
	}{
		{"site.state", "ver", []string{"Vermont"}},
		{"site.state", "vt", []string{"Vermont"}},
		{"site.county", "chitt", []string{"Chittenden"}},
		{"site.climate", "burl", []string{"burlington-vt"}},
		{"site.climate", "Portland", []string{"portland-or", "portland-me"}},
		{"site.climate", "portland-m", []string{"portland-me"}},
		{"site.climate", "nowhere", nil},
		{"site.climate", " ", nil},
		{"name", "a", nil},
	} {
		require.ElementsMatch(t, c.want, a.Suggest(question(c.key), c.typed), "%s %q", c.key, c.typed)
	}
	// Many begin so: a handful is shown.
	for key, typed := range map[string]string{"site.state": "n", "site.climate": "b"} {
		got := a.Suggest(question(key), typed)
		require.Len(t, got, 5, key)
		for _, s := range got {
			require.True(t, strings.HasPrefix(strings.ToLower(s), typed) || key == "site.state", s)
		}
	}
}
