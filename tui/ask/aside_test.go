package ask_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

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
