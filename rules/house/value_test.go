package house_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/testdata/fixture"
)

func read(t testing.TB, l *house.QuestionList, text string) *house.House {
	t.Helper()
	h, err := house.Read(l, "h", "version = 1\n"+text)
	require.NoError(t, err, text)
	return h
}

// Sizes against figures worked by hand, a wall measured in a public how-to
// page, and the dressed sizes of lumber; each case carries its source.
func TestSizesAgainstHandFigures(t *testing.T) {
	l := fixture.List(t)
	_, sizes := figures(t)
	for _, c := range sizes {
		h := read(t, l, c.House)
		a := house.Answered{List: l, House: h}
		found := false
		for i := range h.Places {
			if p := &h.Places[i]; p.Kind == c.Kind {
				found = true
				require.InDelta(t, c.AreaFt2, a.Num(house.PlaceScope, p, "area_ft2"), 1e-9, c.Name)
				require.InDelta(t, c.NetFt2, a.NetAreaFt2(p), 1e-9, c.Name)
			}
		}
		require.True(t, found, c.Name)
	}
}

// A typed figure wins over the shape, and "don't know" falls back on it.
func TestWhatIsSaidWins(t *testing.T) {
	l := fixture.List(t)
	shape := "[shape]\nlength_ft = 40\nwidth_ft = 28\n"
	for _, c := range []struct {
		area   string
		want   float64
		known  bool
		source house.Source
	}{
		{"area_ft2 = 640", 640, true, house.FromAnswer},
		{"area_ft2 = \"unknown\"", 1120, false, house.FromUnknown},
		{"", 1120, true, house.FromDefault},
	} {
		h := read(t, l, shape+"[[place]]\nkind = \"attic\"\n"+c.area+"\n")
		v := house.Answered{List: l, House: h}.Value(house.PlaceScope, &h.Places[0], "area_ft2")
		require.Equal(t, c.want, v.Answer.Number)
		require.Equal(t, c.known, v.Known, c.area)
		require.Equal(t, c.source, v.Source, c.area)
	}
}

// Nobody answered anything: safety is unknown, what has a usual value is
// assumed and known, what may stay open is empty, the rest is unknown.
func TestValuesOfAnEmptyHouse(t *testing.T) {
	l := fixture.List(t)
	h := house.New()
	for _, kind := range l.PlaceKinds() {
		h.Add(kind)
	}
	a := house.Answered{List: l, House: h}
	check := func(q house.Question, p *house.Place) {
		v := a.ValueOf(q, p)
		switch {
		case q.Safety:
			require.Equal(t, house.Value{Source: house.FromUnknown, Answer: v.Answer}, v, q.FullKey())
		case q.Optional:
			require.Equal(t, house.Value{}, v, q.FullKey())
		case q.Default != nil:
			require.True(t, v.Known, q.FullKey())
			require.Equal(t, house.FromDefault, v.Source, q.FullKey())
			require.NoError(t, q.Check(v.Answer), "%s: the default must be an answer that is taken", q.FullKey())
		default:
			require.False(t, v.Known, q.FullKey())
			require.Equal(t, house.FromUnknown, v.Source, q.FullKey())
		}
		if p != nil {
			require.Equal(t, v, a.Value(q.Scope, p, q.Key))
		}
	}
	for _, q := range l.Questions {
		if q.Scope != house.PlaceScope {
			check(q, nil)
			continue
		}
		require.Equal(t, house.Value{}, a.ValueOf(q, nil), "no place, no value")
		for i := range h.Places {
			if p := &h.Places[i]; q.For(p.Kind) {
				check(q, p)
			} else {
				require.Equal(t, house.Value{}, a.Value(q.Scope, p, q.Key), q.FullKey())
			}
		}
	}
	require.Panics(t, func() { a.Value(house.Site, nil, "no_such_key") }, "a slip in a key is no silence")
}

// A safety question with a usual answer is unknown all the same, with the
// usual answer standing in.
func TestSafetyIsNeverAssumed(t *testing.T) {
	a := house.Answered{List: fixture.List(t), House: house.New()}
	q := house.Question{Key: "x", Kind: house.YesNoKind, Default: func(house.Answered, *house.Place) house.Answer { return house.YesNo(true) }}
	require.Equal(t, house.Value{Answer: house.YesNo(true), Known: true, Source: house.FromDefault}, a.ValueOf(q, nil))
	q.Safety = true
	require.Equal(t, house.Value{Answer: house.YesNo(true), Source: house.FromUnknown}, a.ValueOf(q, nil))
}

// Storing gives back what was stored, "don't know" is never known, and
// clearing brings the default back.
func TestStoreAndClear(t *testing.T) {
	l := fixture.List(t)
	r := rand.New(rand.NewPCG(11, 12))
	h := house.New()
	for _, kind := range l.PlaceKinds() {
		h.Add(kind)
	}
	a := house.Answered{List: l, House: h}
	for _, q := range l.Questions {
		for i := range h.Places {
			p := &h.Places[i]
			if q.Scope == house.PlaceScope && !q.For(p.Kind) {
				continue
			}
			before := a.ValueOf(q, p)
			said := randomAnswer(r, q)
			a.Store(q, p, said)
			v := a.ValueOf(q, p)
			require.True(t, said.Equal(a.Raw(q, p)))
			if said.State == house.Given {
				require.Equal(t, house.Value{Answer: said, Known: true, Source: house.FromAnswer}, v)
			} else {
				require.False(t, v.Known, q.FullKey())
				require.Equal(t, house.FromUnknown, v.Source)
			}
			a.Store(q, p, house.Answer{})
			require.Equal(t, before, a.ValueOf(q, p), "%s: cleared", q.FullKey())
		}
	}
	require.Empty(t, h.Answers)
}

// Whatever is answered, every size is a finite number that is not negative,
// and every question can be valued and asked.
func TestSizesStayFinite(t *testing.T) {
	l := fixture.List(t)
	r := rand.New(rand.NewPCG(13, 14))
	for range 150 {
		h := randomHouse(l, r)
		a := house.Answered{List: l, House: h}
		for i := range h.Places {
			p := &h.Places[i]
			net := a.NetAreaFt2(p)
			require.False(t, math.IsNaN(net) || math.IsInf(net, 0) || net < 0, "%v", net)
			require.LessOrEqual(t, net, a.Num(house.PlaceScope, p, "area_ft2"))
			for _, q := range l.Questions {
				_ = a.Asked(q, p)
				_ = a.ValueOf(q, p)
			}
		}
	}
}

// Houses are cooled by default in zones 0 to 3 (the project's own figures); foam
// on a basement wall is never assumed to be there.
func TestAssumptionsThatHangOnTheZone(t *testing.T) {
	l := fixture.List(t)
	for zone, cooled := range map[string]bool{"1A": true, "2B": true, "3C": true, "4A": false, "5B": false, "6A": false, "7": false, "8": false} {
		h := read(t, l, fmt.Sprintf("[site]\nzone = %q\n[[place]]\nkind = \"basement-wall\"\n", zone))
		a := house.Answered{List: l, House: h}
		require.Equal(t, cooled, a.Bool(house.Site, nil, "cooled"), zone)
		require.Zero(t, a.Num(house.PlaceScope, &h.Places[0], "foam_r"), "%s: foam that nobody typed is not there", zone)
	}
}

// Questions that hang on others are asked when these leave them open.
func TestWhatIsAsked(t *testing.T) {
	l := fixture.List(t)
	for _, c := range []struct {
		text, key string
		want      bool
	}{
		{"old = false\n[[place]]\nkind = \"attic\"\n", "knob_and_tube", false},
		{"old = true\n[[place]]\nkind = \"attic\"\n", "knob_and_tube", true},
		{"[[place]]\nkind = \"crawl-space\"\nvented = true\n", "foam_r", false},
		{"[[place]]\nkind = \"crawl-space\"\nvented = false\n", "foam_r", true},
		{"[[place]]\nkind = \"crawl-space\"\nvented = false\n", "wall_height_ft", true},
		{"[[place]]\nkind = \"basement-wall\"\n", "foam_r", true},
		{"drawings = true\n[[place]]\nkind = \"attic\"\n", "target_r", true},
		{"drawings = false\n[[place]]\nkind = \"attic\"\n", "target_r", false},
		{"[[place]]\nkind = \"attic\"\nrule_out = [\"cotton\"]\n", "rule_out_reason", true},
		{"[[place]]\nkind = \"attic\"\n", "rule_out_reason", false},
		{"[[place]]\nkind = \"attic\"\n", "vented", false},
	} {
		h := read(t, l, c.text)
		a := house.Answered{List: l, House: h}
		q := find(t, l, "place."+c.key)
		require.Equal(t, c.want, a.Asked(q, &h.Places[0]), "%s: %s", c.text, c.key)
		require.False(t, a.Asked(q, nil))
	}
}
