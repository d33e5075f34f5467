package ask_test

import (
	"testing"

	"github.com/stretchr/testify/require"

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
