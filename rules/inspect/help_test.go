package inspect_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

var jobs sync.Map

// demoJob plans a demo house, once.
func demoJob(t testing.TB, name string) inspect.Job {
	t.Helper()
	if j, ok := jobs.Load(name); ok {
		return j.(inspect.Job)
	}
	j := planned.Job(fixture.Demo(t, name))
	jobs.Store(name, j)
	return j
}

func alder(t testing.TB) inspect.Job { return demoJob(t, demo.Default) }

// offer judges an offer file of testdata.
func offer(t testing.TB, j inspect.Job, path string) inspect.OfferResult {
	t.Helper()
	o, problems := inspect.ReadOffer(j, path, fixture.File(t, path))
	require.Empty(t, problems)
	return inspect.JudgeOffer(j, o)
}

// offered judges an offer of given text.
func offered(t testing.TB, j inspect.Job, text string) inspect.OfferResult {
	t.Helper()
	o, problems := inspect.ReadOffer(j, "offer.toml", text)
	require.Empty(t, problems)
	return inspect.JudgeOffer(j, o)
}

func ids(list []inspect.Finding) []string {
	var out []string
	for _, f := range list {
		out = append(out, f.ID)
	}
	return out
}

func at(t testing.TB, r inspect.OfferResult, id string) inspect.OfferedPlace {
	t.Helper()
	for _, p := range r.Places {
		if p.Plan.Surface.ID == id {
			return p
		}
	}
	require.Fail(t, "no such place", id)
	return inspect.OfferedPlace{}
}

// published is testdata/published/handover.json: figures from outside the
// program, each with its source and how well it is known.
type published struct {
	Sources  map[string]struct{ Text, Mark string }
	Parallel []struct {
		Full   float64 `json:"full_r"`
		Part   float64 `json:"part_r"`
		Share  float64
		Other  float64 `json:"other_r"`
		Want   float64 `json:"want_r"`
		Within float64
		Source string
	}
	Derating struct {
		Source string
		Rows   [][7]any
	}
	Grades []struct {
		Void, Squeezed, Left float64
		Grade, Source        string
	}
	Law []struct {
		Says, Contract, Label, Source string
	}
	Points []struct {
		ID, Result, Source string
	}
	Squeezed struct {
		LabelR  float64 `json:"label_r"`
		LabelIn float64 `json:"label_in"`
		RoomIn  float64 `json:"room_in"`
		WantR   float64 `json:"want_r"`
		Source  string
	}
	Days []struct {
		Drywall string
		Days    int
		Due     string
		Source  string
	}
}

func figures(t testing.TB) published {
	t.Helper()
	var p published
	fixture.Published(t, "handover.json", &p)
	return p
}

func TestEveryFigureNamesItsSource(t *testing.T) {
	p := figures(t)
	used := []string{p.Derating.Source, p.Squeezed.Source}
	for _, r := range p.Parallel {
		used = append(used, r.Source)
	}
	for _, r := range p.Grades {
		used = append(used, r.Source)
	}
	for _, r := range p.Law {
		used = append(used, r.Source)
	}
	for _, r := range p.Points {
		used = append(used, r.Source)
	}
	for _, r := range p.Days {
		used = append(used, r.Source)
	}
	seen := map[string]bool{}
	for _, s := range used {
		require.Contains(t, p.Sources, s)
		seen[s] = true
	}
	for id, s := range p.Sources {
		require.True(t, seen[id], "%s is listed and not used", id)
		require.NotEmpty(t, s.Text)
		require.Contains(t, []string{"read", "secondary", "memory", "computed", "practice"}, s.Mark)
	}
}
