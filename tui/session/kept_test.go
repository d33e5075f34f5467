package session

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

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
		require.Equal(t, c.same, SameFile(c.kept, c.path), c)
	}
}

func TestWhatBecomesOfKeptAnswersIsSaid(t *testing.T) {
	require.Contains(t, KeptNote("/a.toml", "/a.toml"), "copied to a file of their own")
	require.Contains(t, KeptNote("/a.toml", "/b.toml"), "stay, and are offered again when /a.toml is opened")
	require.Contains(t, KeptNote("", "/b.toml"), "stay, and are offered again at a start without a file")
}

func TestWhatWouldBeReplaced(t *testing.T) {
	none, nameless, ofA := Earlier{}, Earlier{There: true}, Earlier{There: true, Path: "/a.toml"}
	for _, c := range []struct {
		saved, walk  bool
		kept         Earlier
		target, want string
	}{
		{false, true, nameless, "", UnsavedHouse},
		{true, true, nameless, "", UnsavedWalk},
		{true, false, none, "", ""},
		{true, false, nameless, "", KeptEarlier},
		{true, false, nameless, "/b.toml", ""}, // they stay
		{true, false, ofA, "", ""},
		{true, false, ofA, "/a.toml", ""}, // they are offered
	} {
		require.Equal(t, c.want, replaced(c.saved, c.walk, c.kept, c.target), c)
	}
}

func TestSentences(t *testing.T) {
	require.Equal(t, "Files cannot be read here.", Sentence(NoReading))
	require.Equal(t, "", Sentence(""))
	require.Equal(t, "3 places", Sentence("3 places"))
}
