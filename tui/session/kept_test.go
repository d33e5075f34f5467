package session_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/tui/session"
)

type kept struct {
	path  string
	there bool
}

func (k kept) Resume() (string, string, bool) { return "text", k.path, k.there }

// Kept answers name their file in full; what a person types need not.
func TestSameFile(t *testing.T) {
	abs, err := filepath.Abs("mine.toml")
	require.NoError(t, err)
	for _, c := range []struct {
		kept, path string
		same       bool
	}{
		{"", "", true},
		{abs, "mine.toml", true},
		{abs, abs, true},
		{"mine.toml", "mine.toml", true},
		{abs, "", false},
		{"", "mine.toml", false},
		{abs, "other.toml", false},
	} {
		require.Equal(t, c.same, session.SameFile(c.kept, c.path), c)
	}
}

func TestWhatBecomesOfKeptAnswersIsSaid(t *testing.T) {
	require.Contains(t, session.KeptNote("/a.toml", "/a.toml"), "copied to a file of their own")
	require.Contains(t, session.KeptNote("/a.toml", "/b.toml"), "stay, and are offered again when /a.toml is opened")
	require.Contains(t, session.KeptNote("", "/b.toml"), "stay, and are offered again at a start without a file")
}

func TestWhatWouldBeReplaced(t *testing.T) {
	none, nameless, ofA := kept{}, kept{there: true}, kept{"/a.toml", true}
	for _, c := range []struct {
		saved, walk  bool
		kept         kept
		target, want string
	}{
		{false, true, nameless, "", session.UnsavedHouse},
		{true, true, nameless, "", session.UnsavedWalk},
		{true, false, none, "", ""},
		{true, false, nameless, "", session.KeptEarlier},
		{true, false, nameless, "/b.toml", ""}, // they stay
		{true, false, ofA, "", ""},
		{true, false, ofA, "/a.toml", ""}, // they are offered
	} {
		require.Equal(t, c.want, session.Replaced(c.saved, c.walk, c.kept, c.target), c)
	}
	require.Empty(t, session.Replaced(true, false, nil, ""))
}

func TestKeptBeside(t *testing.T) {
	path, ok := session.KeptBeside(kept{"/a.toml", true}, "another text")
	require.True(t, ok)
	require.Equal(t, "/a.toml", path)
	_, ok = session.KeptBeside(kept{"/a.toml", true}, "text")
	require.False(t, ok, "the file holds them all")
	_, ok = session.KeptBeside(kept{}, "another text")
	require.False(t, ok)
	_, ok = session.KeptBeside(nil, "")
	require.False(t, ok)
}

func TestSentences(t *testing.T) {
	require.Equal(t, "Files cannot be read here.", session.Sentence(session.NoReading))
	require.Equal(t, "", session.Sentence(""))
	require.Equal(t, "3 places", session.Sentence("3 places"))
}
