package inspect_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/heat"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func found(t testing.TB, j inspect.Job, text string) inspect.FoundResult {
	t.Helper()
	h, notes, problems := inspect.ReadFound(inspect.FoundList(fixture.Catalog(t)), j, "finished.toml", text)
	require.Empty(t, problems)
	return inspect.JudgeFound(j, h, notes)
}

func place(t testing.TB, r inspect.FoundResult, id string) inspect.FoundPlace {
	t.Helper()
	for _, p := range r.Places {
		if p.Plan.Surface.ID == id {
			return p
		}
	}
	require.Fail(t, "no such place", id)
	return inspect.FoundPlace{}
}

func state(t testing.TB, p inspect.FoundPlace, id string) inspect.State {
	t.Helper()
	for _, x := range p.Points {
		if x.Point.ID == id {
			return x.State
		}
	}
	require.Fail(t, "no such point", id)
	return inspect.NotSeen
}

// A batt inside a chimney gap: stop, do not close, whatever else passes and
// whatever the fiber is; so does a gap that is too small.
func TestChimneyGapStops(t *testing.T) {
	j := alder(t)
	r := found(t, j, fixture.File(t, "finished/chimney-stop.toml"))
	require.True(t, r.Stops())
	require.False(t, r.ReadyToClose())
	require.Equal(t, inspect.Halt, state(t, place(t, r, "chimney"), "chimney-gap"))
	chimney := "[[place]]\nid = \"chimney\"\n"
	for text, want := range map[string]inspect.State{
		"":                                      inspect.NotSeen,
		"batt_in_gap = false":                   inspect.NotSeen, // looked, not measured
		"gap_in = 2":                            inspect.NotSeen, // measured, not looked
		"batt_in_gap = \"unknown\"\ngap_in = 2": inspect.NotSeen,
		"batt_in_gap = false\ngap_in = 2":       inspect.Pass,
		"batt_in_gap = false\ngap_in = \"1 1/2\"": inspect.Halt,
		"gap_in = 1":                                      inspect.Halt,
		"batt_in_gap = true\ngap_in = 5":                  inspect.Halt,
		"batt_in_gap = true\nmaterial = \"mineral-wool\"": inspect.Halt,
	} {
		require.Equal(t, want, state(t, place(t, found(t, j, chimney+text), "chimney"), "chimney-gap"), text)
	}
	// A fiber that burns in the bay beside it stops too.
	r = found(t, j, chimney+"material = \"cotton\"\nfacing = \"none\"\nlabel_r = 13\nlabel_thickness_in = 3.5\n")
	require.True(t, r.Stops())
}

func TestMixedFinishedWork(t *testing.T) {
	r := found(t, alder(t), fixture.File(t, "finished/mixed.toml"))
	require.Equal(t, "the owner", r.By)
	require.Equal(t, "2027-05-01", r.Date)
	attic := place(t, r, "attic")
	require.Equal(t, inspect.Pass, state(t, attic, "label"))
	require.Equal(t, inspect.Pass, state(t, attic, "thickness"), "18 1/2 in of 19 1/4 in is above nine tenths and has the R that is asked")
	require.Equal(t, inspect.Fix, state(t, attic, "eaves"))
	require.Equal(t, heat.GradeII, attic.Grade)
	street := place(t, r, "street-wall")
	require.Equal(t, inspect.Reject, state(t, street, "thickness"), "4 1/2 of 5 1/2 in is below nine tenths")
	require.Equal(t, inspect.Fix, state(t, street, "facing-side"))
	require.Equal(t, inspect.Fix, state(t, street, "wires-and-pipes"))
	require.InDelta(t, (93*0.5+93+144)/(60*144), street.Measured.Fit.Void, 1e-12)
	require.Equal(t, heat.GradeIII, street.Grade)
	require.Positive(t, street.LostHeat.High)
	require.Positive(t, street.LostUSD.High)
	require.Less(t, street.Got.Heat.DeliveredR, street.Plan.Choice.Heat.DeliveredR)
	require.Equal(t, inspect.Reject, state(t, place(t, r, "rim"), "label"), "R-19 where R-23 was agreed")
	require.False(t, r.Stops())
	require.True(t, r.FallsShort())
}

// All points right is ready to close, and one that nobody looked at is not.
func TestReadyToClose(t *testing.T) {
	j := alder(t)
	j.Plan.Places = slices.DeleteFunc(slices.Clone(j.Plan.Places), func(p plan.Place) bool { // damp, or short, by the plan itself
		return p.Surface.ID == "rim" || p.ShortText(j.System) != ""
	})
	l := inspect.FoundList(fixture.Catalog(t))
	h := inspect.EmptyFound(j)
	for i := range h.Places {
		p, ok := j.Place(h.Places[i].ID)
		require.True(t, ok)
		a := asPlanned(p)
		for _, q := range inspect.QuestionsOf(l, p, a) {
			if strings.HasPrefix(q.Key, "see.") {
				a[q.Key] = house.Text("good")
			}
		}
		h.Places[i].Answers = a
	}
	r := inspect.JudgeFound(j, h, nil)
	require.True(t, r.ReadyToClose())
	require.False(t, r.FallsShort())
	for _, p := range h.Places {
		for key := range p.Answers {
			if !strings.HasPrefix(key, "see.") {
				continue
			}
			kept := p.Answers[key]
			delete(p.Answers, key)
			require.False(t, inspect.JudgeFound(j, h, nil).ReadyToClose(), "%s %s", p.ID, key)
			p.Answers[key] = house.Text("bad")
			bad := inspect.JudgeFound(j, h, nil)
			require.True(t, bad.FallsShort(), "%s %s", p.ID, key)
			require.NotEmpty(t, askOf(bad))
			p.Answers[key] = kept
		}
	}
	require.False(t, inspect.FoundResult{}.ReadyToClose())
}

func askOf(r inspect.FoundResult) []string {
	var out []string
	for _, p := range r.Places {
		for _, x := range p.Points {
			if x.Ask != "" {
				out = append(out, x.Ask)
			}
		}
	}
	return out
}

// A gap right through a crossed attic takes more than one that the top layer
// covers.
func TestGapsThroughACrossedAttic(t *testing.T) {
	j := alder(t)
	p, _ := j.Place("attic")
	a := asPlanned(p)
	a["void_pct"] = house.Number(2)
	through := inspect.JudgePlace(j, p, a)
	require.Less(t, through.Got.Heat.DeliveredR, p.Choice.Heat.DeliveredR-5)
}

// Every question of every place can be kept in a file and read again.
func TestFoundRoundTrip(t *testing.T) {
	j := alder(t)
	l := inspect.FoundList(fixture.Catalog(t))
	h, notes, problems := inspect.ReadFound(l, j, "finished.toml", fixture.File(t, "finished/mixed.toml"))
	require.Empty(t, problems)
	require.Empty(t, notes)
	text := inspect.WriteFound(l, h)
	again, _, problems := inspect.ReadFound(l, j, "again.toml", text)
	require.Empty(t, problems, text)
	require.Equal(t, h.Answers, again.Answers)
	require.Len(t, again.Places, len(h.Places))
	for _, p := range h.Places {
		require.Equal(t, p.Answers, again.Place(p.ID).Answers, p.ID)
	}
	require.Equal(t, text, inspect.WriteFound(l, again))
}

func TestBrokenFoundFiles(t *testing.T) {
	j := alder(t)
	l := inspect.FoundList(fixture.Catalog(t))
	h, notes, problems := inspect.ReadFound(l, j, "finished.toml", `version = 1
[[place]]
id = "attik"
void_pct = 3
[[place]]
id = "street-wall"
thickness_mm = [140, 139]
gaps = "long"
void_pct = 130
see = "good"
[[place]]
id = "street-wall"
see.snag = "good"
see.snug = "fine"
`)
	got := map[int]string{}
	for _, p := range problems {
		got[p.Line] = p.Key
	}
	require.Equal(t, map[int]string{3: "place[1].id", 8: "place[2].gaps", 9: "place[2].void_pct", 10: "place[2].see", 12: "place[3].id", 13: "place[3].see.snag", 14: "place[3].see.snug"}, got)
	require.Len(t, notes, 1)
	require.Len(t, h.Place("street-wall").Answers["thickness_in"].List, 2)
	for _, text := range []string{"", "= 1", "place = 3", "[[place]]\nid = \"attic\"\nlabel_r = [[1]]"} {
		h, notes, _ := inspect.ReadFound(l, j, "x", text)
		require.NotPanics(t, func() { inspect.JudgeFound(j, h, notes) }, text)
	}
}

func TestGaps(t *testing.T) {
	for text, want := range map[string]float64{"": 0, "none": 0, "0 x 0": 0, "12 x 1/2": 6, "93 x 1/4, 12 x 1": 35.25, "8 ft x 1/2 in": 48, "12 X 2; 1 x 1": 25} {
		v, err := inspect.GapsIn2(text)
		require.NoError(t, err, text)
		require.InDelta(t, want, v, 1e-9, text)
	}
	for _, text := range []string{"12", "12 x", "x 3", "a x b", "-1 x 2", "99999 x 1", "1 x 1 x 1"} {
		_, err := inspect.GapsIn2(text)
		require.ErrorIs(t, err, inspect.ErrGaps, text)
	}
}

// A blanket that was measured thicker than its room bulges into what must stay
// free: an airway, the gap of a chimney.
func TestABlanketThickerThanItsRoomDoesNotPass(t *testing.T) {
	for kind, want := range map[string]inspect.State{
		"kind = \"sloped-ceiling\"\nframing.size = \"2x10\"":                                    inspect.Fix,
		"kind = \"chimney\"\nframing.size = \"2x6\"\nchimney = \"masonry-outside\"\ngap_in = 2": inspect.Halt,
	} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"5A\"\n[[place]]\nid = \"p\"\n"+kind+"\n"))
		p := j.Plan.Places[0]
		require.NotNil(t, p.Choice, kind)
		room := p.Choice.Layers[0].RoomIn
		lying := math.Min(room, p.Choice.Layers[0].Product.ThicknessIn)
		ten := func(last float64) house.Answers {
			in := lying
			return house.Answers{"thickness_in": numbers(in, in, in, in, in, in, in, in, in, last)}
		}
		require.Equal(t, want, state(t, inspect.JudgePlace(j, p, ten(room+0.5)), "thickness"), kind)
		require.Equal(t, inspect.Pass, state(t, inspect.JudgePlace(j, p, ten(lying)), "thickness"), kind)
	}
}

// Nothing is ready to close while nobody said which fiber it is, or while two
// answers about the house disagree.
func TestFiberAndAnswersOfTheHouseHoldTheVerdict(t *testing.T) {
	const wall = "[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nknob_and_tube = "
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"3A\"\n"+wall+"false\n"))
	h := good(t, j)
	require.NotEqual(t, inspect.NotSeen, state(t, inspect.JudgeFound(j, h, nil).Places[0], "label"))
	delete(h.Places[0].Answers, "material")
	require.Equal(t, inspect.NotSeen, state(t, inspect.JudgeFound(j, h, nil).Places[0], "label"))
	j = planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"3A\"\n[shape]\nchimney = \"metal\"\n"+wall+"false\n[[place]]\nid = \"a\"\nkind = \"attic\"\nflue_through = false\n"))
	r := inspect.JudgeFound(j, good(t, j), nil)
	require.NotEmpty(t, r.First)
	require.False(t, r.ReadyToClose())
}

// Blankets that are more than their ceiling carries do not pass, as they do not
// in a bid (the limit is the plan's own, see the rule on ceiling load).
func TestTooHeavyForTheCeilingDoesNotPass(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nframing.size = \"2x8\"\nframing.spacing_in = 24\ndrywall = \"half\"\nflue_through = false\n"))
	p := j.Plan.Places[0]
	require.NotNil(t, p.Choice)
	r := found(t, j, "[[place]]\nid = \"a\"\nmaterial = \"fiberglass\"\nlabel_r = [30, 38, 38, 38]\nfacing = \"none\"\n")
	at := place(t, r, "a")
	require.Equal(t, inspect.Reject, state(t, at, "label"))
	require.True(t, slices.ContainsFunc(at.Points, func(x inspect.PointResult) bool { return strings.Contains(x.Text, "weigh about") }))
}

// A label with more R than was agreed is another blanket: it passes only with
// its thickness.
func TestAnotherBlanketNeedsItsThickness(t *testing.T) {
	j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"3A\"\n[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nframing.size = \"2x6\"\n"))
	const wall = "[[place]]\nid = \"w\"\nmaterial = \"mineral-wool\"\nfacing = \"none\"\nlabel_r = [60]\n"
	require.NotEqual(t, inspect.Pass, state(t, place(t, found(t, j, wall), "w"), "label"))
	require.NotEqual(t, inspect.Pass, state(t, place(t, found(t, j, wall+"label_thickness_in = [18]\n"), "w"), "label"))
}
