package inspect_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// sheetsOf are the sheets of all places that have one.
func sheetsOf(j inspect.Job) []inspect.Sheet {
	var out []inspect.Sheet
	for _, p := range j.Plan.Places {
		if s, ok := inspect.SheetOf(j, p); ok {
			out = append(out, s)
		}
	}
	return out
}

func TestSheets(t *testing.T) {
	j := alder(t)
	sheets := sheetsOf(j)
	require.Len(t, sheets, len(j.Plan.Places))
	for _, s := range sheets {
		what := s.Plan.Surface.ID
		require.NotEmpty(t, s.Layers, what)
		require.Positive(t, s.DepthIn, what)
		require.NotEmpty(t, s.Points, what)
		require.NotEmpty(t, s.First, what)
		require.NotEmpty(t, s.Leave, what)
		require.NotEmpty(t, s.Hold, "the hold point: %s", what)
		require.True(t, slices.ContainsFunc(s.Leave, func(n catalog.HandoverNote) bool { return n.Source == "ftc-460" }), what)
	}
	// What must stay clear where heat is near.
	for id, note := range map[string]string{"attic": "clear-flue", "chimney": "clear-gap"} {
		p, _ := j.Place(id)
		s, ok := inspect.SheetOf(j, p)
		require.True(t, ok)
		require.True(t, slices.ContainsFunc(s.Clear, func(n catalog.HandoverNote) bool { return n.ID == note }), id)
	}
}

// Points about a face are on a sheet only where a face was agreed.
func TestFacePointsOnlyWithAFace(t *testing.T) {
	chosen(t, func(j inspect.Job, p plan.Place) {
		s, ok := inspect.SheetOf(j, p)
		require.True(t, ok)
		faced := p.Choice.Facing.OnBlanket != "none"
		for _, x := range s.Points {
			require.True(t, x.Faced == "" || faced, "%s %s", p.Surface.ID, x.ID)
		}
	})
}

var manyR = regexp.MustCompile(`R-[0-9.]+`)

// Every person has a page in every demo house; no page adds R up: each R that
// it names is of one blanket, one board, one target of the plan or what it lacks.
func TestPages(t *testing.T) {
	for _, name := range demo.Names() {
		j := demoJob(t, name)
		known := map[string]bool{"R-value": true}
		for _, p := range j.Plan.Places {
			for _, s := range append(manyR.FindAllString(p.Target.Text, -1), j.System.R(p.Target.AddR), j.System.R(p.Surface.CIR), j.System.R(p.Target.CavityR)) {
				known[s] = true
			}
			if p.Choice != nil {
				known[j.System.R(p.Choice.Heat.ShortByR)] = true
				for _, l := range p.Choice.Layers {
					known[j.System.R(l.Product.NominalR)] = true
				}
				known[j.System.R(p.Choice.Heat.ShortByR)] = true
			}
		}
		for _, person := range catalog.Persons {
			page, err := inspect.PageFor(j, person)
			require.NoError(t, err)
			require.Equal(t, inspect.PageTitle(person), page.Title)
			require.NotEmpty(t, page.Parts, "%s %s", name, person)
			for _, part := range page.Parts {
				require.NotEmpty(t, part.Lines, "%s %s %s", name, person, part.Title)
				for _, r := range manyR.FindAllString(strings.Join(part.Lines, "\n"), -1) {
					require.True(t, known[strings.TrimRight(r, ".")], "%s %s: %s is of nothing in the plan", name, person, r)
				}
			}
		}
	}
	_, err := inspect.PageFor(alder(t), "plasterer")
	require.ErrorIs(t, err, inspect.ErrPerson)
}

// What can still change is said before framing and not after.
func TestFramerPageKnowsTheStage(t *testing.T) {
	text := demo.Text(demo.Default)
	page := func(stage string) string {
		p, err := inspect.PageFor(planned.Job(fixture.Read(t, strings.Replace(text, `stage = "not-framed"`, `stage = "`+stage+`"`, 1))), "framer")
		require.NoError(t, err)
		var b strings.Builder
		for _, part := range p.Parts {
			b.WriteString(part.Title + "\n" + strings.Join(part.Lines, "\n") + "\n")
		}
		return b.String()
	}
	require.Contains(t, page("not-framed"), "2x6 instead of 2x4")
	require.NotContains(t, page("wired"), "2x6 instead of 2x4")
	require.Contains(t, page("not-framed"), "KEEP THE GAP EMPTY: 2 in")
}

// Days back from the drywall (days of the week worked out by hand): calendar
// days; a weekend moves to the Friday before. Nothing falls on the day of the
// step that waits for it: no mending on the day of the inspection, no opening
// of bags on the day they go in.
func TestCalendar(t *testing.T) {
	for _, r := range figures(t).Days {
		day, err := inspect.ParseDay(r.Drywall)
		require.NoError(t, err)
		due := inspect.Calendar([]catalog.Lead{{ID: "x", Days: r.Days}}, day, "")
		require.Equal(t, r.Due, due[0].Day.Format(time.DateOnly), "%+v", r)
	}
	for d := range 370 {
		day := time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC).AddDate(0, 0, d)
		all := inspect.Calendar(fixture.Catalog(t).Acceptance().Leads, day, "")
		require.Len(t, all, len(fixture.Catalog(t).Acceptance().Leads))
		for i, due := range all {
			require.Equal(t, due.Lead.Days < 0, due.Day.After(day), due.Lead.ID)
			if i > 0 && due.Lead.Days != all[i-1].Lead.Days {
				require.True(t, due.Day.After(all[i-1].Day), "%s on the day of %s", all[i-1].Lead.ID, due.Lead.ID)
			}
			require.True(t, i == 0 || !due.Day.Before(all[i-1].Day), "earliest first")
			if due.Lead.Days != 0 {
				require.NotContains(t, []time.Weekday{time.Saturday, time.Sunday}, due.Day.Weekday())
			}
		}
	}
	for _, due := range inspect.Calendar(fixture.Catalog(t).Acceptance().Leads, time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC), "framer") {
		require.Equal(t, "framer", due.Lead.Person)
	}
	for _, bad := range []string{"", "tomorrow", "2027-02-29", "27-1-1", "0001-01-01", "9999-12-31"} {
		_, err := inspect.ParseDay(bad)
		require.ErrorIs(t, err, inspect.ErrDate, bad)
	}
}

var comment = regexp.MustCompile(`(?m)^# ([a-z0-9_.-]+ *= )(.*?)(   # .*)$`)

// The files to fill in can be read as they are, and with every line filled in
// by its first choice.
func TestTemplates(t *testing.T) {
	for _, name := range demo.Names() {
		j := demoJob(t, name)
		l := inspect.FoundList(fixture.Catalog(t))
		o, problems := inspect.ReadOffer(j, "offer.toml", inspect.OfferTemplate(j))
		require.Empty(t, problems)
		require.NotEmpty(t, o.Parts)
		h, _, problems := inspect.ReadFound(l, j, "finished.toml", inspect.FoundTemplate(l, j))
		require.Empty(t, problems)
		require.NotEmpty(t, h.Places)

		filled := func(text string) string {
			return comment.ReplaceAllStringFunc(text, func(s string) string {
				m := comment.FindStringSubmatch(s)
				value := m[2]
				if first, _, many := strings.Cut(value, " | "); many {
					value = first + `"`
					if strings.HasPrefix(value, "[") {
						value += "]"
					}
				}
				if value == "0" || value == "[0, 0]" {
					value = strings.ReplaceAll(value, "0", "1")
				}
				return m[1] + value
			})
		}
		o, problems = inspect.ReadOffer(j, "offer.toml", filled(inspect.OfferTemplate(j)))
		require.Empty(t, problems)
		for _, p := range o.Parts {
			require.GreaterOrEqual(t, len(p.Answers), 9, "%v", p.Answers)
		}
		h, _, problems = inspect.ReadFound(l, j, "finished.toml", filled(inspect.FoundTemplate(l, j)))
		require.Empty(t, problems)
		for _, p := range h.Places {
			least := 13
			if at, _ := j.Place(p.ID); at.Choice == nil {
				least = 1
			}
			require.GreaterOrEqual(t, len(p.Answers), least, p.ID)
		}
	}
}

// A page or a sheet that names a blanket never leaves out what the plan puts
// beside or over it: the sheet toward the room, the layer under the joists of
// a damp warm zone, the cover the wall of a crawl space needs, the board. Each
// is on the page of whoever does the work, and on no other place's.
func TestPagesNameWhatGoesWithTheBlanket(t *testing.T) {
	need := map[string]string{"layer-under-joists": "under the joists", "cover": "cover over the blankets"}
	met := map[string]int{}
	for _, name := range demo.Names() {
		j := planned.Job(fixture.Demo(t, name))
		for _, person := range []string{"installer", "self", "inspector"} {
			page, err := inspect.PageFor(j, person)
			require.NoError(t, err)
			for _, p := range j.Plan.Places {
				if p.Choice == nil {
					continue
				}
				i := slices.IndexFunc(page.Parts, func(x inspect.PagePart) bool { return x.Title == p.Surface.Label })
				require.GreaterOrEqual(t, i, 0, "%s %s", person, p.Surface.ID)
				text := strings.Join(page.Parts[i].Lines, "\n")
				for what, words := range need {
					asked := slices.ContainsFunc(p.Require, func(h rules.Hit) bool { return h.Rule.Effect.Need == what })
					require.Equal(t, asked, strings.Contains(text, words), "%s %s %s", person, p.Surface.ID, what)
					if asked {
						met[what]++
					}
				}
				for _, f := range j.Catalog().Facings {
					if !f.OnBlanket {
						require.Equal(t, p.Choice.Facing.Sheet == f.ID, strings.Contains(text, "ALSO: "+f.Name), "%s %s: %s", person, p.Surface.ID, text)
					}
				}
				if person != "installer" { // to buy, or said to be there: somebody looks for it
					require.Equal(t, p.Target.AddR > 0, strings.Contains(text, "ALSO: "+j.System.R(p.Target.AddR)), "%s %s", person, p.Surface.ID)
					require.Equal(t, p.Surface.CIR > 0, strings.Contains(text, "THERE: "+j.System.R(p.Surface.CIR)), "%s %s", person, p.Surface.ID)
				}
			}
		}
	}
	require.Positive(t, met["layer-under-joists"])
	require.Positive(t, met["cover"])
	s, ok := inspect.SheetOf(planned.Job(fixture.Demo(t, "house-on-stilts.toml")), placeOf(t, "house-on-stilts.toml", "crawl-space"))
	require.True(t, ok)
	require.True(t, slices.ContainsFunc(s.Leave, func(n catalog.HandoverNote) bool { return n.Needs == "layer-under-joists" }))
}

func placeOf(t testing.TB, name, kind string) plan.Place {
	t.Helper()
	for _, p := range planned.Job(fixture.Demo(t, name)).Plan.Places {
		if p.Surface.Kind.ID == kind {
			return p
		}
	}
	t.Fatalf("%s has no %s", name, kind)
	return plan.Place{}
}

// An attic floor is never insulated before its drywall hangs, and a house
// without one has no such day.
func TestAtticWaitsForItsDrywall(t *testing.T) {
	day := time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)
	attics := func(j inspect.Job) (after, before int) {
		for _, due := range inspect.Calendar(inspect.Leads(j), day, "") {
			switch text := due.Lead.Text.String(); {
			case !strings.Contains(strings.ToLower(text), "attic"):
			case due.Day.After(day):
				after++
			case !strings.Contains(text, "except on an attic floor"):
				before++
			}
		}
		return after, before
	}
	after, before := attics(atticJob(t, "trusses", 24))
	require.Equal(t, []int{1, 0}, []int{after, before})
	after, before = attics(coldWall(t, units.US))
	require.Equal(t, []int{0, 0}, []int{after, before})
}

// What the builder has answered is not handed over as if it were open: lights
// that are all marked IC, wiring without porcelain knobs, a board that is
// there, studs that are deep already. What is not known stays.
func TestHandoverKnowsTheAnswers(t *testing.T) {
	text := func(old, answers string) string {
		j := planned.Job(fixture.Read(t, "version = 1\nstage = \"not-framed\"\nold = "+old+"\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n"+answers))
		out := ""
		for _, s := range sheetsOf(j) {
			for _, n := range s.Clear {
				out += n.Text.String() + "\n"
			}
			for _, x := range s.Points {
				out += x.Title + " " + x.Look.String() + "\n"
			}
		}
		for _, person := range inspect.Persons() {
			page, err := inspect.PageFor(j, person)
			require.NoError(t, err)
			for _, part := range page.Parts {
				out += strings.Join(part.Lines, "\n") + "\n"
			}
		}
		return out
	}
	attic := "[[place]]\nid = \"attic\"\nkind = \"attic\"\narea_ft2 = 900\nheel_in = 20\nflue_through = false\nvermiculite = false\n"
	wall := "[[place]]\nid = \"walls\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 9\n"
	light, knobs, board, studs := "Recessed lights without an IC mark", "orcelain knobs", "board outside the studs", "2x6 instead of 2x4"
	open := text("true", attic+wall+"framing.size = \"2x4\"\nci_r = 0\n")
	for _, s := range []string{light, board, studs} {
		require.Contains(t, open, s)
	}
	said := text("true", attic+"non_ic_lights = false\nknob_and_tube = false\n"+wall+"framing.size = \"2x6\"\nci_r = 5\nknob_and_tube = false\n")
	require.NotContains(t, said, light)
	require.NotContains(t, said, "A "+board)
	require.NotContains(t, said, studs)
	require.NotContains(t, said, knobs)
	require.Contains(t, text("true", attic+"non_ic_lights = false\n"), knobs, "not known: it stays")
	require.Contains(t, said, "No paper and no foil on it", "an attic without a face is looked over for one")
}

// Every answer that settles a note is a fact of the rule book.
func TestSettlingAnswersAreFacts(t *testing.T) {
	c := fixture.Catalog(t)
	facts := map[string]bool{}
	for _, f := range c.Book().Facts() {
		facts[f.Name] = true
	}
	n := 0
	check := func(id, fact string) {
		if fact != "" {
			n++
			require.True(t, facts[fact], "%s: %s", id, fact)
		}
	}
	for _, x := range c.Acceptance().Points {
		check(x.ID, x.SettledBy)
	}
	for _, x := range c.Acceptance().Notes {
		check(x.ID, x.SettledBy)
	}
	require.Greater(t, n, 4)
}
