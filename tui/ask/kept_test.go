package ask_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
	"battwright/tui/session"
)

// crashed is a store as a killed program leaves it: a file, and answers beside
// it that the file does not hold.
func crashed(t *testing.T) (store *fixture.Memory, cfg ask.Config) {
	t.Helper()
	h := demoHouse(t)
	text := house.Write(fixture.List(t), h)
	later := demoHouse(t)
	later.Answers["stage"] = house.Text("closed")
	store = fixture.NewMemory()
	store.Files["h.toml"], store.Kept, store.Text = text, true, session.Began(text)+house.Write(fixture.List(t), later)
	require.NotEqual(t, text, store.Text)
	return store, ask.Config{House: h, Path: "h.toml", Text: text}
}

// Answers that a file does not hold are offered when it is opened, and stay
// until they are taken up or something else is answered.
func TestKeptAnswersBesideAFile(t *testing.T) {
	store, cfg := crashed(t)
	before := store.Text
	out, err := said(t, store, cfg, "save", "help", "2", "save", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "Answers were kept that are not saved")
	require.Contains(t, out, "Not taken: type 1, 2 or quit.", "save is no choice here")
	require.True(t, store.Kept, "nothing was changed: what is kept is still wanted")
	require.Equal(t, before, store.Text)
	require.Equal(t, cfg.Text, store.Files["h.toml"])

	store, cfg = crashed(t)
	_, err = said(t, store, cfg, "1", "save", "somewhere", "quit")
	require.NoError(t, err)
	require.Contains(t, store.Files["somewhere.toml"], `stage = "closed"`)
	require.False(t, store.Kept, "a file has them now")

	store, cfg = crashed(t)
	_, err = said(t, store, cfg, "quit")
	require.NoError(t, err)
	require.True(t, store.Kept)

	store, cfg = crashed(t)
	store.Text = cfg.Text
	out, err = said(t, store, cfg, "quit")
	require.NoError(t, err)
	require.NotContains(t, out, "Answers were kept", "the file holds them all")
}

// What is answered after a house got its file is kept for that file.
func TestKeptAnswersFollowANewName(t *testing.T) {
	store := fixture.NewMemory()
	_, err := said(t, store, ask.Config{}, "3", "save", "mine", "matters", "", "5", "done", "quit", "no")
	require.NoError(t, err)
	require.Contains(t, store.Files, "mine.toml")
	_, of, kept := store.Resume()
	require.True(t, kept)
	require.Equal(t, "mine.toml", of)
}

// No file that is not there yet is gone on with: leaving the kept answers leads
// to the ways to begin it.
func TestAFileThatIsNotThereIsNotGoneOnWith(t *testing.T) {
	store, cfg := crashed(t)
	delete(store.Files, "h.toml")
	out, err := said(t, store, ask.Config{House: house.New(), Path: cfg.Path, New: true}, "2", "quit")
	require.NoError(t, err)
	has(t, out, "2. Begin a new house.")
	require.NotContains(t, out, "file as it is")
	has(t, out, "A new house, ready to order")
}

// A file that was changed after answers were kept for it comes first, and is not
// saved over without a question.
func TestKeptAnswersOlderThanTheirFile(t *testing.T) {
	for says, save := range map[string][]string{"back": {"back"}, "the same again": {"h.toml", "yes"}} {
		store, cfg := crashed(t)
		changed := strings.Replace(cfg.Text, "non_ic_lights = false", "non_ic_lights = true", 1)
		require.NotEqual(t, cfg.Text, changed)
		store.Files["h.toml"], cfg.Text = changed, changed
		store.Belongs("h.toml")
		require.NoError(t, store.Autosave(1, store.Text))
		out, err := said(t, store, cfg, append(append([]string{"2", "save"}, save...), "quit", "no")...)
		require.NoError(t, err)
		has(t, out, "h.toml was changed after these answers were kept. The program")
		has(t, out, "1. Go on with the file as it is.")
		has(t, out, "h.toml was changed after these answers were kept: save under another name")
		require.Equal(t, says == "back", store.Files["h.toml"] == changed)
	}
}

// From the start menu such answers are offered beside their file too.
func TestOlderKeptAnswersFromTheStart(t *testing.T) {
	store, cfg := crashed(t)
	store.Files["h.toml"] = strings.Replace(cfg.Text, "non_ic_lights = false", "non_ic_lights = true", 1)
	store.Belongs("h.toml")
	require.NoError(t, store.Autosave(1, store.Text))
	changed := store.Files["h.toml"]
	out, err := said(t, store, ask.Config{}, "1", "2", "save", "back", "quit", "no")
	require.NoError(t, err)
	has(t, out, "1. Go on with the file as it is.")
	has(t, out, "h.toml was changed after these answers were kept: save under another name")
	require.Equal(t, changed, store.Files["h.toml"])
}
