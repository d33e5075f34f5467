package pages_test

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/house"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// plain joins wrapped lines and takes markup off, so that a sentence can be
// looked for in any of the forms.
func plain(s string) string {
	s = strings.NewReplacer("\\", "", "&lt;", "<", "&gt;", ">", "&amp;", "&").Replace(s)
	return strings.Join(strings.Fields(s), " ")
}

// inAll asserts that a sentence stands in the text, Markdown and JSON forms.
func inAll(t *testing.T, out map[string]string, sentence, name string) {
	t.Helper()
	require.NotEmpty(t, sentence, name)
	require.Contains(t, plain(out["text"]), plain(sentence), "%s: text", name)
	require.Contains(t, plain(out["markdown"]), plain(sentence), "%s: markdown", name)
	b, err := json.Marshal(sentence)
	require.NoError(t, err)
	require.Contains(t, out["json"], strings.Trim(string(b), `"`), "%s: json", name)
}

func hitOf(hits []rules.Hit, id string) *rules.Hit {
	for i := range hits {
		if hits[i].Rule.ID == id {
			return &hits[i]
		}
	}
	return nil
}

// jsonRules are the rule ids under a list of the only place of the JSON form.
func jsonRules(t *testing.T, p plan.Plan, lists ...string) []string {
	t.Helper()
	place := parsed(t, p)["places"].([]any)[0].(map[string]any)
	var ids []string
	for _, name := range lists {
		for _, e := range place[name].([]any) {
			ids = append(ids, e.(map[string]any)["rule"].(string))
		}
	}
	return ids
}

func planOf(t *testing.T, row safetyRow) plan.Plan {
	t.Helper()
	return plan.Make(houseOf(t, row))
}

func houseOf(t *testing.T, row safetyRow) house.Answered {
	t.Helper()
	site, top := row.Site, row.Top
	if site == "" {
		site = "zone = \"6A\""
	}
	if top == "" {
		top = "old = false"
	}
	return fixture.Read(t, "version = 1\n"+top+"\n[site]\n"+site+"\n[[place]]\nid = \"here\"\n"+row.House+"\n")
}

// Each danger of a real house comes out by its rule, and its words reach
// whoever reads the text, the Markdown or the JSON.
func TestDangersAreSaid(t *testing.T) {
	for _, row := range safetyRows(t) {
		t.Run(row.Say, func(t *testing.T) {
			p := planOf(t, row)
			place, out := p.Places[0], planned.Forms(t, p, planned.Options(t))
			for _, id := range row.Rules {
				h := hitOf(place.Safety, id)
				require.NotNil(t, h, "%s (%s, %s)", id, row.Source, row.Mark)
				if !row.Stops {
					inAll(t, out, fixture.Catalog(t).Caution(*h, units.US), id)
				}
				require.Contains(t, jsonRules(t, p, "safety"), id)
				require.NotEmpty(t, h.Rule.Source)
			}
			for _, id := range row.Install {
				h := hitOf(append(append([]rules.Hit{}, place.Require...), place.Install...), id)
				require.NotNil(t, h, id)
				inAll(t, out, h.Text, id)
				require.Contains(t, jsonRules(t, p, "install"), id)
			}
			for _, id := range row.Silent {
				require.Nil(t, hitOf(place.Safety, id), id)
				require.Nil(t, hitOf(place.Install, id), id)
			}
			for _, w := range row.Words {
				require.Contains(t, strings.ToLower(plain(out["text"])), strings.ToLower(w))
				require.Contains(t, strings.ToLower(plain(out["markdown"])), strings.ToLower(w))
			}
			checkChoice(t, row, p, out)
		})
	}
}

func checkChoice(t *testing.T, row safetyRow, p plan.Plan, out map[string]string) {
	t.Helper()
	place := p.Places[0]
	require.Equal(t, row.Stops, place.Stopped(), "stops")
	if row.Stops {
		for _, s := range place.Stops {
			inAll(t, out, s.Say, "stop")
		}
		require.Zero(t, p.Bill.Money.Total, "a place without a plan costs nothing")
		require.NotContains(t, out["text"], "of 100 points", "no score beside a stop")
	}
	if row.NoBoard {
		require.Zero(t, place.Target.AddR)
		require.NotContains(t, out["text"], "BOARD OUTSIDE")
		require.NotContains(t, out["text"], "with the board")
	}
	for id, rule := range row.Out {
		e := place.EntryOf(id)
		require.NotNil(t, e)
		h := hitOf(e.Verdict.Excluded, rule)
		require.NotNil(t, h, "%s out by %s", id, rule)
		require.Zero(t, e.Rank)
		if !row.Stops { // a stopped place lists no materials
			inAll(t, out, h.Text, rule)
		}
	}
	if row.Stops || row.Nothing {
		require.Nil(t, place.Choice)
		require.Zero(t, p.Bill.Money.Total)
	} else {
		require.NotNil(t, place.Choice)
	}
	if row.First != "" {
		require.Equal(t, row.First, place.Choice.MaterialID)
	}
	if row.NoFace != "" {
		for _, e := range place.Entries {
			require.NotEqual(t, row.NoFace, e.Facing.OnBlanket)
			require.NotEqual(t, row.NoFace, e.Facing.Sheet)
		}
	}
}

// The table of the house speaks of the gap at every chimney and never of a
// score, whatever fits.
func TestHouseTableKeepsTheGap(t *testing.T) {
	for _, row := range safetyRows(t) {
		if !strings.Contains(row.House, `kind = "chimney"`) || row.Stops {
			continue
		}
		p := planOf(t, row)
		_, table, ok := strings.Cut(planned.Forms(t, p, planned.Options(t))["text"], "at a glance")
		require.True(t, ok)
		table, _, ok = strings.Cut(table, "\n\n")
		require.True(t, ok)
		require.Contains(t, spaced(table), "KEEP THE GAP EMPTY", row.Say)
		require.NotContains(t, table, "of 100 points", row.Say)
	}
}

// A caution about something not known asks or says that it is not known: it
// never states the danger as a fact, in any of the forms.
func TestUnknownIsNeverStatedAsFact(t *testing.T) {
	n := 0
	for _, row := range safetyRows(t) {
		p := planOf(t, row)
		out := planned.Forms(t, p, planned.Options(t))
		for _, h := range p.Places[0].Safety {
			if len(h.Unknown) == 0 {
				continue
			}
			n++
			said := fixture.Catalog(t).Caution(h, units.US)
			inAll(t, out, said, row.Say)
			require.NotContains(t, out["json"], h.Text, "%s: %s", row.Say, h.Rule.ID)
			require.Regexp(t, `\?|[Nn]ot known|[Ff]ind out`, said, h.Rule.ID)
		}
	}
	require.Greater(t, n, 10)
}

// A place without any blanket is warned of itself alone, never of what some
// blanket might have brought.
func TestNoBlanketNoBlanketCautions(t *testing.T) {
	ofPlace := []string{"masonry", "clearance_known", "clearance_in", "bay_left_in", "gap_short_in", "gap_doubt_in", "by_listing", "single_pipe", "fill_above", "chimney_in_wall", "zone", "marine", "humid_zone", "edition", "labor", "practice", "spacing_in", "vent_ft2"}
	l := fixture.List(t)
	for _, q := range l.Questions {
		ofPlace = append(ofPlace, q.Key)
	}
	rng := rand.New(rand.NewPCG(21, 21))
	n := 0
	for range 150 {
		for _, place := range plan.Make(fixture.RandomHouse(t, rng)).Places {
			if place.Choice != nil {
				continue
			}
			for _, h := range place.Safety {
				for _, name := range h.Unknown {
					n++
					require.Contains(t, ofPlace, name, "%s fired at a place without a blanket", h.Rule.ID)
				}
			}
		}
	}
	require.Positive(t, n)
}

// Whatever is left out says why, in every kind of house, and nothing is left
// out of a place without a word.
func TestEveryMaterialLeftOutSaysWhy(t *testing.T) {
	n := 0
	plans(t, 80, func(p plan.Plan) {
		for _, place := range p.Places {
			for _, e := range place.Entries {
				why := pages.WhyOut(e)
				require.Equal(t, e.Usable(), len(why) == 0, "%s %s", place.Surface.ID, e.MaterialID)
				for _, w := range why {
					require.NotEmpty(t, strings.TrimSpace(w))
					n++
				}
			}
			require.True(t, place.Surface.Kind.ID != "chimney" || place.Target.AddR == 0, "board beside a chimney")
		}
	})
	require.Greater(t, n, 50)
}
