package tui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// Answers kept for a file are offered when it is opened from the menu, too:
// the first change would replace them.
func TestKeptAnswersAreOfferedFromTheMenu(t *testing.T) {
	later := demoHouse(t)
	later.Answers["stage"] = house.Text("closed")
	var store *fixture.Memory
	for choice, stage := range map[string]string{"1": "closed", "2": demoHouse(t).Answers["stage"].Text} {
		store = fixture.NewMemory()
		store.Files["h.toml"] = house.Write(fixture.List(t), demoHouse(t))
		store.Belongs("h.toml")
		require.NoError(t, store.Autosave(1, house.Write(fixture.List(t), later)))
		p := newPlayer(t, Config{Mono: true, Store: store}, 100, 40)
		p.press("5").typed("h.toml").press("enter")
		require.Contains(t, p.view(), "Answers were kept that are not saved")
		require.Contains(t, p.view(), session.KeptNote("h.toml", "h.toml"))
		p.press(choice)
		require.Contains(t, p.view(), "The house at a glance")
		require.Equal(t, stage, p.m.s.House.Answers["stage"].Text)
	}

	// Those of another file are not in the way, and are not asked about.
	store.Files["other.toml"] = store.Files["h.toml"]
	p := newPlayer(t, Config{Mono: true, Store: store}, 100, 40)
	p.press("5").typed("other.toml").press("enter")
	require.Contains(t, p.view(), "The house at a glance")
}
