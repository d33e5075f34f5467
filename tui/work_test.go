package tui

import (
	"errors"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// stalled is a disk that does not answer before it is told to.
type stalled struct {
	*fixture.Memory
	go_ chan struct{}
}

func (s stalled) wait() { <-s.go_ }

func (s stalled) Autosave(n int, text string) error { s.wait(); return s.Memory.Autosave(n, text) }
func (s stalled) Read(path string) (string, error)  { s.wait(); return s.Memory.Read(path) }
func (s stalled) Changed(path, text string) bool    { s.wait(); return s.Memory.Changed(path, text) }
func (s stalled) Resume() (string, string, bool)    { s.wait(); return s.Memory.Resume() }
func (s stalled) SetAside(text string) (string, error) {
	s.wait()
	return s.Memory.SetAside(text)
}

func (s stalled) Write(path, text string, overwrite bool) error {
	s.wait()
	return s.Memory.Write(path, text, overwrite)
}

// Wherever a file is read or written the loop goes on: the key comes back at
// once, ctrl-c ends, and what was pressed meanwhile acts behind it. If any of
// these waited for the disk, this test would never end.
func TestADiskThatDoesNotAnswerFreezesNothing(t *testing.T) {
	for name, c := range map[string]struct {
		before []string // on a disk that answers
		last   string
		then   string
	}{
		"save":         {[]string{"m", "enter", "0"}, "s", "Saved in a.toml"},
		"open":         {[]string{"g", "up", "up", "up", "up", "enter", "5", "b", "."}, "enter", "b.: there is no such file"},
		"export":       {[]string{"x", "2", "e"}, "enter", "Written to e.txt"},
		"order":        {[]string{"g", "6", "x", "1", "o"}, "enter", "Written to o.txt"},
		"page":         {[]string{"g", "7", "3", "1", "w", "p"}, "enter", "Written to p"},
		"offer":        {[]string{"g", "7", "4", "1", "o"}, "enter", "o: there is no such file"},
		"start screen": {[]string{"g", "up", "up", "up", "up"}, "enter", "Go on with"},
		"new house":    {[]string{"m", "enter", "0", "g", "up", "up", "up", "enter", "2"}, "2", "kept in replaced.toml"},
	} {
		t.Run(name, func(t *testing.T) {
			for _, stop := range []bool{false, true} {
				p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "a.toml"}, 80, 24)
				p.press(c.before...)
				disk := stalled{p.store, make(chan struct{})}
				p.m.s.Store = disk
				p.hold = true
				p.press(c.last)
				for len(p.held) > 0 && p.m.s.busy == 0 { // until the work has begun
					list := p.held
					p.held = nil
					for _, cmd := range list {
						p.run(cmd)
					}
				}
				require.Positive(t, p.m.s.busy, "no work has begun")
				if stop {
					p.press("ctrl+c")
					require.True(t, p.m.Interrupted() && p.m.done)
					next, cmd := p.m.Update(keyOf("ctrl+c"))
					p.m = next.(Model)
					require.IsType(t, tea.QuitMsg{}, cmd(), "a second time waits for nothing")
					close(disk.go_)
					continue
				}
				p.press("down", "f1") // they wait
				require.Len(t, p.m.queue, 2)
				close(disk.go_)
				p.hold = false
				p.settle()
				require.Zero(t, p.m.s.busy)
				require.Empty(t, p.m.queue)
				require.False(t, p.quit)
				_ = c.then
			}
			p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "a.toml"}, 80, 24)
			require.Contains(t, p.press(append(c.before, c.last)...).view(), c.then)
		})
	}
}

// What lasts is said, and only while it lasts.
func TestWhatLastsIsSaid(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	rest := make(chan tea.Msg, 1)
	p.m.s.busy, p.m.s.doing = 1, "Trying other answers"
	p.hold = true
	p.send(slowMsg{rest})
	require.Contains(t, p.view(), "Trying other answers ... ctrl+c stops.")
	p.send(doneMsg{})
	require.NotContains(t, p.view(), "Trying other answers")
}

// A fault in work outside the loop ends where the terminal is restored: in it.
func TestFaultOutsideTheLoop(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	msg := p.m.s.work("Failing", func() func(*state) tea.Cmd { panic("a fault") })()
	require.Panics(t, func() { p.m.Update(msg) })
}

// The frame that shows what an answer led to waits until the answer is kept.
func TestAnswersAreKeptBeforeTheirFrame(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "a.toml"}, 80, 24)
	p.press("m", "enter")
	before := p.view()
	p.store.Kept, p.hold = false, true
	p.press("0")
	require.Equal(t, before, p.view(), "nothing kept yet")
	require.False(t, p.store.Kept)
	p.press("down")
	require.Equal(t, before, p.view())
	p.hold = false
	p.settle()
	require.True(t, p.store.Kept)
	require.Contains(t, p.view(), "lowest price          0")
	p.hold = true
	p.press("up", "1")
	before = p.view()
	p.send(slowMsg{make(chan tea.Msg)})
	require.NotEqual(t, before, p.view(), "a slow disk holds nobody up")
	require.Contains(t, p.view(), "not kept yet")
}

// Leaving asks where answers could not be kept, with a file name and without,
// and says so at the end where they are given up.
func TestLeavingWithAnswersThatCouldNotBeKept(t *testing.T) {
	for _, path := range []string{"", "a.toml"} {
		begin := func() *player {
			c := Config{Mono: true, Path: path}
			if path != "" {
				c.House = house.New()
			}
			p := newPlayer(t, c, 80, 24)
			p.store.Broken = errors.New("the disk is full")
			if path == "" {
				p.press("1")
			}
			return p.press("2", "q")
		}
		p := begin()
		require.False(t, p.quit, path)
		require.Contains(t, strings.Join(strings.Fields(p.view()), " "), "could not be kept: the disk is full. Save them in a file before you leave?")
		require.Contains(t, p.press("b", "q", "n").m.lost(), "the disk is full")
		require.True(t, p.quit)

		p = begin().press("y")
		if path == "" {
			p.typed("mine").press("enter")
			path = "mine.toml"
		}
		require.True(t, p.quit, p.view())
		require.Contains(t, p.store.Files[path], `stage = "framed"`)
		require.Empty(t, p.m.lost())
	}
	p := newPlayer(t, Config{Mono: true}, 80, 24) // saving is thought better of
	p.store.Broken = errors.New("the disk is full")
	p.press("1", "2", "q", "y", "esc", "s").typed("mine").press("enter")
	require.False(t, p.quit, "leaving was called off")
	require.Contains(t, p.store.Files["mine.toml"], `stage = "framed"`)
}

// Yes to "is there already" is yes, and the house is no place to write something
// else to.
func TestOverwritingIsAnsweredAndInputsAreSafe(t *testing.T) {
	for _, yes := range []string{"y", "Yes"} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "a.toml"}, 80, 24)
		p.store.Files["mine.txt"] = "somebody's own"
		p.press("x", "2").typed("mine").press("enter").typed(yes).press("enter")
		require.Contains(t, p.view(), "Written to mine.txt")
		require.NotContains(t, p.store.Files, yes+".txt")
	}
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t), Path: "a.toml"}, 80, 24)
	p.store.Files["a.toml"] = "the house"
	p.press("g", "7", "3", "1", "w").typed("a.toml").press("enter", "enter")
	require.Equal(t, "the house", p.store.Files["a.toml"])
	require.Contains(t, p.view(), "your house or its offers are read from")
}

// Back leads to the screen before, whatever led here.
func TestBackIsTheScreenBefore(t *testing.T) {
	for _, c := range []struct{ keys []string }{{[]string{"m"}}, {[]string{"n"}}, {[]string{"n", "ctrl+l", "b"}}, {[]string{"g", "1"}}, {[]string{"g", "7"}}, {[]string{"g", "6"}}} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		before := p.view()
		p.press(c.keys...).press("esc")
		require.Equal(t, before, p.view(), "%q", c.keys)
	}
	for key, title := range map[string]string{"8": "Find-out list", "9": "Export the recommendation"} {
		p := newPlayer(t, Config{Mono: true}, 80, 24)
		start := p.view()
		require.Contains(t, p.press("g", key).view(), title)
		require.Equal(t, start, p.press("esc").view(), "from the start screen back to it")
	}
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1", "2", "esc")
	f := p.m.top().(*form)
	require.Equal(t, "stage", f.fields[f.active].q.FullKey(), "in the first form, the question before")
	p.press("b")
	require.Contains(t, p.view(), "This is the first question. g leads to every step and to the start screen.")
	require.Equal(t, session.AtHouse, p.m.top().Step(), "with answers, never the start screen")
}

// What is half typed is kept when the program is stopped, and one key does not
// lose answers that could not be kept.
func TestStoppingLosesNothingTyped(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("shape.length_ft").typed("33").press("ctrl+c")
	require.True(t, p.quit)
	require.Contains(t, p.store.Text, "length_ft = 33")

	p = newPlayer(t, Config{Mono: true}, 80, 24)
	p.store.Broken = errors.New("the disk is full")
	p.press("1", "2", "ctrl+c")
	require.False(t, p.quit, "it asks first")
	require.Contains(t, strings.Join(strings.Fields(p.view()), " "), "Save them in a file before you leave?")
	p.press("ctrl+c")
	require.True(t, p.quit, "the second one ends")
}

// A half-filled form opens where it was left.
func TestAHalfFilledFormOpensWhereItWas(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("shape.length_ft").typed("61").press("enter", "ctrl+c")
	again := newPlayer(t, Config{Mono: true, Store: p.store}, 80, 24).press("1")
	f := again.m.top().(*form)
	require.Equal(t, "shape.width_ft", f.fields[f.active].q.FullKey())
	again.toStart().press("1")
	f = again.m.top().(*form)
	require.Equal(t, "shape.width_ft", f.fields[f.active].q.FullKey(), "from the start screen too")
}

// A terminal that does not know its size is taken for one of 80 by 24.
func TestNoSizeIsTheUsualSize(t *testing.T) {
	want := newPlayer(t, Config{Mono: true}, 80, 24).view()
	require.Equal(t, want, newPlayer(t, Config{Mono: true}, 0, 0).view())
}

// The longest question stays above its options, and the cursor in view.
func TestLongListsKeepQuestionAndCursor(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("2").ask("site.zone")
	for range 20 {
		require.Contains(t, p.view(), "Climate zone", "its question")
		require.LessOrEqual(t, strings.Count(p.view(), "\n"), 23)
		p.press("right")
		f := p.m.top().(*form)
		require.Contains(t, p.view(), "› "+session.Choices(f.fields[f.active].q)[f.fields[f.active].cursor].Label.String(), "the cursor")
	}
}

// Home and end lead to the ends of a long page, and a page that shows something
// else begins at its top.
func TestEndsOfLongPages(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	top := p.press("x", "1").view()
	p.press("end")
	require.NotContains(t, p.view(), "more below")
	require.Contains(t, p.view(), "more above")
	require.Equal(t, top, p.press("home").view())
	p = newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 60, 16)
	p.press("down", "down", "enter", "pgdn", "pgdn", "w")
	require.Contains(t, p.view(), ": why", "the first line of what was opened")
}

// No notice is taller than a small window leaves room for.
func TestLongNoticesFit(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 40, 10)
	p.m.s.notice = "Saved in " + strings.Repeat("a/very/long/path/", 60)
	require.Equal(t, 9, strings.Count(p.view(), "\n"))
}

// The name of a folder is no name of a file, with an ending or without.
func TestAFolderIsSaidToBeOne(t *testing.T) {
	for _, keys := range [][]string{{"s"}, {"x", "2"}, {"g", "6", "x", "1"}} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.store.Folders = map[string]bool{"docs": true, "docs/": true}
		for _, name := range []string{"docs", "docs/"} {
			p = newPlayer(t, Config{Mono: true, House: demoHouse(t), Store: p.store}, 80, 24)
			p.press(keys...).typed(name).press("enter")
			require.Contains(t, p.view(), name+" is a folder", "%q", keys)
			require.Empty(t, p.store.Files)
		}
	}
}

// Where the footer of a small window has no room for a key, the help of the
// question has it.
func TestKeysWithoutRoomAreInTheHelp(t *testing.T) {
	for name, want := range map[string][]string{"money": {" l what the next dollars buy", " g go to"}, "matters-help": {"g go to"}} {
		p := at(t, stopNamed(t, name), Config{Mono: true}, 60, 20)
		if name == "money" {
			p.press("?")
		}
		shown := p.view()
		for range 4 {
			shown += p.press("pgdn").view()
		}
		for _, key := range want {
			require.Contains(t, strings.Join(strings.Fields(shown), " "), key, name)
		}
	}
}

// Long work says how far it is, and esc leaves it for the screen before.
func TestLongWorkSaysHowFarItIsAndCanBeLeft(t *testing.T) {
	h := fixture.Read(t, fixture.PlacesText("zone = \"6A\"", "id = \"a\"\nkind = \"attic\"")).House
	p := newPlayer(t, Config{Mono: true, House: h}, 100, 24)
	before := p.view()
	p.press("g")
	p.hold = true
	p.press("8")
	for len(p.held) > 0 && p.m.s.busy == 0 { // until the work has begun
		list := p.held
		p.held = nil
		for _, cmd := range list {
			p.run(cmd)
		}
	}
	require.NotNil(t, p.m.s.track, "no work has begun")
	require.True(t, p.m.s.track.Tell(12, 40))
	p.m.s.slow = true
	require.Contains(t, p.view(), "Trying other answers: looked at 12 of 40 questions ... esc leaves it, ctrl+c stops.")
	p.press("x", "esc")
	require.False(t, p.m.s.track.Tell(13, 40))
	p.hold = false
	p.settle()
	require.Zero(t, p.m.s.busy)
	require.Nil(t, p.m.s.track)
	require.Nil(t, p.m.s.Tried())
	require.Equal(t, before, p.view())
	require.Contains(t, p.press("g", "8").view(), "Find-out list", "it can be asked for again")
	require.NotNil(t, p.m.s.Tried())
}
