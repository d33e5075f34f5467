package house_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

type typedCase struct {
	Question, Text, Again, Source, Known string
	Number                               float64
}

type sizeCase struct {
	Name, Source, Known, House, Kind string
	AreaFt2                          float64 `json:"area_ft2"`
	NetFt2                           float64 `json:"net_ft2"`
}

// figures reads the cases; every one names a source that is listed, and its
// mark.
func figures(t *testing.T) (typed []typedCase, sizes []sizeCase) {
	t.Helper()
	var all struct {
		Sources map[string]string
		Typed   []typedCase
		Sizes   []sizeCase
	}
	fixture.Published(t, "house.json", &all)
	marks := []string{"read", "secondary", "memory", "computed"}
	for _, c := range all.Typed {
		require.Contains(t, all.Sources, c.Source, c.Text)
		require.Contains(t, marks, c.Known, c.Text)
	}
	for _, c := range all.Sizes {
		require.Contains(t, all.Sources, c.Source, c.Name)
		require.Contains(t, marks, c.Known, c.Name)
	}
	return all.Typed, all.Sizes
}

func find(t testing.TB, l *house.QuestionList, key string) house.Question {
	t.Helper()
	q, ok := l.Find(key)
	require.True(t, ok, key)
	return q
}

// Numbers as builders write them (trade notation and the foot of 12 inches,
// sources in the data file), and as they are offered for editing again.
func TestNumbersAsBuildersWriteThem(t *testing.T) {
	l := fixture.List(t)
	typed, _ := figures(t)
	for _, c := range typed {
		q := find(t, l, c.Question)
		a, err := q.Parse(c.Text)
		require.NoError(t, err, c.Text)
		require.Equal(t, house.Given, a.State, c.Text)
		require.InDelta(t, c.Number, a.Number, 1e-9, c.Text)
		require.Equal(t, c.Again, q.Plain(a), c.Text)
		again, err := q.Parse(q.Plain(a))
		require.NoError(t, err, "what is offered for editing must be taken back")
		require.InDelta(t, a.Number, again.Number, 1e-9, c.Text)
	}
}

// What is offered for editing is read back as the same number, as near as the
// figure can be shown: 1/32 in. for inches, four decimals elsewhere.
func TestPlainIsReadBack(t *testing.T) {
	l := fixture.List(t)
	r := rand.New(rand.NewPCG(7, 8))
	for _, q := range l.Questions {
		if q.Kind != house.NumberKind {
			continue
		}
		for range 40 {
			v := randomNumber(r, q)
			got, err := q.Parse(q.Plain(house.Number(v)))
			require.NoError(t, err, "%s %v %q", q.FullKey(), v, q.Plain(house.Number(v)))
			near := 1e-4
			if q.Unit == "in" {
				near = 0.01
			}
			require.InDelta(t, v, got.Number, near, q.FullKey())
		}
	}
}

func TestWordsAsBuildersWriteThem(t *testing.T) {
	l := fixture.List(t)
	for _, c := range []struct {
		key, typed string
		want       house.Answer
	}{
		{"old", "y", house.YesNo(true)},
		{"old", "YES", house.YesNo(true)},
		{"old", "true", house.YesNo(true)},
		{"old", "n", house.YesNo(false)},
		{"old", "No", house.YesNo(false)},
		{"old", "don't know", house.DontKnow()},
		{"old", "Don\u2019t know", house.DontKnow()},
		{"old", "dont know", house.DontKnow()},
		{"old", "not sure", house.DontKnow()},
		{"old", "?", house.DontKnow()},
		{"old", "unknown", house.DontKnow()},
		{"old", "  ", house.Answer{}},
		{"stage", "not framed yet", house.Text("not-framed")},
		{"stage", "Not-Framed", house.Text("not-framed")},
		{"stage", "INSULATION IN", house.Text("insulated")},
		{"site.code", "2012 to 2018", house.Text("irc-2018")},
		{"site.zone", "6a", house.Text("6A")},
		{"site.state", "vt", house.Text("VT")},
		{"site.state", " Vermont ", house.Text("Vermont")},
		{"site.county", "unknown", house.DontKnow()},
		{"site.county", "Do\u00f1a Ana", house.Text("Do\u00f1a Ana")},
		{"name", "unknown", house.Text("unknown")},
		{"name", "?", house.Text("?")},
		{"name", "Alder\u202e \x1b[31mStreet", house.Text("Alder [31mStreet")},
		{"name", "a\tb\nc", house.Text("a b c")},
		{"rule_out", "none", house.List()},
		{"rule_out", "cotton", house.List("cotton")},
		{"rule_out", "Fiberglass ; sheep's wool, cotton,,", house.List("fiberglass", "sheeps-wool", "cotton")},
		{"rule_out", "cotton, cotton", house.List("cotton")},
		{"site.months", "-8 -7 -1.5 7 13 19 21 20 15 9 1/2 -4", house.List("-8", "-7", "-1.5", "7", "13", "19", "21", "20", "15", "9", "0.5", "-4")},
		{"place.framing.size", "2X6", house.Text("2x6")},
		{"place.chimney", "brick or stone, inside the house", house.Text("masonry-inside")},
	} {
		q := find(t, l, c.key)
		got, err := q.Parse(c.typed)
		require.NoError(t, err, "%s: %q", c.key, c.typed)
		require.True(t, c.want.Equal(got), "%s: %q gives %+v", c.key, c.typed, got)
	}
}

// A refusal says what was found and what is taken, in words.
func TestRefusalsInWords(t *testing.T) {
	l := fixture.List(t)
	for _, c := range []struct{ key, typed, want string }{
		{"old", "maybe", `found "maybe"; want yes or no`},
		{"stage", "tomorrow", `found "tomorrow"; want one of not-framed, framed`},
		{"stage", "don't know", `"don't know" is not offered here; one of not-framed`},
		{"priorities.cost", "6", "found 6; want a whole number from 0 to 5"},
		{"priorities.cost", "2 1/2", "found 2.5; want a whole number from 0 to 5"},
		{"priorities.cost", "lots", `found "lots"; want a whole number from 0 to 5`},
		{"shape.length_ft", "-40", `found "-40"; want a number of feet from 6 to 500`},
		{"shape.length_ft", "5", "found 5; want a number of feet from 6 to 500"},
		{"shape.length_ft", "1e3", `found "1e3"; want a number of feet`},
		{"shape.length_ft", "nan", `found "nan"; want a number of feet`},
		{"shape.length_ft", "inf", `found "inf"; want a number of feet`},
		{"shape.length_ft", "9999999999999999999999", "want a number of feet from 6 to 500"},
		{"place.heel_in", "5 1/2 1/2", "want a number of inches from 0 to 60"},
		{"place.heel_in", "1/0", "want a number of inches from 0 to 60"},
		{"place.target_r", "R-", "want a number (R-value) from 0 to 100"},
		{"budget.total_usd", "$", "want a number of dollars from 0 to 1000000"},
		{"rule_out", "straw, cotton", `found "straw"; want a list with any of fiberglass`},
		{"site.months", "1 2 3", "found 3 numbers; want a list of 12 numbers of degrees C, each from -60 to 50"},
		{"site.months", "1 2 3 4 5 6 7 8 9 10 11 cold", `found "cold"`},
		{"site.months", "1 2 3 4 5 6 7 8 9 10 11 70", `found "70"`},
		{"name", strings.Repeat("a", house.MaxText+1), "want one line of text of at most 200 characters"},
	} {
		_, err := find(t, l, c.key).Parse(c.typed)
		require.ErrorIs(t, err, house.ErrAnswer, "%s: %q", c.key, c.typed)
		require.Contains(t, err.Error(), c.want)
		require.NotContains(t, err.Error(), "  ")
	}
}

func TestCheckRefusesWhatNoFileCouldHold(t *testing.T) {
	l := fixture.List(t)
	area, months, name := find(t, l, "place.area_ft2"), find(t, l, "site.months"), find(t, l, "name")
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e300} {
		require.ErrorIs(t, area.Check(house.Number(v)), house.ErrAnswer)
	}
	list := strings.Fields("1 2 3 4 5 6 7 8 9 10 11 nan")
	require.ErrorIs(t, months.Check(house.List(list...)), house.ErrAnswer)
	list[11] = "inf"
	require.ErrorIs(t, months.Check(house.List(list...)), house.ErrAnswer)
	list[11] = "-3.3333333333333335" // a figure of a file, longer than anyone types
	require.NoError(t, months.Check(house.List(list...)))
	require.ErrorIs(t, name.Check(house.Text("a\x1bb")), house.ErrAnswer)
	require.ErrorIs(t, name.Check(house.DontKnow()), house.ErrAnswer)
	require.NoError(t, name.Check(house.Answer{}))
}

// Whatever a question takes, it shows in words, and the words of a choice or
// a yes can be typed again.
func TestEveryAnswerIsShown(t *testing.T) {
	l := fixture.List(t)
	r := rand.New(rand.NewPCG(9, 10))
	for _, q := range l.Questions {
		require.Empty(t, q.Show(house.Answer{}, units.US))
		if q.DontKnow {
			require.Equal(t, "don't know", q.Show(house.DontKnow(), units.US))
		}
		for range 10 {
			a := randomAnswer(r, q)
			require.NoError(t, q.Check(a), q.FullKey())
			for _, s := range []units.System{units.US, units.SI} {
				require.NotEmpty(t, q.Show(a, s), q.FullKey())
			}
			if q.Kind != house.Choice && q.Kind != house.YesNoKind && (q.Kind != house.Numbers || q.Unit == "ft") {
				continue
			}
			again, err := q.Parse(q.Show(a, units.US))
			require.NoError(t, err, q.FullKey())
			require.True(t, a.Equal(again), "%s: %+v, %+v", q.FullKey(), a, again)
		}
	}
	for _, c := range []struct {
		key  string
		a    house.Answer
		want string
	}{
		{"place.heel_in", house.Number(5.5), "5 1/2 in"},
		{"place.target_r", house.Number(49), "R-49"},
		{"budget.total_usd", house.Number(1200), "$1,200"},
		{"place.area_ft2", house.Number(1120), "1,120 ft2"},
		{"priorities.cost", house.Number(3), "3"},
		{"rule_out", house.List(), "none"},
		{"rule_out", house.List("sheeps-wool", "cotton"), "sheep's wool, cotton"},
		{"old", house.YesNo(false), "no"},
	} {
		require.Equal(t, c.want, find(t, l, c.key).Show(c.a, units.US), c.key)
	}
}

// The list itself: every question can be put to a person and answered.
func TestEveryQuestionCanBeAsked(t *testing.T) {
	l := fixture.List(t)
	for _, q := range l.Questions {
		require.NotEmpty(t, q.Prompt, q.FullKey())
		require.NotEmpty(t, q.Accepted(), q.FullKey())
		require.NotContains(t, q.Accepted(), "  ", q.FullKey())
		switch q.Kind {
		case house.Choice, house.Many:
			require.NotEmpty(t, q.Options, q.FullKey())
			words := map[string]bool{}
			for _, o := range q.Options {
				require.False(t, words[strings.ToLower(o.Label.String())], "%s offers %q twice", q.FullKey(), o.Label)
				words[strings.ToLower(o.Label.String())] = true
				require.NotEqual(t, "unknown", o.Value, "would be read as don't know")
			}
		case house.NumberKind, house.Numbers:
			require.Less(t, q.Min, q.Max, q.FullKey())
		}
		if q.Safety {
			require.True(t, q.DontKnow, "%s decides safety: nobody is made to guess", q.FullKey())
		}
		for _, kind := range q.Kinds {
			require.Contains(t, l.PlaceKinds(), kind, q.FullKey())
		}
	}
}
