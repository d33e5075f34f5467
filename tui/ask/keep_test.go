package ask_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

// Yes to "is there already" is yes, and no name of a file.
func TestYesOverwrites(t *testing.T) {
	store := fixture.NewMemory()
	store.Files["there.toml"] = "# mine"
	_, err := said(t, store, ask.Config{}, "3", "save", "there", "yes", "quit")
	require.NoError(t, err)
	require.NotEqual(t, "# mine", store.Files["there.toml"])
	require.NotContains(t, store.Files, "yes.toml")
}

// Answers that make room for another house are copied first, and it is said
// where to.
func TestReplacedAnswersAreCopied(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{}, "3", "plans", "keep", "quiet house", "back", "start", "4", "yes", "quit")
	require.NoError(t, err)
	require.Contains(t, store.Files["replaced.toml"], "quiet house")
	require.Contains(t, out, "replaced.toml")
}

// The house file is no place to write something else to.
func TestInputsAreNotOverwritten(t *testing.T) {
	store := fixture.NewMemory()
	store.Files["my.txt"] = "version = 1\n"
	out, _ := said(t, store, ask.Config{Path: "my.txt", House: fixture.Demo(t, demo.Default).House}, "export", "1", "my", "yes", "back", "quit")
	require.Equal(t, "version = 1\n", store.Files["my.txt"])
	require.Contains(t, out, "are read from")
}

// The name of a folder is no name of a file.
func TestAFolderIsSaidToBeOne(t *testing.T) {
	store := fixture.NewMemory()
	store.Folders = map[string]bool{"docs": true}
	out, err := said(t, store, ask.Config{}, "3", "export", "1", "docs", "back", "back", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "docs is a folder")
	require.Empty(t, store.Files)
}
