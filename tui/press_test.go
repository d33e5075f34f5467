package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// burst is several keys in one message, as a slow line or a macro sends them.
func burst(text string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text)} }

// A burst does what the same keys do one by one, also where a key leads to
// another screen and where a text field comes up on the way.
func TestBurstIsKeysOneByOne(t *testing.T) {
	for _, text := range []string{"3m", "3mgg", "3g6p", "3g7541", "2Elm", "3nl", "1221", "3gg4n", "3gs", "3q", "/craft"} {
		slow := newPlayer(t, Config{Mono: true}, 80, 24).typed(text)
		fast := newPlayer(t, Config{Mono: true}, 80, 24)
		fast.send(burst(text))
		require.Equal(t, slow.view(), fast.view(), text)
		require.Equal(t, slow.quit, fast.quit, text)
		require.Equal(t, slow.m.s.Text(), fast.m.s.Text(), text)
		require.Empty(t, fast.m.queue, text)
	}
}

// Keys that arrive while a burst is being worked off come after it.
func TestKeysWaitBehindABurst(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.hold = true
	p.send(burst("3g"))
	p.press("2")
	p.hold = false
	p.settle()
	require.Contains(t, p.view(), "The places to insulate")
	p.hold = true
	p.send(burst("gg"))
	p.press("ctrl+c") // stopping never waits
	require.True(t, p.m.Interrupted())
}

// A paste is one thing: outside a text field its letters are no keys.
func TestPasteIsNoBurst(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	before := p.view()
	p.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("q3n"), Paste: true})
	require.Equal(t, before, p.view())
	require.False(t, p.quit)
}

// What was said goes with the next key, whatever it was.
func TestNoticesGoWithTheNextKey(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.press("x", "2").typed("mine").press("enter")
	require.Contains(t, p.view(), "Written to mine.txt")
	p.press("down")
	require.NotContains(t, p.view(), "Written to")
	p.press("m", "enter", "0")
	require.Contains(t, p.view(), "lowest price          0")
	changed := p.m.s.Changed
	require.NotEmpty(t, changed)
	p.press("down")
	require.Empty(t, p.m.s.Changed)
	p.press("s").typed("mine").press("enter", "s")
	require.Contains(t, p.view(), "Saved in mine.toml", "said again when it is done again")
}

// A question asked by a notice is asked again once the notice is gone.
func TestForgottenQuestionIsAskedAgain(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("shape.length_ft").typed("61").press("enter").toStart()
	p.press("4")
	require.Contains(t, p.view(), "would be replaced")
	p.press("down")
	require.NotContains(t, p.view(), "would be replaced")
	p.press("4")
	require.Contains(t, p.view(), "would be replaced")
	require.Equal(t, 61.0, p.m.s.Answered().Num(house.Shape, nil, "length_ft"))
}

// Answers that cannot be kept are said until they can.
func TestUnkeptAnswersAreSaidUntilTheyAre(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.store.Broken = errors.New("the disk is full")
	p.press("1", "2")
	require.Contains(t, p.view(), "could not be kept: the disk is full")
	p.press("down", "up")
	require.Contains(t, p.view(), "could not be kept: the disk is full")
	p.store.Broken = nil
	p.press("1")
	require.NotContains(t, p.view(), "could not be kept")
}

// g opens the menu of the steps, and closes it.
func TestGoToDoesNotStack(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	before, depth := p.view(), len(p.m.stack)
	p.press("g")
	require.Len(t, p.m.stack, depth+1)
	require.NotContains(t, p.view(), "g go to")
	p.press("g")
	require.Equal(t, before, p.view())
	require.Len(t, p.m.stack, depth)
}

// ctrl+s takes in what is valid, and says what it could not.
func TestSavingTakesInWhatIsTyped(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "a.toml"}, 80, 24)
	p.press("g", "1").ask("shape.length_ft").press("ctrl+u").typed("44 ft").press("ctrl+s")
	require.Contains(t, p.store.Files["a.toml"], "length_ft = 44")
	require.Contains(t, p.view(), "Saved in a.toml")
	require.False(t, p.store.Kept, "what is saved need not be kept")
	require.True(t, p.m.s.Saved)
	p.press("ctrl+u").typed("4000").press("ctrl+s")
	require.Contains(t, p.view(), "Not in it: what is still typed here")
	require.Contains(t, p.view(), "a number of feet from 6 to 500")
	require.NotContains(t, p.store.Files["a.toml"], "4000")

	p = newPlayer(t, Config{Mono: true}, 80, 24) // no file yet
	p.press("1").ask("site.state").typed("VT").press("ctrl+s")
	require.Contains(t, p.view(), "Save the house")
	require.Contains(t, p.store.Text, `state = "VT"`, "kept even if no name is given")
	p.typed("b").press("ctrl+s")
	require.Contains(t, p.store.Files["b.toml"], `state = "VT"`)
	require.Len(t, p.m.stack, 2, "one question for a name at a time")
	p.ask("site.county").typed("Windsor").press("enter")
	_, of, kept := p.store.Resume()
	require.True(t, kept)
	require.Equal(t, "b.toml", of, "later answers belong to the file just made")
}

// A walk through the finished work takes in what is typed, too.
func TestSavingTakesInTheWalk(t *testing.T) {
	p := onCheck(t, Config{Mono: true, Path: "a.toml"})
	p.press("5", "3").ask("place.void_pct").typed("3").press("ctrl+s")
	require.Equal(t, house.Number(3), p.m.s.Walk().House.Place("street-wall").Answers["void_pct"])
	require.Contains(t, p.store.Text, "#| void_pct = 3")
}

// brokenStore is a disk on which something is wrong; it counts how often it is read.
type brokenStore struct {
	*fixture.Memory
	err   error
	reads int
}

func (s *brokenStore) Write(path, text string, overwrite bool) error {
	if s.err != nil {
		return s.err
	}
	return s.Memory.Write(path, text, overwrite)
}

func (s *brokenStore) Resume() (string, string, bool) {
	s.reads++
	return s.Memory.Resume()
}

// Only a file that is there can be overwritten by the same name again. What
// else is wrong is said as it is, wherever something is written.
func TestOnlyWhatIsThereIsOverwritten(t *testing.T) {
	for name, keys := range map[string][]string{
		"save": {"s"}, "export": {"x", "2"}, "order": {"g", "6", "x", "1"}, "page": {"g", "7", "3", "1", "w"},
	} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		s := &brokenStore{Memory: p.store, err: errors.New("no/mine: there is no such file or folder")}
		p.m.s.Store = s
		p.press(keys...).typed("mine").press("enter")
		require.Contains(t, p.view(), "there is no such file or folder.", name)
		require.NotContains(t, p.view(), "overwrites", name)
		for _, ext := range []string{"mine.toml", "mine.txt", "mine"} {
			s.Files[ext] = "somebody's own"
		}
		s.err = nil // the folder is made, and holds a file of the name
		p.press("enter")
		require.Contains(t, p.view(), "The same again overwrites it", name)
		for file, text := range s.Files {
			require.Equal(t, "somebody's own", text, "%s: %s", name, file)
		}
		p.press("enter")
		require.NotContains(t, p.view(), "is there already", name)
	}
}

// The start screen knows of kept answers without reading a disk while it is
// drawn, and learns of new ones when it comes up again.
func TestDrawingReadsNoDisk(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	s := &brokenStore{Memory: p.store}
	p.m.s.Store = s
	require.NotContains(t, p.view(), "Go on where you stopped")
	require.NoError(t, s.Autosave(1, "version = 1\n"))
	p.press("g", "g")
	reads := s.reads
	for range 20 {
		p.resize(80, 24).press("down")
		require.Contains(t, p.view(), "Go on where you stopped")
	}
	require.Equal(t, reads, s.reads)
}

// A question mark alone is no place to live in.
func TestQuestionMarkIsNoAnswer(t *testing.T) {
	for _, key := range []string{"site.state", "site.county", "name"} {
		for _, leave := range []string{"enter", "tab", "ctrl+s"} {
			p := newPlayer(t, Config{Mono: true}, 80, 24)
			p.press("2").ask(key).press("?")
			require.Contains(t, p.view(), "Why we ask", key)
			p.press("esc")
			p.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(" ? "), Paste: true})
			p.press(leave)
			a := p.m.s.Answered().Raw(find(t, key), nil)
			require.NotEqual(t, house.Given, a.State, "%s left with %s", key, leave)
			require.NotContains(t, p.m.s.Text(), `"?"`)
		}
	}
}

func find(t *testing.T, key string) house.Question {
	t.Helper()
	q, ok := fixture.List(t).Find(key)
	require.True(t, ok, key)
	return q
}

// A file that is not there yet is a new house, and saving puts it there.
func TestNewFile(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: house.New(), Path: "new.toml", New: true}, 80, 24)
	require.Contains(t, p.view(), "new.toml is not there yet")
	require.Contains(t, p.view(), "A new house, ready to order", "how to begin it is asked first")
	require.NotContains(t, p.view(), "Go on with")
	p.press("1", "2", "s")
	require.Contains(t, p.store.Files["new.toml"], `stage = "framed"`)
	require.True(t, strings.Contains(p.view(), "Saved in new.toml"), p.view())
}

// Saving a file as it is keeps what an earlier time left beside it: it was
// offered, and not taken up.
func TestSavingUnchangedKeepsWhatWasNotTakenUp(t *testing.T) {
	store := fixture.NewMemory()
	text := house.Write(fixture.List(t), demoHouse(t))
	store.Files["a.toml"], store.Kept, store.Text = text, true, strings.Replace(text, "stage = ", "# kept\nstage = ", 1)
	p := newPlayer(t, Config{Mono: true, Store: store, House: demoHouse(t), Path: "a.toml", Text: text}, 80, 24)
	require.Contains(t, p.view(), "Answers were kept that are not saved")
	p.press("2", "s")
	require.Contains(t, p.view(), "Saved in a.toml")
	require.True(t, store.Kept)
}

// That nothing changed is said on the screen where it was, and goes with it.
func TestNoChangeGoesWithTheScreen(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.press("g", "5").ask("budget.stakes").press("2")
	require.Equal(t, session.AtOrder, p.m.top().Step(), "the last question leads on")
	require.NotContains(t, p.view(), pages.NoChange)
}

// Enter opens the place under the cursor of the table, and on its page the
// answers behind it.
func TestEnterOpensThePlace(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.press("g", "4", "down", "enter")
	require.Contains(t, p.view(), "Sloped ceiling of the living room, 540 ft2")
	p.press("enter")
	require.Contains(t, p.view(), "Size first, then what it is made of.")
	p.press("esc", "w", "enter")
	require.Contains(t, p.view(), "Size first, then what it is made of.", "from the reasons too")
}
