package pages_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

type saidRow struct {
	Say, Site, Top, Place, Source, Mark string
	Want, Never, Rules, Silent          []string
}

func saidRows(t testing.TB) []saidRow {
	t.Helper()
	var p struct {
		Sources map[string]string
		Rows    []saidRow
	}
	fixture.Published(t, "said.json", &p)
	for _, r := range p.Rows {
		require.Contains(t, p.Sources, r.Source, r.Say)
		require.NotEmpty(t, r.Mark, r.Say)
	}
	return p.Rows
}

func (r saidRow) plan(t *testing.T) plan.Plan {
	t.Helper()
	return plan.Make(fixture.Judged(t, houseOf(t, safetyRow{Site: r.Site, Top: r.Top, House: r.Place})))
}

// What a report says of real houses, sentence by sentence: what must be there,
// and what would be false, scary without cause or against another line.
func TestWhatIsSaid(t *testing.T) {
	for _, row := range saidRows(t) {
		t.Run(row.Say, func(t *testing.T) {
			p := row.plan(t)
			place, out := p.Places[0], planned.Forms(t, p, planned.Options(t))
			said := append(append(append([]rules.Hit{}, place.Safety...), place.Require...), place.Install...)
			for _, id := range row.Rules {
				require.NotNil(t, hitOf(said, id), "%s (%s, %s)", id, row.Source, row.Mark)
			}
			for _, id := range row.Silent {
				require.Nil(t, hitOf(said, id), "%s (%s, %s)", id, row.Source, row.Mark)
			}
			for _, form := range []string{"text", "markdown"} {
				text := plain(out[form])
				for _, s := range row.Want {
					require.Contains(t, text, s, "%s (%s, %s)", form, row.Source, row.Mark)
				}
				for _, s := range row.Never {
					require.NotContains(t, text, s, "%s (%s, %s)", form, row.Source, row.Mark)
				}
			}
		})
	}
}

// promises are words no report may use of a plan: nobody can promise them.
var promises = regexp.MustCompile(`(?i:code met|meets the code|stays dry|will be dry|guaranteed?\b|cannot burn|fireproof)|\b0 oz/ft2|\b0 g/m2|NaN|Inf\b`)

// A figure is never given to more digits than it is worth, and nothing is
// promised, in any kind of house.
func TestNoPromiseAndNoFalsePrecision(t *testing.T) {
	fine := regexp.MustCompile(`\d\.\d+ %|\d\.\d{2,} (lb/ft2|oz/ft2)`)
	n := 0
	plans(t, 60, func(p plan.Plan) {
		text := plain(print.Text(pages.PlanPage(p, planned.Options(t)), planned.Options(t).Width))
		require.Empty(t, promises.FindString(text), around(text, promises))
		require.Empty(t, fine.FindString(text), around(text, fine))
		n++
	})
	require.Greater(t, n, 50)
}

// A place that nobody has looked at has no result of its own.
func TestNothingLookedAtIsNotCalledFound(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	h, notes, problems := inspect.ReadFound(inspect.FoundList(j.Catalog()), j, "chimney-stop.toml", fixture.File(t, "finished/chimney-stop.toml"))
	require.Empty(t, problems)
	r := inspect.JudgeFound(j, h, notes)
	looked, not := 0, 0
	for _, p := range r.Places {
		lines := slices.DeleteFunc(pages.FoundLines(p, planned.Options(t)), func(l pages.Line) bool {
			return l.Label == "Mind" || l.Label == "Target" || l.Label == "Seen" || l.Label == "File"
		})
		if !p.Begun() {
			not++
			require.Len(t, lines, 1)
			require.Contains(t, lines[0].Text, "nobody has looked at it yet")
			continue
		}
		looked++
		require.Contains(t, lines[0].Text, "in place")
	}
	require.Positive(t, looked)
	require.Positive(t, not)
}

// around is where a pattern was found, with the words beside it.
func around(text string, re *regexp.Regexp) string {
	at := re.FindStringIndex(text)
	if at == nil {
		return ""
	}
	return text[max(0, at[0]-80):min(len(text), at[1]+40)]
}

// A line about a place never says that a blanket fits and leaves out that it
// gets damp: in every demo house the damp check of the choice is on the line.
func TestALineAboutAPlaceSaysDamp(t *testing.T) {
	damp := 0
	houses := []house.Answered{fixture.Judged(t, fixture.Read(t, wetWall))}
	for _, name := range demo.Names() {
		houses = append(houses, fixture.Demo(t, name))
	}
	for _, a := range houses {
		for _, place := range plan.Make(a).Places {
			if place.Choice == nil || place.Surface.Kind.ID == "chimney" {
				continue
			}
			loud := place.Choice.Damp.Alarm()
			line := strings.ToLower(pages.Glance(place, planned.Options(t)))
			_, checked, first := strings.Cut(line, "then: ")
			if !first {
				checked = line
			}
			require.Equal(t, loud, strings.Contains(checked, "gets wet") || strings.Contains(checked, "mold grows"), line)
			if loud {
				damp++
			}
		}
	}
	require.Positive(t, damp)
}

// Trusses that stand get no higher: only while they can be ordered is a higher
// heel asked for.
func TestNoHeelIsAskedOfTrussesThatStand(t *testing.T) {
	for stage, want := range map[string]bool{"not-framed": true, "framed": false, "wired": false} {
		p := plan.Make(fixture.Read(t, "version = 1\nold = false\nstage = \""+stage+"\"\n[site]\nstate = \"FL\"\ncounty = \"Duval\"\n[[place]]\nid = \"a\"\nkind = \"attic\"\nframing.size = \"2x4\"\nframing.practice = \"trusses\"\n"))
		text := planned.Printed(t, p)
		require.Equal(t, want, strings.Contains(spaced(text), "say so before the trusses are ordered"), stage)
	}
}
