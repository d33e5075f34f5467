package house_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

// A sum that was cleared takes along what it was for: the next one is a limit
// until somebody says otherwise.
func TestNoSumIsSpentUnasked(t *testing.T) {
	l := fixture.List(t)
	sum, _ := l.Find("budget.total_usd")
	h := read(t, l, "[budget]\ntotal_usd = 4300\nuse = \"spend\"\n")
	a := house.Answered{List: l, House: h}
	a.Store(sum, nil, house.Number(5000))
	require.Equal(t, "spend", h.Answers["budget.use"].Text, "another sum for the same")
	a.Store(sum, nil, house.Answer{})
	require.NotContains(t, house.Write(l, h), "spend")

	h = read(t, l, "[budget]\ntotal_usd = 4300\nuse = \"spend\"\n")
	v := house.Variant{Answers: house.Answers{"budget.labor": house.Text("self")}}
	require.NotContains(t, house.Write(l, v.Over(h)), "spend", "a saved plan without a sum")
}

// What the program wrote itself is no comment that somebody would miss; a note
// that begins like it is.
func TestOnlyCommentsOfAPersonCount(t *testing.T) {
	kept := house.PathMark + "\"h.toml\"\n" + house.BeganMark + "0f\n" + house.WayMark + "ready to order\nversion = 1\n\n#| [[place]]\n#| id = \"attic\"\n"
	require.False(t, house.HasComments(kept))
	require.Equal(t, "[[place]]\nid = \"attic\"\n", house.FinishedWork(kept))
	for _, more := range []string{"# mine\n", "#| ask the roofer\n", "x = [\n"} {
		require.True(t, house.HasComments(kept+more), more)
	}
}
