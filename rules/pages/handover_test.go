package pages_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/rules/units"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

func widest(text string) (line string) {
	for _, l := range strings.Split(text, "\n") {
		if len([]rune(l)) > len([]rune(line)) {
			line = l
		}
	}
	return line
}

// Every page fits its paper: 40 columns for a telephone or a narrow printer,
// 80 for a sheet.
func TestPagesFitTheirWidth(t *testing.T) {
	day := time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)
	for _, name := range demo.Names() {
		j := planned.Job(fixture.Demo(t, name))
		for _, width := range []int{30, 40, 80} {
			o := pages.Options{Catalog: j.Catalog(), System: units.US, Width: width}
			for _, person := range append([]string{""}, catalog.Persons...) {
				text, err := planned.Handed(pages.Handover{Job: j, Person: person, Drywall: day}, o)
				require.NoError(t, err)
				require.LessOrEqual(t, len([]rune(widest(text))), width, "%s %s: %s", name, person, widest(text))
				require.Contains(t, strings.Join(strings.Fields(text), " "), "ask the building department")
			}
			require.LessOrEqual(t, len([]rune(widest(print.Text(pages.FormPage(j), o.Width)))), width)
		}
	}
}

func TestHandoverHoldsTheHoldPoint(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	o := pages.Options{Catalog: j.Catalog(), System: units.US}
	text, err := planned.Handed(pages.Handover{Job: j}, o)
	require.NoError(t, err)
	require.Equal(t, strings.Count(text, "HOLD POINT: nothing is covered"), len(j.Plan.Places))
	for _, want := range []string{"KEEP EMPTY: 2 in", "common practice, no source", "Owner, date: ____", "R-25 on the bag", "R-38 on the bag", "Left behind"} {
		require.Contains(t, text, want)
	}
	require.NotContains(t, text, "R-63", "the R of layers is not added up on a sheet")
	markdown, err := planned.HandedMarkdown(pages.Handover{Job: j}, o)
	require.NoError(t, err)
	require.Contains(t, markdown, "# Handover sheets")
	require.Contains(t, markdown, "- [ ] ")
	_, err = planned.Handed(pages.Handover{Job: j, Person: "cook"}, o)
	require.ErrorIs(t, err, inspect.ErrPerson)
}

func TestHandoverJSON(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	b, err := pages.Handover{Job: j, Drywall: time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)}.JSON(pages.Options{Catalog: j.Catalog(), System: units.US})
	require.NoError(t, err)
	var doc struct {
		Schema int
		Places []struct {
			ID     string
			Layers []struct {
				R           float64
				ThicknessIn float64 `json:"thickness_in"`
			}
			GapIn  float64 `json:"keep_empty_in"`
			Points []struct{ ID, Source, Known string }
		}
		Calendar []struct{ Day, Person string }
		Closing  []struct{ Group string } `json:"ready_to_close"`
	}
	require.NoError(t, json.Unmarshal(b, &doc))
	require.Equal(t, pages.Schema, doc.Schema)
	require.Len(t, doc.Places, len(j.Plan.Places))
	require.Len(t, doc.Places[0].Layers, 2)
	require.Equal(t, 25.0, doc.Places[0].Layers[0].R)
	require.Equal(t, 2.0, doc.Places[7].GapIn)
	require.Len(t, doc.Calendar, len(j.Catalog().Acceptance().Leads)-2, "no wall is closed here, and nothing counts on paint")
	require.Len(t, doc.Closing, len(inspect.ClosingGroups))
}

func TestOffersSideBySide(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	var all []inspect.OfferResult
	for _, name := range []string{"full", "bold", "metric"} {
		o, _ := inspect.ReadOffer(j, name+".toml", fixture.File(t, "offers/"+name+".toml"))
		all = append(all, inspect.JudgeOffer(j, o))
	}
	for n := 1; n <= pages.MaxOffers; n++ {
		for _, width := range []int{40, 80, 120} {
			o := pages.Options{Catalog: j.Catalog(), System: units.US, Width: width}
			text := print.Text(pages.OffersPage(j, all[:n], nil, o), o.Width)
			require.LessOrEqual(t, len([]rune(widest(text))), width, widest(text))
			for _, r := range all[:n] {
				require.Contains(t, strings.Join(strings.Fields(text), " "), r.Offer.From())
			}
		}
		require.Contains(t, print.Markdown(pages.OffersPage(j, all[:n], nil, pages.Options{Catalog: j.Catalog(), System: units.US})), "| --- |")
	}
	b, err := pages.OffersJSON(j, all)
	require.NoError(t, err)
	var doc struct {
		Offers []struct {
			FallsShort bool `json:"falls_short"`
			Places     []struct {
				ID       string
				Findings []struct{ ID, Level string }
				Planned  *struct {
					LayersR []float64 `json:"layers_r"`
				} `json:"plan"`
			}
		}
	}
	require.NoError(t, json.Unmarshal(b, &doc))
	require.Len(t, doc.Offers, 3)
	require.True(t, doc.Offers[1].FallsShort)
	require.Equal(t, []float64{25, 38}, doc.Offers[0].Places[0].Planned.LayersR, "R layer by layer, never added up")
}

func TestFinishedWorkReport(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	l := inspect.FoundList(j.Catalog())
	judge := func(name string) inspect.FoundResult {
		h, notes, problems := inspect.ReadFound(l, j, name, fixture.File(t, "finished/"+name))
		require.Empty(t, problems)
		return inspect.JudgeFound(j, h, notes)
	}
	o := pages.Options{Catalog: j.Catalog(), System: units.US, Width: 80}
	stop := print.Text(pages.FoundPage(j, judge("chimney-stop.toml"), o), o.Width)
	require.Contains(t, stop, "STOP: do not close")
	require.Less(t, strings.Index(stop, "STOP: DO NOT CLOSE"), strings.Index(stop, "\nAttic"), "what can hurt comes first")
	mixed := judge("mixed.toml")
	text := print.Text(pages.FoundPage(j, mixed, o), o.Width)
	for _, want := range []string{"Not ready to close", "If left", "REJECT", "FIX", "PASS", "NOT LOOKED AT", "grade III", "Ask for", "common practice, no source"} {
		require.Contains(t, strings.Join(strings.Fields(text), " "), want)
	}
	require.LessOrEqual(t, len([]rune(widest(text))), 80)
	require.Contains(t, print.Markdown(pages.FoundPage(j, mixed, o)), "# Finished work")
	b, err := pages.FoundJSON(j, judge("chimney-stop.toml"))
	require.NoError(t, err)
	var doc struct {
		Stop, Ready bool
		Places      []struct {
			ID, Result string
			Points     []struct{ ID, State, Known string }
		}
	}
	require.NoError(t, json.Unmarshal(b, &doc))
	require.True(t, doc.Stop)
	require.False(t, doc.Ready)
	require.Equal(t, "STOP", doc.Places[7].Result)
}

// The calendar begins with what no day of it holds before, place by place: what
// stops a place, what is found out or settled first, and the looks of those who
// know (practice); in a house where nothing is open it has no such line.
func TestCalendarBeginsWithWhatIsSettledFirst(t *testing.T) {
	wall := "id = \"%s\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 8\nknob_and_tube = %s\nframing.size = \"2x4\"\nframing.spacing_in = 16"
	site := "state = \"MO\"\ncounty = \"St. Louis\"\ncode = \"irc-2018\""
	calendar := func(places ...string) (first, steps []page.Row) {
		h := pages.Handover{Job: planned.Job(fixture.OfPlaces(t, site, places...)), Drywall: time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)}
		d, err := h.Page(planned.Options(t))
		require.NoError(t, err)
		for _, b := range d.Blocks {
			if strings.HasPrefix(b.Title, "Around the drywall") {
				for _, r := range b.Rows {
					if r.Tone == page.Stop {
						require.Empty(t, steps, "before every day")
						first = append(first, r)
					} else if r.Kind == page.Tick {
						steps = append(steps, r)
					}
				}
			}
		}
		return first, steps
	}
	attic := "id = \"attic\"\nkind = \"attic\"\narea_ft2 = 1120\nflue_through = false\nnon_ic_lights = true\nbath_fan_outside = true\nvents_ok = true\nvermiculite = \"unknown\"\nknob_and_tube = false\nframing.size = \"2x8\"\nframing.spacing_in = 16"
	crawl := "id = \"crawl\"\nkind = \"crawl-space\"\nvented = false\nwall_height_ft = 3\nlength_ft = 112\nground_cover = true\ndampness = \"dry\"\nframing.size = \"2x4\""
	first, steps := calendar(fmt.Sprintf(wall, "wired", "true"), fmt.Sprintf(wall, "open", "false"), attic, crawl)
	require.NotEmpty(t, steps)
	all := ""
	for _, r := range first {
		all += r.Text + "\n"
	}
	for _, want := range []string{"STOP: ", plan.AskHead, plan.SettleHead + "recessed lights", plan.SettleHead + "check of every burner"} {
		require.Contains(t, all, want)
	}
	first, steps = calendar(fmt.Sprintf(wall, "open", "false"))
	require.Empty(t, first)
	require.NotEmpty(t, steps)
}
