package tui

import (
	"strings"
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

// No file that is not there yet is gone on with: leaving the kept answers leads
// to the ways to begin it.
func TestAFileThatIsNotThereIsNotGoneOnWith(t *testing.T) {
	for _, of := range []string{"", "new.toml"} {
		store := fixture.NewMemory()
		store.Belongs(of)
		require.NoError(t, store.Autosave(1, house.Write(fixture.List(t), demoHouse(t))))
		p := newPlayer(t, Config{Mono: true, Store: store, House: house.New(), Path: "new.toml", New: true}, 100, 40)
		require.Contains(t, p.view(), "Answers were kept that are not saved")
		require.NotContains(t, p.view(), "file as it is")
		p.press("2")
		require.Contains(t, p.view(), "A new house, ready to order")
		require.Contains(t, strings.Join(strings.Fields(p.view()), " "), "new.toml is not there yet")
		require.NotContains(t, p.view(), "Go on with new.toml")
		p.press("down", "enter", "1")
		require.Equal(t, "new.toml", p.m.s.Path)
		require.Equal(t, session.AtHouse, p.m.top().Step())
		require.NotEmpty(t, p.m.s.House.Answers)
	}
}
