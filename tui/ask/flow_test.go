package ask_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/ask"
)

func kept(t *testing.T, s *fixture.Memory) *house.House {
	t.Helper()
	h, err := house.Read(fixture.List(t), "kept", s.Text)
	require.NoError(t, err, s.Text)
	return h
}

func TestEndOfInputKeepsTheAnswersAndIsAnError(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{Echo: true}, "1", "framed", "yes", "VT")
	require.ErrorIs(t, err, ask.ErrEnded)
	h := kept(t, store)
	require.Equal(t, house.Text("framed"), h.Answers["stage"])
	require.Equal(t, house.YesNo(true), h.Answers["old"])
	require.Equal(t, house.Text("VT"), h.Answers["site.state"])
	require.True(t, strings.HasSuffix(out, "\n"), "the shell's prompt comes on a line of its own")

	// Each answer was kept at once, not at the end: a killed program loses none.
	store = fixture.NewMemory()
	p := &partner{}
	lines := []string{"1", "2", "no"}
	p.answer = func(string) (string, bool) {
		if len(lines) == 0 {
			require.Equal(t, house.YesNo(false), kept(t, store).Answers["old"])
			return "", false
		}
		line := lines[0]
		lines = lines[1:]
		return line, true
	}
	require.ErrorIs(t, ask.Run(p, p, ask.Config{List: fixture.List(t), Store: store}), ask.ErrEnded)
}

type failing struct{ err error }

func (f failing) Read([]byte) (int, error)  { return 0, f.err }
func (f failing) Write([]byte) (int, error) { return 0, f.err }

func TestInterruptAndBrokenOutputArePassedOn(t *testing.T) {
	var out strings.Builder
	err := ask.Run(failing{ask.ErrInterrupted}, &out, ask.Config{List: fixture.List(t), Store: fixture.NewMemory()})
	require.ErrorIs(t, err, ask.ErrInterrupted)
	broken := errors.New("broken pipe")
	err = ask.Run(strings.NewReader("quit\n"), failing{broken}, ask.Config{List: fixture.List(t), Store: fixture.NewMemory()})
	require.ErrorIs(t, err, broken)

	store := fixture.NewMemory()
	store.Broken = errors.New("the disk is full")
	text, err := said(t, store, ask.Config{}, "1", "framed", "quit")
	require.ErrorIs(t, err, store.Broken)
	require.Contains(t, text, "could not be kept: the disk is full")

	_, err = said(t, fixture.NewMemory(), ask.Config{}, "quit")
	require.NoError(t, err)
	require.NoError(t, ask.Run(strings.NewReader("3\nsave\nexport\nquit\n"), &out, ask.Config{List: fixture.List(t)}), "without a store")
}

func TestWordsAtAQuestion(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{Echo: true},
		"1",
		"help",       // the stage
		"nonsense",   // not taken, said on a line of its own
		"framed",     //
		"don't know", // whether a part is old
		"back",       // from the state to the older part
		"skip",       // leaves don't know
		"VT",         //
		"Hogwarts",   // doubted
		"Chittenden", //
		"900000",     // too long a house
		"12 ft 6 in", //
		"",           // the width as assumed
		"clear",      // nothing there
		"2",          // stories
		"quit")
	require.NoError(t, err)
	h := kept(t, store)
	require.Equal(t, house.Text("framed"), h.Answers["stage"])
	require.Equal(t, house.DontKnow(), h.Answers["old"])
	require.Equal(t, house.Text("Chittenden"), h.Answers["site.county"])
	require.Equal(t, house.Number(12.5), h.Answers["shape.length_ft"])
	require.NotContains(t, h.Answers, "shape.width_ft")
	require.Equal(t, house.Number(2), h.Answers["shape.stories"])
	require.Contains(t, out, "\nWhy we ask: ")
	require.Contains(t, out, "\nNot taken: \"nonsense\" is not in the list.")
	require.Contains(t, out, "\nYour answer so far: don't know.\n")
	require.Contains(t, out, "\nPlease check: ")
	require.Contains(t, out, "Not taken: Found 900000; want a number of feet from 6 to 500, or don't know.\n")
	require.Contains(t, out, "\nAssumed: 28 ft.")
	require.NotContains(t, out, `"unknown"`, "the word of the file is not that of a person")
}

func TestDontKnowWhereItIsNotOffered(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{}, "1", "don't know", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "Not taken: don't know is not needed here")
	require.False(t, store.Kept)
}

func TestPlacesAreProposedAddedCopiedAndDeleted(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{Echo: true}, "1", "done",
		"copy 1",
		"delete 2", "no",
		"delete 2", "yes",
		"copy 99",
		"add", "3", "\"skip\"", "done", // a place whose name is a word
		"propose",
		"next", "done", "quit")
	require.NoError(t, err)
	h := kept(t, store)
	kinds := []string{}
	for _, p := range h.Places {
		kinds = append(kinds, p.Kind)
	}
	added := fixture.List(t).PlaceKinds()[2]
	require.Equal(t, []string{"attic", "crawl-space", "chimney", "attic", added, "exterior-wall"}, kinds, out)
	require.Equal(t, house.Text("skip"), h.Places[4].Answers["label"])
	require.Contains(t, out, "Nothing is changed.")
	require.Contains(t, out, "Not taken: \"99\" is not a number from 1 to 4, for instance: copy 1.")
	require.Contains(t, out, "The house at a glance")
}

func TestSaveExportAndPlans(t *testing.T) {
	store := fixture.NewMemory()
	store.Files["there.toml"] = "# mine"
	out, err := said(t, store, ask.Config{}, "3",
		"plans", "keep", "quiet house",
		"back", "export", "1", "mine", "export", "2", "mine", "export", "3", "mine.json", "export", "4", "back", "back",
		"save", "there", "there", "save", "quit")
	require.NoError(t, err)
	require.Contains(t, store.Files["mine.txt"], "The house at a glance\n---")
	require.Contains(t, store.Files["mine.md"], "# ")
	require.Contains(t, store.Files["mine.json"], `"schema": 1`)
	require.NotContains(t, store.Files, "mine.csv")
	require.Contains(t, strings.Join(strings.Fields(out), " "), "Not taken: there.toml is there already. The same again overwrites it, and so does yes.")
	h, err := house.Read(fixture.List(t), "there.toml", store.Files["there.toml"])
	require.NoError(t, err)
	require.NotNil(t, h.Variant("quiet house"))
	require.False(t, store.Kept, "what is saved is not kept as well")
}

func TestPriceAndLabelOfABlanket(t *testing.T) {
	store := fixture.NewMemory()
	out, err := said(t, store, ask.Config{Echo: true}, "3", "order", "prices", "1",
		"2", "help", "ten", "10", "3", "15", "4", "93", "5", "clear", "6", "2", "1", "free", "$62.50 a package",
		"2", "back", // stays
		"back", "back", "cut lists", "measured 1", "measured", "quit")
	require.NoError(t, err)
	h := kept(t, store)
	require.Len(t, h.Quotes, len(demoHouse(t).Quotes)+1, out)
	q := h.Quotes[len(h.Quotes)-1]
	require.Equal(t, 62.5, q.USD)
	require.Equal(t, house.PerPackage, q.Per)
	require.Equal(t, []float64{10, 15, 93, 2}, []float64{float64(q.Pieces), q.WidthIn, q.LengthIn, float64(q.Have)})
	require.Contains(t, out, "Not taken: Found \"ten\"")
	require.Contains(t, out, "Not taken: Found \"free\"")
	require.Contains(t, out, "$62.50 a package")
	require.Greater(t, len(h.Places[0].Measured)+strings.Count(out, "cannot have been measured"), 0)
}

func TestLeavingAsksForUnsavedAnswersOfAFile(t *testing.T) {
	for _, c := range []struct {
		answers []string
		saved   bool
	}{
		{[]string{"perhaps", "yes"}, true},
		{[]string{"no"}, false},
		{[]string{"back", "quit", "no"}, false},
	} {
		store := fixture.NewMemory()
		h := demoHouse(t)
		text := house.Write(fixture.List(t), h)
		store.Files["h.toml"] = text
		lines := append([]string{"matters", "", "5", "done", "quit"}, c.answers...)
		_, err := said(t, store, ask.Config{House: h, Path: "h.toml", Text: text}, lines...)
		require.NoError(t, err)
		require.Equal(t, c.saved, store.Files["h.toml"] != text, c.answers)
		require.Equal(t, !c.saved, store.Kept, c.answers)
	}
	store := fixture.NewMemory()
	store.Foreign["h.toml"] = true
	_, err := said(t, store, ask.Config{House: demoHouse(t), Path: "h.toml"}, "save", "back", "quit")
	require.NoError(t, err)
	require.Empty(t, store.Files, "another program's changes are not overwritten unasked")
}

func TestGoingOnWhereOneStopped(t *testing.T) {
	store := fixture.NewMemory()
	_, err := said(t, store, ask.Config{}, "1", "framed", "quit")
	require.NoError(t, err)
	out, err := said(t, store, ask.Config{}, "1", "back", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "Your answer so far: framed.")
	out, err = said(t, store, ask.Config{}, "2", "no", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "would be replaced")
	require.Equal(t, house.Text("framed"), kept(t, store).Answers["stage"])

	store.Files["bad.toml"] = "version = 1\nstage = \"roofed\"\n"
	out, err = said(t, store, ask.Config{}, "5", "bad.toml", "5", "none.toml", "back", "quit")
	require.NoError(t, err)
	require.Contains(t, out, "bad.toml:2")
	require.Contains(t, out, "none.toml: there is no such file")
}
