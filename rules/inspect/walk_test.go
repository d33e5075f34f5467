package inspect_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

func newWalk(t testing.TB) *inspect.Walk { return inspect.NewWalk(fixture.Catalog(t)) }

// The walk comes to every place that has a plan, and forgets none that lost it.
func TestWalkFollowsThePlan(t *testing.T) {
	w, j := newWalk(t), alder(t)
	require.Len(t, w.Judge(j).Places, 8)
	require.False(t, w.Begun())
	require.NotEmpty(t, w.QuestionsAt(j, "chimney"))
	require.Empty(t, w.QuestionsAt(j, "nowhere"))
	_, ok := w.JudgeAt(j, "nowhere")
	require.False(t, ok)

	w.House.Place("chimney").Answers.Set("batt_in_gap", house.YesNo(true))
	other := demoJob(t, "house-by-the-water.toml")
	w.Judge(other)
	found, ok := w.JudgeAt(j, "chimney")
	require.True(t, ok)
	require.Equal(t, inspect.Halt, found.Worst(), "what was seen in a house that changed meanwhile")
}

// Kept and taken up again, or written and opened, the walk is the same.
func TestWalkIsKeptAndTakenUp(t *testing.T) {
	j := alder(t)
	for _, name := range []string{"mixed", "chimney-stop"} {
		w := newWalk(t)
		taken, problems := w.Open(j, name, fixture.File(t, "finished/"+name+".toml"))
		require.True(t, taken)
		require.Empty(t, problems)
		require.True(t, w.Begun())
		require.False(t, w.Unsaved(), "it came from a file")
		again, file := newWalk(t), newWalk(t)
		again.TakeUp(j, "version = 1\nstage = \"framed\"\n"+w.Kept())
		require.Equal(t, w.House, again.House)
		require.True(t, again.Unsaved())
		_, problems = file.Open(j, "out.toml", w.Text())
		require.Empty(t, problems)
		require.Equal(t, w.Judge(j), file.Judge(j))
		w.Changed()
		require.True(t, w.Unsaved())
		w.Written()
		require.False(t, w.Unsaved())
	}
	w := newWalk(t)
	w.Follow(j)
	require.Empty(t, w.Kept(), "before anybody looked there is nothing to keep")
	w.TakeUp(j, "version = 1\n# a comment\n")
	require.False(t, w.Begun())
}

// A file of which nothing can be read takes nothing away.
func TestWalkLosesNothingToABrokenFile(t *testing.T) {
	j := alder(t)
	for text, takes := range map[string]bool{
		"== no TOML": false, "[[place]]\nid = \"attik\"\n": false, "[[place]]\nid = \"rim\"\nlabel_r = \"many\"\n": false, "version = 9\n": false,
		"version = 1\n": true, // empty, and right
		"[[place]]\nid = \"rim\"\nlabel_r = \"19\"\ncolor = \"red\"\n": true,
	} {
		w := newWalk(t)
		w.Open(j, "mixed.toml", fixture.File(t, "finished/mixed.toml"))
		before := w.Text()
		taken, problems := w.Open(j, "next.toml", text)
		require.Equal(t, takes, taken, text)
		require.Equal(t, takes, before != w.Text(), text)
		require.True(t, takes || len(problems) > 0, text)
		require.False(t, takes && len(problems) > 0 && !w.Unsaved(), "the file does not hold what was read of it")
	}
}

func TestOpenOffers(t *testing.T) {
	first, second := inspect.OpenOffer{Path: "a", Text: "1"}, inspect.OpenOffer{Path: "b", Text: "2"}
	var none []inspect.OpenOffer
	one := inspect.WithOffer(none, first)
	two := inspect.WithOffer(one, second)
	require.Len(t, one, 1)
	require.Equal(t, []inspect.OpenOffer{first, second}, two)
	again := inspect.WithOffer(two, inspect.OpenOffer{Path: "a", Text: "3"})
	require.Equal(t, "3", again[0].Text)
	require.Equal(t, "1", two[0].Text, "the list handed in is not changed")
	require.Equal(t, []inspect.OpenOffer{second}, inspect.WithoutOffer(two, 0))
	require.Len(t, two, 2)

	j := demoJob(t, demo.Default)
	o := inspect.OpenOffer{Path: "metric.toml", Text: fixture.File(t, "offers/metric.toml")}
	r, problems := o.Judge(j)
	require.Len(t, problems, 5)
	read, _ := inspect.ReadOffer(j, o.Path, o.Text)
	require.Equal(t, inspect.JudgeOffer(j, read), r)
}
