package tui

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
)

// asideCopy is a house with finished work as it is set aside.
func asideCopy(t testing.TB) string {
	t.Helper()
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	w := inspect.NewWalk(fixture.Catalog(t))
	w.Follow(p.m.s.Job())
	w.House.Place("attic").Answers.Set("label_r", house.List("30"))
	return house.PathMark + "\"\"\n" + p.m.s.Text() + w.Kept()
}

// A copy of answers that made room for others holds the finished work too:
// opened, from the menu or at the start, it is there; saved, nothing warns and
// it is kept.
func TestFinishedWorkInACopyIsTakenUp(t *testing.T) {
	text := asideCopy(t)
	fromMenu := newPlayer(t, Config{Mono: true}, 100, 40)
	fromMenu.store.Files["copy.toml"] = text
	fromMenu.press("4").typed("copy.toml").press("enter")
	store := fixture.NewMemory()
	store.Files["copy.toml"] = text
	h, err := house.Read(fixture.List(t), "copy.toml", text)
	require.NoError(t, err)
	for _, p := range []*player{fromMenu, newPlayer(t, Config{Mono: true, Store: store, House: h, Path: "copy.toml", Text: text}, 100, 40)} {
		require.True(t, p.m.s.WalkBegun())
		require.Equal(t, house.List("30"), p.m.s.Walk().House.Place("attic").Answers["label_r"])
		p.press("s")
		require.Contains(t, p.view(), "Saved in copy.toml")
		require.Contains(t, p.store.Text, "#| label_r = [30.0]", "the file does not hold it any more")
	}
}

// Where the file of the house cannot be written, the way to another name opens,
// with the reason.
func TestASaveThatFailsAsksForAnotherName(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "ro.toml"}, 80, 24)
	p.store.Locked = map[string]error{"ro.toml": errors.New("ro.toml: no permission")}
	p.press("m", "enter", "0", "s")
	require.Contains(t, p.view(), "ro.toml: no permission")
	require.Contains(t, p.view(), "Save the house")
	p.press("ctrl+u").typed("mine").press("enter")
	require.Contains(t, p.view(), "Saved in mine.toml")
	require.Equal(t, p.m.s.Text(), p.store.Files["mine.toml"])

	p = newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "ro.toml"}, 80, 24)
	p.store.Locked = map[string]error{"ro.toml": errors.New("ro.toml: no permission")}
	p.press("m", "enter", "0", "q", "y", "ctrl+u").typed("mine").press("enter")
	require.True(t, p.quit, "leaving goes on once it is saved")
}
