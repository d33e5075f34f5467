package ask

import (
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/page"
	"battwright/rules/units"
	"battwright/testdata/fixture"
)

// Whatever way an option is said, it is the answer that files and screens
// know.
func TestOptionsByNumberWordAndBeginning(t *testing.T) {
	seen := 0
	for _, q := range fixture.List(t).Questions {
		for i, o := range q.Options {
			seen++
			want, err := q.Parse(o.Value)
			require.NoError(t, err, q.FullKey())
			ways := []string{o.Value, o.Label.String(), " " + o.Label.String() + ". ", o.Label.In(units.SI)}
			if numbered(q.Options) {
				ways = append(ways, itoa(i+1), itoa(i+1)+".")
			}
			for _, way := range ways {
				got, problem := answerTo(q, way)
				require.Empty(t, problem, "%s: %q", q.FullKey(), way)
				require.True(t, got.Equal(want), "%s: %q gives %+v", q.FullKey(), way, got)
				require.NoError(t, q.Check(got))
			}
		}
	}
	require.Greater(t, seen, 100)
}

func itoa(n int) string {
	if n > 9 {
		return itoa(n/10) + itoa(n%10)
	}
	return string(rune('0' + n))
}

func TestAnswersAsTyped(t *testing.T) {
	for _, c := range []struct {
		key, typed string
		want       house.Answer
	}{
		{"site.zone", "7", house.Text("7")}, // the zone, not the seventh
		{"site.zone", "6a", house.Text("6A")},
		{"site.code", "2024", house.Text("irc-2024")},
		{"site.code", "3", house.Text("irc-2021")},
		{"stage", "pipes", house.Text("wired")},
		{"drawings", "y", house.YesNo(true)},
		{"drawings", "NO", house.YesNo(false)},
		{"rule_out", "1, 3", house.List("fiberglass", "mineral-wool")},
		{"rule_out", "3 1 1", house.List("mineral-wool", "fiberglass")},
		{"rule_out", "cotton; Sheep\u2019s wool", house.List("cotton", "sheeps-wool")},
		{"rule_out", "none", house.List()},
		{"shape.length_ft", "40 ft 6 in", house.Number(40.5)},
		{"place.framing.spacing_in", "19 3/16", house.Number(19.1875)},
		{"budget.total_usd", "$6,500", house.Number(6500)},
		{"priorities.cost", "0", house.Number(0)},
		{"place.label", `"back"`, house.Text("back")},
	} {
		q, ok := fixture.List(t).Find(c.key)
		require.True(t, ok, c.key)
		got, problem := answerTo(q, c.typed)
		require.Empty(t, problem, c.typed)
		require.True(t, got.Equal(c.want), "%s: %q gives %+v", c.key, c.typed, got)
	}
	for _, c := range [][2]string{
		{"site.zone", "9"},
		{"site.zone", "19"},
		{"stage", "0"},
		{"stage", "6"},
		{"stage", "-1"},
		{"drawings", "maybe"},
		{"rule_out", "1,9"},
		{"rule_out", ","},
		{"rule_out", "1 cotton"},
		{"shape.length_ft", "long"},
		{"shape.length_ft", "1e9"},
		{"shape.length_ft", "NaN"},
		{"priorities.cost", "2.5"},
		{"priorities.cost", "6"},
	} {
		q, ok := fixture.List(t).Find(c[0])
		require.True(t, ok, c[0])
		got, problem := answerTo(q, c[1])
		require.NotEmpty(t, problem, "%s: %q gives %+v", c[0], c[1], got)
		require.NotContains(t, problem, "unknown")
	}
}

// Every question can be read out: its words, what may be typed, what stands.
func TestEveryQuestionSaysWhatMayBeTyped(t *testing.T) {
	for _, q := range fixture.List(t).Questions {
		if q.Kind != house.TextKind && (q.Kind != house.Choice || !numbered(q.Options)) {
			require.NotEmpty(t, formOf(q, units.US), q.FullKey())
		}
		require.NotContains(t, formOf(q, units.US), "  ", q.FullKey())
		require.NotContains(t, formOf(q, units.US), "unknown", q.FullKey())
	}
}

func TestRowsAreMatchedByNumberAndWord(t *testing.T) {
	rows := []page.Action{{Label: "first"}, {Word: "next"}, {Label: "second"}, {Word: "edit", Of: "row"}, {Tag: "only a key"}, {Word: "find out"}}
	for line, want := range map[string]string{"1": "first", "2": "second", "next": "next", "EDIT 2": "edit", "edit": "edit", "Find  out.": "find out"} {
		r, _, ok := match(rows, line)
		require.True(t, ok, line)
		require.Equal(t, want, r.Label+r.Word, line)
	}
	for _, line := range []string{"", "0", "3", "next 2", "edit2", "nex"} {
		_, _, ok := match(rows, line)
		require.False(t, ok, line)
	}
}
