package tui

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/tui/session"
)

// A first house with nothing but what is assumed, from the start screen to a
// text file, in fewer than 60 keys.
func TestFirstHouseInUnderSixtyKeys(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1") // a new house, rough look
	for p.keys < 60 && p.m.top().Step() == session.AtHouse {
		p.press("enter")
	}
	require.Contains(t, p.view(), "The places to insulate")
	p.press("enter", "enter", "enter") // places, out of the question, priorities
	require.Contains(t, p.view(), "The house at a glance")
	p.press("x", "2").typed("mine").press("enter")
	require.Less(t, p.keys, 60, "keys pressed")
	s := p.m.s
	require.NotEmpty(t, s.Plan.Places)
	fresh := plan.Assess(s.Answered()).Weigh(plan.PreferencesOf(s.Answered(), nil))
	require.Equal(t, print.Text(pages.PlanPage(fresh, pages.Options{Catalog: s.Catalog()}), pages.Options{Catalog: s.Catalog()}.Width), p.store.Files["mine.txt"])
	t.Logf("%d keys", p.keys)
}

// The same house again with other priorities, exported, in fewer than 10 keys.
func TestRerunInUnderTenKeys(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	before := print.Text(pages.PlanPage(p.m.s.Plan, p.m.s.Options()), p.m.s.Options().Width)
	p.press("m", "enter", "0", "enter", "x", "2", "y", "enter")
	require.Less(t, p.keys, 10, "keys pressed")
	require.Contains(t, p.store.Files, "y.txt")
	require.NotEqual(t, before, p.store.Files["y.txt"])
	require.Equal(t, 0.0, p.m.s.Answered().Num(house.Priorities, nil, "cost"))
}

// Every textual question of the house takes what is typed, by enter and by
// moving on with tab, and the kept text holds it.
func TestTypedAnswersAreKept(t *testing.T) {
	typed := map[string]string{
		"name": "Birch Lane", "site.state": "mn", "site.county": "Hennepin", "site.climate": "duluth-mn",
		"shape.length_ft": "38 ft 6 in", "shape.width_ft": "24 feet", "shape.stories": "2", "shape.wall_height_ft": "9",
		"shape.openings_ft2": "140 sq ft", "site.months": "1 2 3 4 5 6 7 8 9 10 11 12", "site.price": "1.35", "site.hdd65": "8000",
	}
	for _, leave := range []string{"enter", "tab", "shift+tab", "up", "ctrl+n", "esc"} {
		p := newPlayer(t, Config{Mono: true}, 80, 24)
		p.press("2")
		for _, q := range p.m.top().(*form).fields {
			text, ok := typed[q.q.FullKey()]
			if !ok {
				continue
			}
			p.m = p.m.goTo(goMsg{to: session.AtHouse}) // the form once more, from wherever leaving went
			p.ask(q.q.FullKey()).press("ctrl+u").typed(text).press(leave)
			want, err := q.q.Parse(text)
			require.NoError(t, err)
			got := p.m.s.Answered().Raw(q.q, nil)
			require.True(t, got.Equal(want), "%s left with %s: %+v", q.q.FullKey(), leave, got)
		}
		again, err := house.Read(fixture.List(t), "kept", p.store.Text)
		require.NoError(t, err)
		require.Equal(t, house.Number(38.5), again.Answers["shape.length_ft"])
		require.Equal(t, house.Text("Birch Lane"), again.Answers["name"])
	}
}

// A wrong answer never holds anybody: it stays with its reason, the answer
// before it stays in the house.
func TestWrongAnswerLetsGo(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("shape.length_ft").typed("40").press("enter").press("shift+tab").press("ctrl+u").typed("4000").press("enter")
	require.Contains(t, p.view(), "a number of feet from 6 to 500")
	p.press("tab")
	require.Contains(t, p.view(), "not kept")
	p.press("ctrl+g")
	require.Contains(t, p.view(), "Not kept: \"4000\"")
	p.toStart()
	require.Contains(t, p.view(), "Which blanket insulation goes where")
}

// "Don't know" is an answer of its own, and no answer that decides safety is
// given by enter alone.
func TestEnterNeverAnswersForSafety(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 100, 40)
	p.m.s.Rough = false
	for _, pl := range p.m.s.House.Places {
		for _, q := range fixture.List(t).In(house.PlaceScope, pl.Kind) {
			if q.Safety {
				delete(p.m.s.House.Place(pl.ID).Answers, q.Key)
			}
		}
	}
	delete(p.m.s.House.Answers, "old")
	delete(p.m.s.House.Answers, "shape.chimney")
	p.m.s.EditedHouse()
	var checked int
	for _, pl := range p.m.s.House.Places {
		p.m = p.m.goTo(goMsg{to: session.AtPlaces}).push(newScreen(session.At{ID: session.PlaceForm, Arg: pl.ID}, p.m.s, session.AtPlaces))
		for range p.m.top().(*form).fields {
			f := p.m.top().(*form)
			q := f.fields[f.active].q
			p.press("enter")
			if q.Safety {
				checked++
				require.NotEqual(t, house.Given, p.m.s.Answered().Raw(q, p.m.s.House.Place(pl.ID)).State, q.FullKey())
			}
			if _, still := p.m.top().(*form); !still {
				break
			}
		}
	}
	require.Greater(t, checked, 5)
}

// Going back from every screen ends at the first question or the start screen, and
// no answer is lost on the way.
func TestBackFromEverywhere(t *testing.T) {
	for _, s := range stops {
		if s.name == "leave" {
			continue
		}
		p := at(t, s, Config{Mono: true}, 80, 24)
		before := p.m.s.Text()
		for range 40 {
			p.press("esc")
		}
		require.False(t, p.quit, s.name)
		require.LessOrEqual(t, p.m.top().Step(), session.AtHouse, "%s: not at the beginning:\n%s", s.name, p.view())
		if f, ok := p.m.top().(*form); ok {
			require.Zero(t, f.active, s.name)
			require.Contains(t, p.view(), "This is the first question. g leads to every step and to the start screen.", "where answers are at stake back ends before the start screen")
		}
		after := p.m.s.Text()
		if s.name != "house-number" && s.name != "house-text" && s.name != "house-suggest" { // typed and left: kept
			require.Equal(t, before, after, s.name)
		}
	}
}

// Every mistake of a file is shown, with its line, and the open house stays.
func TestBrokenFileShowsAllAndKeepsTheHouse(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.store.Files["broken.toml"] = brokenFile
	before := p.m.s.Text()
	stopNamed(t, "start-go-on").go_(p)
	require.Contains(t, p.view(), "5  Open a house file")
	p.press("5").typed("broken.toml").press("enter")
	for _, want := range []string{"broken.toml:2", "broken.toml:5", "broken.toml:9", "still open and unchanged"} {
		require.Contains(t, p.view(), want)
	}
	require.Equal(t, before, p.m.s.Text())
}

// Answers in no file are not replaced without a question; the same choice a
// second time is the answer.
func TestAnotherHouseAsksFirst(t *testing.T) {
	p := newPlayer(t, Config{Mono: true}, 80, 24)
	p.press("1").ask("shape.length_ft").typed("61").press("enter").toStart()
	require.Contains(t, p.view(), "Go on with")
	for _, choice := range []string{"2", "4"} { // a new house, the demo house
		p.press(choice)
		require.Equal(t, 61.0, p.m.s.Answered().Num(house.Shape, nil, "length_ft"))
		require.Contains(t, p.view(), "would be replaced")
	}
	p.press("4")
	require.Contains(t, p.view(), "The house at a glance")

	again := newPlayer(t, Config{Mono: true, Store: p.store}, 80, 24) // the next day
	require.Contains(t, again.view(), "Go on where you stopped")
	again.press("4")
	require.Contains(t, again.view(), "would be replaced")
	again.press("1")
	require.Equal(t, 61.0, again.m.s.Answered().Num(house.Shape, nil, "length_ft"))
}

// Saving asks before it overwrites what somebody else wrote, or would drop
// comments.
func TestSaveAsksFirst(t *testing.T) {
	p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
	p.store.Files["a.toml"] = "# somebody's own\nversion = 1\n"
	p.press("s").typed("a").press("enter")
	require.Contains(t, p.view(), "is there already")
	require.Equal(t, "# somebody's own\nversion = 1\n", p.store.Files["a.toml"])
	p.press("enter")
	require.Equal(t, p.m.s.Text(), p.store.Files["a.toml"])
	require.False(t, p.store.Kept, "saved answers need not be kept as well")

	p.press("m", "enter", "5", "enter", "s")
	require.Equal(t, p.m.s.Text(), p.store.Files["a.toml"])
	p.store.Files["a.toml"] += "# a note\n"
	p.press("m", "enter", "0", "s")
	require.Contains(t, p.view(), "changed by another program")
	require.Contains(t, p.store.Files["a.toml"], "# a note")
}

// Leaving with unsaved answers asks; yes saves, no keeps them, back stays.
func TestLeaving(t *testing.T) {
	leave := stopNamed(t, "leave")
	p := at(t, leave, Config{Mono: true}, 80, 24)
	require.Contains(t, p.view(), "Save it before you leave?")
	p.press("b")
	require.False(t, p.quit)
	p.press("q", "y")
	require.True(t, p.quit)
	require.Equal(t, p.m.s.Text(), p.store.Files["my-house.toml"])

	p = at(t, leave, Config{Mono: true}, 80, 24)
	p.press("n")
	require.True(t, p.quit)
	require.NotEqual(t, p.m.s.Text(), p.store.Files["my-house.toml"])
	require.Equal(t, p.m.s.Text(), session.WithoutWay(p.store.Text), "kept in the state folder")

	p = at(t, leave, Config{Mono: true}, 80, 24)
	p.press("ctrl+c")
	require.True(t, p.quit)
	require.True(t, p.m.Interrupted())
	require.Equal(t, p.m.s.Text(), session.WithoutWay(p.store.Text))
}

// A file opened by name while answers are kept: they are offered, whether for
// this file or another, and dropped only by choice.
func TestKeptAnswersBesideAFile(t *testing.T) {
	c := func(store *fixture.Memory) Config {
		return Config{Mono: true, House: demoHouse(t), Path: "a.toml", Text: "version = 1\n", Store: store}
	}
	p := newPlayer(t, c(fixture.NewMemory()), 80, 24)
	require.Contains(t, p.view(), "The house at a glance", "nothing is kept: straight to the house")
	p.press("m", "enter", "0")
	require.True(t, p.store.Kept)

	again := newPlayer(t, c(p.store), 80, 24) // it ended without saving
	require.Contains(t, again.view(), "They are for a.toml")
	again.press("1")
	require.Equal(t, 0.0, again.m.s.Answered().Num(house.Priorities, nil, "cost"))
	require.Equal(t, "a.toml", again.m.s.Path)

	again = newPlayer(t, c(p.store), 80, 24)
	again.press("2")
	require.Equal(t, 3.0, again.m.s.Answered().Num(house.Priorities, nil, "cost"))
	require.Contains(t, again.view(), "kept in replaced.toml")
	require.True(t, again.store.Kept, "looking drops nothing")
	require.Contains(t, again.store.Files["replaced.toml"], "cost = 0")
}

// What was typed and cannot be taken does not go without a word, by whatever key a
// form is left.
func TestWhatCannotBeTakenIsSaid(t *testing.T) {
	for _, leave := range []string{"ctrl+n", "esc", "ctrl+g"} {
		p := newPlayer(t, Config{Mono: true, House: demoHouse(t)}, 80, 24)
		p.press("g", "2")
		for range 7 {
			p.press("down")
		}
		p.press("e").ask("place.gap_in").press("ctrl+u").typed("1 inhc").press(leave)
		require.Contains(t, p.view(), "Not kept: \"1 inhc\"", leave)
		require.IsType(t, &form{}, p.m.top(), leave)
		p.press(leave)
		_, still := p.m.top().(*form)
		require.False(t, still, "%s leaves it the second time", leave)
	}
}
