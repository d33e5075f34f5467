package session

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// Whatever a view offers leads somewhere, and is offered once: by one key on
// screens, by one word or number in lines.
func TestEveryActionOfEveryView(t *testing.T) {
	s, _ := Begin(Config{List: fixture.List(t), Store: fixture.NewMemory(), House: fixture.Demo(t, demo.Default).House})
	s.Offers = append(s.Offers, offerOpen(t))
	openLadder(s, "").Work.Do()()
	args := map[page.ActionID]string{Place: "attic", Kept: "", CutList: "attic", Quote: lineID(s.Order().Lines[0]), Person: "framer", OneOffer: "0", Sheet: "attic"}
	for id := range views {
		v, ok := s.View(At{id, args[id]})
		if id == Why || id == How || id == Picture || id == Damp || id == Change {
			v, ok = s.View(At{id, "attic"})
		}
		require.True(t, ok, id)
		require.NotNil(t, v.Page, id)
		keys, words := map[string]bool{}, map[string]bool{}
		for _, a := range v.Actions {
			leads := deeds[a.ID] != nil || views[a.ID] != nil || forms[a.ID] != nil || a.ID == Words
			require.True(t, leads, "%s offers %s, which is nothing", id, a.ID)
			require.True(t, a.Label != "" || a.Word != "" || a.Key != "", "%s hides %s", id, a.ID)
			require.True(t, a.Word == "" || a.About() != "", "%s does not explain %s", id, a.Word)
			require.False(t, words[a.Word], "%s: %s twice", id, a.Word)
			words[a.Word] = a.Word != ""
			for _, k := range strings.Fields(a.Key) {
				require.False(t, keys[k], "%s: key %s twice", id, k)
				keys[k] = true
			}
		}
	}
}

func offerOpen(t *testing.T) inspect.OpenOffer {
	return inspect.OpenOffer{Path: "full.toml", Text: fixture.File(t, "offers/full.toml")}
}
