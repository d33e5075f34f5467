package ask_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/print"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
	"battwright/tui"
	"battwright/tui/ask"
)

// site is a store with the offers and the finished work of the demo house.
func site(t testing.TB) *fixture.Memory {
	t.Helper()
	s := fixture.NewMemory()
	for _, name := range []string{"full", "bold", "metric"} {
		s.Files[name+".toml"] = fixture.File(t, "offers/"+name+".toml")
	}
	for _, name := range []string{"mixed", "chimney-stop"} {
		s.Files[name+".toml"] = fixture.File(t, "finished/"+name+".toml")
	}
	return s
}

func demoJob(t testing.TB) inspect.Job {
	t.Helper()
	return planned.Job(fixture.Read(t, demo.Text(demo.Default)))
}

// has says only what is missing from a long text.
func has(t testing.TB, text, part string, why ...any) {
	t.Helper()
	require.True(t, strings.Contains(text, part), "missing: %q %v", part, why)
}

// keysOf presses what is typed on the screens: words in angle brackets are
// keys with a name.
func (s *screens) keysOf(list ...string) {
	named := map[string]tea.KeyType{"enter": tea.KeyEnter, "up": tea.KeyUp, "down": tea.KeyDown}
	for _, k := range list {
		if t, ok := named[k]; ok {
			s.press(tea.KeyMsg{Type: t})
			continue
		}
		s.press(runes(k))
	}
}

// What is written to files is the same by lines and by screens, and is what
// the commands print.
func TestCheckFilesAreThoseOfTheScreens(t *testing.T) {
	here := site(t)
	out, err := said(t, here, ask.Config{}, "3", "check",
		"sheets", "write", "sheets.txt", "back",
		"pages", "write 2", "framer.txt", "write 1", "installer.txt", "back",
		"offers", "blank", "blank.toml", "open", "full.toml", "open", "bold.toml", "open", "metric.toml", "write", "offers.txt", "back",
		"finished work", "write form", "form.txt", "open", "mixed.toml", "write", "found.toml", "write result", "found.txt", "back", "quit")
	require.NoError(t, err)
	require.Equal(t, 0, strings.Count(out, "Not taken"), "every word is one")

	there := site(t)
	s := &screens{t: t, store: there, m: tui.NewModel(tui.Config{List: fixture.List(t), Store: there, House: demoHouse(t), Mono: true, ASCII: true})}
	s.send(tea.WindowSizeMsg{Width: 100, Height: 60})
	s.keysOf("g", "7", "2", "9", "sheets.txt", "enter", "b")
	s.keysOf("3", "2", "w", "framer.txt", "enter", "b", "1", "w", "installer.txt", "enter", "b", "b")
	s.keysOf("4", "2", "blank.toml", "enter", "1", "full.toml", "enter", "b", "1", "bold.toml", "enter", "b", "1", "metric.toml", "enter", "w", "offers.txt", "enter", "b", "b")
	s.keysOf("5", "up", "enter", "w", "form.txt", "enter", "b", "up", "enter", "mixed.toml", "enter", "up", "enter", "found.toml", "enter", "up", "enter", "w", "found.txt", "enter")
	require.Len(t, there.Files, 5+8)
	require.Equal(t, there.Files, here.Files)

	j, o := demoJob(t), planned.Options(t)
	sheets, err := planned.Handed(pages.Handover{Job: j}, o)
	require.NoError(t, err)
	require.Equal(t, sheets, here.Files["sheets.txt"])
	framer, err := planned.Handed(pages.Handover{Job: j, Person: "framer"}, o)
	require.NoError(t, err)
	require.Equal(t, framer, here.Files["framer.txt"])
	require.Equal(t, inspect.OfferTemplate(j), here.Files["blank.toml"])
	require.Equal(t, print.Text(pages.FormPage(j), o.Width), here.Files["form.txt"])
	var all []inspect.OfferResult
	for _, name := range []string{"full", "bold", "metric"} {
		offer, _ := inspect.ReadOffer(j, name+".toml", here.Files[name+".toml"])
		all = append(all, inspect.JudgeOffer(j, offer))
	}
	_, compared, _ := strings.Cut(print.Text(pages.OffersPage(j, all, nil, o), o.Width), "\n\n")
	require.True(t, strings.HasSuffix(here.Files["offers.txt"], compared))
	require.Contains(t, here.Files["offers.txt"], "Could not be read\n"+strings.Repeat("-", 78)+"\n- metric.toml:5: total_eur")
	h, notes, problems := inspect.ReadFound(inspect.FoundList(j.Catalog()), j, "mixed.toml", here.Files["mixed.toml"])
	require.Empty(t, append(notes, problems...))
	require.Equal(t, print.Text(pages.FoundPage(j, inspect.JudgeFound(j, h, nil), o), o.Width), here.Files["found.txt"])
}

func TestOffersOpenedReadAgainAndClosed(t *testing.T) {
	store := site(t)
	store.Files["fourth.toml"] = store.Files["full.toml"]
	out, err := said(t, store, ask.Config{Echo: true}, "3", "check", "offers",
		"compare", // nothing is open
		"open", "help", "nowhere.toml", "metric.toml",
		"open", "full.toml", "open", "bold.toml",
		"open", "fourth.toml", // one too many
		"open", "bold.toml", // again
		"close", "close 9", "close 1", "back", "help", "offers", "back", "back", "quit")
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	has(t, out, "Not taken: \"compare\" is not offered here.")
	has(t, out, "Not taken: nowhere.toml: there is no such file")
	has(t, flat, "metric.toml:25: part[3].material: found \"granite\"")
	has(t, out, "metric.toml: Metric Wall (invented)")
	has(t, flat, "5 lines could not be read")
	has(t, out, "3 offers are open: close one first")
	has(t, out, "Not taken: say which, from 1 to 3, for instance: close 1.")
	has(t, out, "Not taken: \"9\" is not a number from 1 to 3, for instance: close 1.")
	has(t, out, "Closed: metric.toml\n\nOffers\n")
	has(t, out, "1. full.toml: Complete Bid")
	has(t, out, "offers: 2 open, up to 3 side by side")
	require.False(t, store.Kept, "an offer is no answer")
}

// An offer is judged by the plan as it is when it is looked at.
func TestOffersFollowThePlan(t *testing.T) {
	out, err := said(t, site(t), ask.Config{}, "3", "check", "offers", "open", "full.toml", "places", "delete 1", "yes", "check", "offers", "quit")
	require.NoError(t, err)
	has(t, out, "1. full.toml: Complete Bid (invented), 3 questions to phone\n", "as long as the house is as planned")
	has(t, strings.Join(strings.Fields(out), " "), "6 questions to phone, 2 lines could not be read", "the two layers of a place that is gone, and a flue and fans that the slope must answer for now")
}

func TestFilesOfTheCheckAreNotOverwrittenUnasked(t *testing.T) {
	for word, typed := range map[string][]string{
		"offers": {"blank"}, "sheets": {"write"}, "pages": {"write 3"}, "finished work": {"write"},
	} {
		store := site(t)
		store.Files["mine"] = "# mine"
		lines := append([]string{"3", "check", word}, typed...)
		out, err := said(t, store, ask.Config{}, append(lines, "mine", "other", "quit")...)
		require.NoError(t, err)
		has(t, strings.Join(strings.Fields(out), " "), "Not taken: mine is there already. The same again overwrites it, and so does yes.")
		require.Equal(t, "# mine", store.Files["mine"], word)
		require.NotEmpty(t, store.Files["other"], word)
		_, err = said(t, store, ask.Config{}, append(lines, "mine", "mine", "quit")...)
		require.NoError(t, err)
		require.Equal(t, store.Files["other"], store.Files["mine"], word)
	}
	var out strings.Builder
	typed := "3\ncheck\noffers\nopen\nblank\nback\nfinished work\nopen\nwrite\n8\ny\nquit\n"
	require.NoError(t, ask.Run(strings.NewReader(typed), &out, ask.Config{List: fixture.List(t)}), "without a store")
	require.Contains(t, out.String(), "Not taken: files cannot be read here.")
	require.Contains(t, out.String(), "Not taken: files cannot be written here.")
}

// The answers of the walk never change the house or its plan.
func TestWalkInLines(t *testing.T) {
	store := site(t)
	out, err := said(t, store, ask.Config{Echo: true}, "3", "check", "finished work", "8",
		"help", "word kraft", "perhaps", "yes", "back", "don't know", "1 1/2", "done",
		"1", "25, 38", "", "", "", "", "", "19 1/4, 18", "", "12 by 2", "12 x 2", "done", "result", "quit")
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	has(t, flat, "Care: STOP The air gap around the chimney is empty? No: there is something in the gap", "said with the answer")
	has(t, flat, "Not taken: \"perhaps\" is neither yes nor no.")
	has(t, flat, "Beside the brick chimney, as found")
	has(t, flat, "12 x 1/2", "what would be right is said")
	has(t, flat, "If left: next to no more heat lost each year")
	require.NotContains(t, flat, "0 MMBtu to 0 MMBtu")
	w := inspect.NewWalk(fixture.List(t).Catalog())
	w.TakeUp(demoJob(t), store.Text)
	require.Equal(t, house.DontKnow(), w.House.Place("chimney").Answers["batt_in_gap"])
	require.Equal(t, house.Number(1.5), w.House.Place("chimney").Answers["gap_in"])
	require.Equal(t, []string{"19.25", "18"}, w.House.Place("attic").Answers["thickness_in"].List)
	require.Equal(t, "12 x 2", w.House.Place("attic").Answers["gaps"].Text)
	require.Equal(t, house.Write(fixture.List(t), demoHouse(t)), house.Write(fixture.List(t), kept(t, store)))
}

// Going through the questions with empty lines answers none of them.
func TestEmptyLinesAnswerNothingOfTheWalk(t *testing.T) {
	store := site(t)
	lines := []string{"3", "check", "finished work", "8"}
	for range 30 { // more than there are: those left over are said to be no choice
		lines = append(lines, "")
	}
	out, err := said(t, store, ask.Config{}, append(lines, "back", "ready", "quit")...)
	require.NoError(t, err)
	require.False(t, store.Kept)
	has(t, out, "8. Beside the brick chimney: not looked at yet")
	has(t, strings.Join(strings.Fields(out), " "), "Not ready to close")
}

// The end of the input in the middle of the walk keeps what was found.
func TestWalkIsKeptWhenTheInputEnds(t *testing.T) {
	store := site(t)
	_, err := said(t, store, ask.Config{}, "3", "check", "finished work", "8", "yes", "1 1/2")
	require.ErrorIs(t, err, ask.ErrEnded)
	require.Contains(t, store.Text, "#| batt_in_gap = true")
	out, err := said(t, store, ask.Config{}, "1", "check", "quit")
	require.NoError(t, err)
	has(t, out, "finished work: STOP: do not close.")

	for _, typed := range [][]string{
		{"3", "check", "offers", "open"}, {"3", "check", "pages", "write 1"}, {"3", "check", "finished work", "8"}, {"3", "check", "finished work", "open"},
	} {
		_, err := said(t, site(t), ask.Config{}, typed...)
		require.ErrorIs(t, err, ask.ErrEnded, typed)
	}
}

// Saving the house does not throw away a walk that no file holds; it belongs
// to the house's file from then on.
func TestSavingKeepsTheWalkInLines(t *testing.T) {
	store := site(t)
	_, err := said(t, store, ask.Config{}, "3", "check", "finished work", "8", "yes", "save", "mine", "quit")
	require.NoError(t, err)
	require.NotContains(t, store.Files["mine.toml"], "batt_in_gap", "the house file is about the house")
	require.Contains(t, store.Text, "#| batt_in_gap = true")
	_, of, there := store.Resume()
	require.True(t, there)
	require.Equal(t, "mine.toml", of)

	h, err := house.Read(fixture.List(t), "mine.toml", store.Files["mine.toml"])
	require.NoError(t, err)
	out, err := said(t, store, ask.Config{House: h, Path: "mine.toml", Text: store.Files["mine.toml"]}, "2", "check", "quit")
	require.NoError(t, err)
	has(t, out, "finished work: STOP: do not close.", "the file as it is, with the walk through it")
}

// Nothing takes the place of a walk that no file holds unasked.
func TestWalkIsNotReplacedUnasked(t *testing.T) {
	store := site(t)
	store.Files["bad.toml"] = "[[place]]\nid = \"attik\"\n"
	store.Files["nonsense.toml"] = "== not TOML"
	const question = "What you noted of the finished work is in no file of yours and would be"
	out, err := said(t, store, ask.Config{}, "3", "check", "finished work", "8", "yes", "done",
		"open", "mixed.toml", "no",
		"open", "bad.toml", "yes", "open", "nonsense.toml", "yes", // nothing of them can be read
		"start", "4", "no", "check", "finished work", "result",
		"open", "mixed.toml", "yes", "quit")
	require.NoError(t, err)
	require.Equal(t, 5, strings.Count(out, question))
	flat := strings.Join(strings.Fields(out), " ")
	has(t, flat, "bad.toml could not be read; what was noted is still here")
	has(t, flat, "did you mean attic?")
	has(t, out, "nonsense.toml:1")
	has(t, out, "STOP: DO NOT CLOSE")
	require.Contains(t, store.Text, "#| void_pct = 1", "then the file has it")

	store = site(t)
	out, err = said(t, store, ask.Config{}, "3", "check", "finished work", "8", "yes", "done", "write", "f.toml", "open", "mixed.toml", "start", "4", "quit")
	require.NoError(t, err)
	require.False(t, strings.Contains(out, question), "a file holds it")
	require.Contains(t, store.Files["f.toml"], "batt_in_gap = true")
}

// A file with mistakes is read as far as possible.
func TestFinishedWorkWithMistakes(t *testing.T) {
	store := site(t)
	store.Files["half.toml"] = "[[place]]\nid = \"chimney\"\nbatt_in_gap = \"some\"\ngap_in = \"1 1/2\"\nthickness_mm = 90\n[[place]]\nid = \"attik\"\n"
	out, err := said(t, store, ask.Config{}, "3", "check", "finished work", "open", "half.toml", "quit")
	require.NoError(t, err)
	flat := strings.Join(strings.Fields(out), " ")
	has(t, flat, "half.toml was read as far as possible")
	has(t, out, "\n- half.toml:3: place[1].batt_in_gap: found \"some\"")
	has(t, out, "\n- half.toml:7: place[2].id")
	require.Contains(t, store.Text, "#| gap_in = 1.5")
}

func TestOrderIsWrittenInLines(t *testing.T) {
	store := fixture.NewMemory()
	lines := []string{"3", "order", "export"}
	names := []string{"o.txt", "o.md", "o.json", "o.csv", "a.txt", "narrow.txt"}
	for i, n := range names {
		lines = append(lines, string(rune('1'+i)), n)
	}
	_, err := said(t, store, ask.Config{}, append(lines, "recommendation", "3", "plan", "quit")...)
	require.NoError(t, err)

	there := fixture.NewMemory()
	s := &screens{t: t, store: there, m: tui.NewModel(tui.Config{List: fixture.List(t), Store: there, House: demoHouse(t), Mono: true, ASCII: true})}
	s.send(tea.WindowSizeMsg{Width: 100, Height: 60})
	for i, n := range names {
		s.keysOf("g", "6", "x", string(rune('1'+i)), n, "enter")
	}
	s.keysOf("g", "6", "x", "7", "4", "plan", "enter")
	require.Len(t, there.Files, 7)
	require.Equal(t, there.Files, store.Files)
}
