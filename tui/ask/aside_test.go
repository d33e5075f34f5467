package ask_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// A copy of answers that made room for others holds the finished work too:
// opened it is there; saved, nothing warns and it is kept.
func TestFinishedWorkInACopyIsTakenUp(t *testing.T) {
	w := inspect.NewWalk(fixture.Catalog(t))
	at := &house.House{Answers: house.Answers{}, Places: []house.Place{{ID: "attic", Kind: "attic", Answers: house.Answers{"label_r": house.List("30")}}}}
	w.House = at
	text := house.PathMark + "\"\"\n" + house.Write(fixture.List(t), demoHouse(t)) + w.Kept()
	h, err := house.Read(fixture.List(t), "copy.toml", text)
	require.NoError(t, err)
	for _, c := range []struct {
		cfg   ask.Config
		lines []string
	}{
		{ask.Config{}, []string{"4", "copy.toml"}},
		{ask.Config{House: h, Path: "copy.toml", Text: text}, nil},
	} {
		store := fixture.NewMemory()
		store.Files["copy.toml"] = text
		out, err := said(t, store, c.cfg, append(c.lines, "check", "finished work", "save", "quit")...)
		require.NoError(t, err)
		require.NotContains(t, out, "Finished work: not looked at yet")
		require.Contains(t, out, "Saved in copy.toml")
		require.Contains(t, store.Text, "#| label_r = [30.0]", "the file does not hold it any more")
	}
}

// Where the file of the house cannot be written another name is asked for.
func TestASaveThatFailsAsksForAnotherName(t *testing.T) {
	store := fixture.NewMemory()
	store.Locked = map[string]error{"ro.toml": errors.New("ro.toml: no permission")}
	out, err := said(t, store, ask.Config{House: fixture.Demo(t, demo.Default).House, Path: "ro.toml"}, "matters", "", "5", "done", "save", "mine", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "ro.toml: no permission")
	require.Contains(t, out, "Saved in mine.toml")
	require.Contains(t, store.Files, "mine.toml")
}
