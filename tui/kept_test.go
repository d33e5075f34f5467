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
		require.NoError(t, store.Autosave(1, session.Began(store.Files["h.toml"])+house.Write(fixture.List(t), later)))
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

// A file that was changed after answers were kept for it, by hand or in another
// window, is the first choice then, and is not saved over without a question.
// Kept answers that do not tell what they began from are taken for older.
func TestKeptAnswersOlderThanTheirFile(t *testing.T) {
	text := house.Write(fixture.List(t), demoHouse(t))
	kept := strings.Replace(text, "length_ft = 40", "length_ft = 36", 1)
	changed := strings.Replace(text, "non_ic_lights = false", "non_ic_lights = true", 1)
	require.NotEqual(t, text, kept)
	require.NotEqual(t, text, changed)
	for _, c := range []struct{ began, says string }{
		{session.Began(text), "h.toml was changed after these answers were kept."},
		{"", "h.toml may have been changed after these answers were kept."},
	} {
		for name, begin := range map[string]func(*fixture.Memory) *player{
			"named": func(m *fixture.Memory) *player {
				h, err := house.Read(fixture.List(t), "h.toml", changed)
				require.NoError(t, err)
				return newPlayer(t, Config{Mono: true, Store: m, House: h, Path: "h.toml", Text: changed}, 100, 40)
			},
			"beside another": func(m *fixture.Memory) *player {
				return newPlayer(t, Config{Mono: true, Store: m, House: demoHouse(t), Path: "other.toml", Text: text}, 100, 40)
			},
			"from the start": func(m *fixture.Memory) *player {
				return newPlayer(t, Config{Mono: true, Store: m}, 100, 40).press("1")
			},
			"opened": func(m *fixture.Memory) *player {
				return newPlayer(t, Config{Mono: true, Store: m}, 100, 40).press("5").typed("h.toml").press("enter")
			},
		} {
			store := fixture.NewMemory()
			store.Files["h.toml"] = changed
			store.Belongs("h.toml")
			require.NoError(t, store.Autosave(1, c.began+kept))
			p := begin(store)
			require.Contains(t, p.view(), c.says, name)
			require.Contains(t, p.view(), "› 1  Go on with the file as it is", name)
			p.press("2", "s")
			require.Contains(t, p.view(), strings.TrimSuffix(c.says, "."), name)
			require.Contains(t, p.view(), "Save the house", name)
			require.Equal(t, changed, store.Files["h.toml"], name)

			// What is kept from then on still tells of it.
			p.press("esc", "m", "enter", "0")
			require.True(t, strings.HasPrefix(store.Text, c.began), store.Text)
			require.Equal(t, changed, store.Files["h.toml"], name)
		}
	}

	// Saved again, it is no longer older.
	store := fixture.NewMemory()
	store.Files["h.toml"] = changed
	store.Belongs("h.toml")
	require.NoError(t, store.Autosave(1, session.Began(text)+kept))
	p := newPlayer(t, Config{Mono: true, Store: store}, 100, 40).press("1", "2", "s", "enter", "enter")
	require.Contains(t, store.Files["h.toml"], "length_ft = 36")
	p.press("m", "enter", "0", "s")
	require.Contains(t, p.view(), "Saved in h.toml")
}

// Back leaves the kept answers, and they are not lost by it.
func TestBackKeepsTheKeptAnswers(t *testing.T) {
	store, text := fixture.NewMemory(), house.Write(fixture.List(t), demoHouse(t))
	kept := session.Began(text) + strings.Replace(text, "length_ft = 40", "length_ft = 36", 1)
	store.Files["h.toml"] = text
	store.Belongs("h.toml")
	require.NoError(t, store.Autosave(1, kept))
	p := newPlayer(t, Config{Mono: true, Store: store, House: demoHouse(t), Path: "h.toml", Text: text}, 100, 40)
	require.Contains(t, p.view(), "Answers were kept")
	p.press("b")
	require.Contains(t, p.view(), "The house at a glance")
	require.Contains(t, p.view(), session.CopyIn("replaced.toml"))
	p.press("m", "enter", "0")
	require.Equal(t, kept, store.Files["replaced.toml"])
}
