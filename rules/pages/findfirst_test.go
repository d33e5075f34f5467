package pages_test

import (
	"encoding/json"
	"maps"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// askHouses hold places that an unknown answer may stop, or a doubt holds, with
// words of the question.
var askHouses = map[string]struct{ place, asked string }{
	"old fill and wiring":   {"kind = \"attic\"\nvermiculite = \"unknown\"\nknob_and_tube = \"unknown\"", "pebbly, shiny fill?"},
	"old wiring":            {"kind = \"exterior-wall\"\nlength_ft = 20\nknob_and_tube = \"unknown\"", "white porcelain knobs?"},
	"brick without a gap":   {"kind = \"chimney\"\nchimney = \"masonry-inside\"\nframing.size = \"2x8\"\nlength_ft = 4", "How far is the nearest wood"},
	"pipe without a gap":    {"kind = \"chimney\"\nchimney = \"factory-built\"\nclearance_in = 2\nframing.size = \"2x8\"\nlength_ft = 4", "Does all wood keep the air space"},
	"back of a fireplace":   {"kind = \"chimney\"\nchimney = \"masonry-fireplace\"\ngap_in = 3\nframing.size = \"2x8\"\nlength_ft = 4", "Which side of the fireplace"},
	"water nobody asked of": {"kind = \"basement-wall\"\nlength_ft = 20\nfoam_r = 10", "wet after rain"},
}

// What must be found out first begins every view of the place, and no view
// lists its blanket without it: each such house would be bought for otherwise.
func TestFindOutFirstInEveryView(t *testing.T) {
	o := planned.Options(t)
	for name, x := range askHouses {
		t.Run(name, func(t *testing.T) {
			a := fixture.Read(t, "version = 1\nold = true\nstage = \"framed\"\n[site]\nzone = \"4A\"\n[[place]]\nid = \"x\"\nlabel = \"Asked place\"\n"+x.place+"\n")
			j := planned.Job(a)
			place := j.Plan.Places[0]
			require.NotNil(t, place.Choice)
			made := order.Make(j.Plan, a)
			require.NotEmpty(t, made.Lines)
			views := planned.Forms(t, j.Plan, o)
			csv := views["csv"]
			delete(views, "csv")
			require.Contains(t, csv, "FIND OUT FIRST")
			maps.Copy(views, papers(t, a))
			var err error
			views["order csv"], err = pages.OrderCSV(made, o)
			require.NoError(t, err)
			views["cover"], views["sheet"] = blocksOf(pages.CoverBlocks(j.Plan, o)), blocksOf(pages.SheetBlocks(j, place, o))
			product := pages.ProductText(place.Choice.Assessed, o.System)
			for form, text := range views {
				require.Contains(t, spaced(text), spaced(x.asked), form)
				if form == "json" {
					continue // a key, see below
				}
				_, before, found := strings.Cut(spaced(text), "FIND OUT FIRST")
				require.True(t, found, form)
				require.NotContains(t, strings.Split(spaced(text), "FIND OUT FIRST")[0], spaced(product), form)
				require.NotEmpty(t, before)
			}
			require.Equal(t, "First", pages.PlaceRows(place, o)[0].Label)
			require.True(t, strings.HasPrefix(pages.Glance(place, o), plan.AskHead))
			shopping := pages.OrderBlocks(made, o)[0]
			require.Equal(t, page.Care, shopping.Rows[0].Tone)
			require.Contains(t, shopping.Rows[0].Text, "Do not buy for it or begin before that is answered")
			findFirstJSON(t, views["json"], place)
			b, err := pages.OrderJSON(made, j.Plan, o, false)
			require.NoError(t, err)
			var got struct {
				Places []struct {
					First []string `json:"find_out_first"`
				} `json:"places"`
			}
			require.NoError(t, json.Unmarshal(b, &got))
			require.Len(t, got.Places[0].First, len(place.Asks()))
		})
	}
}

func findFirstJSON(t *testing.T, text string, place plan.Place) {
	t.Helper()
	var got struct {
		Places []struct {
			First []struct{ Danger, Say string } `json:"find_out_first"`
		} `json:"places"`
	}
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	require.Len(t, got.Places[0].First, len(place.Asks()))
	for i, h := range place.Asks() {
		require.Equal(t, h.Rule.ID, got.Places[0].First[i].Danger)
	}
}

// Wood is dry enough to cover below 19 percent (practice).
const (
	loft      = "kind = \"attic\"\n"
	dampFloor = "kind = \"crawl-space\"\nground_cover = true\nvented = true\n"
	dampWall  = "kind = \"basement-wall\"\nfoam_r = 10\n"
)

// settleHouses hold a place with one fault each, known or not asked, with words
// of what is said of it.
var settleHouses = map[string]string{
	dampFloor + "dampness = \"damp\"":                                               "dry to below 19 percent by a moisture meter before any blanket hangs there",
	dampWall + "dampness = \"damp\"":                                                "Find the cause before you close the wall",
	loft + "non_ic_lights = true\nbath_fan_outside = true\nvents_ok = true":         "without an IC mark need",
	loft + "non_ic_lights = \"unknown\"\nbath_fan_outside = true\nvents_ok = true":  "without an IC mark? They need",
	loft + "non_ic_lights = false\nbath_fan_outside = false\nvents_ok = true":       "must blow outdoors",
	loft + "non_ic_lights = false\nbath_fan_outside = true\nvents_ok = false":       "needs open vents",
	loft + "non_ic_lights = false\nbath_fan_outside = true\nvents_ok = \"unknown\"": "vented at the eaves and near the ridge?",
}

// A place with a fault that must be put right before work begins (lights without
// a mark: NEC 410, vents: IRC R806) is planned, and where it is bought for, begun
// or read by a machine that is said before its blankets.
func TestSettledBeforeWorkBegins(t *testing.T) {
	o := planned.Options(t)
	for answers, said := range settleHouses {
		a := fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"4A\"\n[[place]]\nid = \"x\"\nlabel = \"Here\"\n"+answers+"\n")
		j := planned.Job(a)
		place := j.Plan.Places[0]
		require.NotNil(t, place.Choice, "no reason to plan nothing")
		require.Len(t, place.Settles(), 1, answers)
		require.Empty(t, place.Asks())
		made := order.Make(j.Plan, a)
		require.NotEmpty(t, made.Lines)
		views := planned.Forms(t, j.Plan, o)
		delete(views, "csv")
		delete(views, "json")
		views["order"], views["ask"] = print.Text(pages.OrderPage(made, j.Plan, o), o.Width), print.Text(pages.AskPage(made, j.Plan, o), o.Width)
		var err error
		views["order csv"], err = pages.OrderCSV(made, o)
		require.NoError(t, err)
		for _, person := range []string{"", "self", "electrician", "installer"} {
			views["page "+person], err = planned.Handed(pages.Handover{Job: j, Person: person}, o)
			require.NoError(t, err)
		}
		views["cover"], views["sheet"] = blocksOf(pages.CoverBlocks(j.Plan, o)), blocksOf(pages.SheetBlocks(j, place, o))
		for form, text := range views {
			require.Contains(t, spaced(text), spaced(said), form)
			before, _, found := strings.Cut(spaced(text), "BEFORE YOU BEGIN")
			require.True(t, found, form)
			require.NotContains(t, before, spaced(pages.ProductText(place.Choice.Assessed, o.System)), form)
		}
		require.Contains(t, pages.OrderBlocks(made, o)[0].Rows[0].Text, "Do not begin there before that is settled")
		b, err := pages.JSON(j.Plan, o, false)
		require.NoError(t, err)
		var got struct {
			Places []struct {
				Settle []struct{ Danger, Say string } `json:"settle_first"`
			} `json:"places"`
		}
		require.NoError(t, json.Unmarshal(b, &got))
		require.Equal(t, place.Settles()[0].Rule.ID, got.Places[0].Settle[0].Danger)
		require.Contains(t, got.Places[0].Settle[0].Say, said)
		b, err = pages.OrderJSON(made, j.Plan, o, false)
		require.NoError(t, err)
		var bought struct {
			Places []struct {
				Settle []string `json:"settle_first"`
			} `json:"places"`
		}
		require.NoError(t, json.Unmarshal(b, &bought))
		require.Contains(t, bought.Places[0].Settle[0], said)
	}
}

// The caution about a board that is thin for a paper face stands beside the board
// wherever it is bought or asked for: the plan's own text alone is read too late.
func TestThinBoardIsSaidWhereItIsBought(t *testing.T) {
	o := planned.Options(t)
	const said = "of board instead of R-5"
	for _, typed := range []string{"", "ci_r = 5\n"} {
		for zone, want := range map[string]bool{"7": true, "5A": false} {
			a := fixture.Read(t, "version = 1\nold = false\nstage = \"not-framed\"\n[site]\nzone = \""+zone+"\"\n[[place]]\nid = \"w\"\nkind = \"exterior-wall\"\nlabel = \"Walls\"\nframing.size = \"2x6\"\n"+typed)
			j := planned.Job(a)
			made := order.Make(j.Plan, a)
			views := map[string]string{
				"order": print.Text(pages.OrderPage(made, j.Plan, o), o.Width), "ask": print.Text(pages.AskPage(made, j.Plan, o), o.Width), "other": block(made, o, "other"),
				"sheet": blocksOf(pages.SheetBlocks(j, j.Plan.Places[0], o)),
			}
			var err error
			views["order csv"], err = pages.OrderCSV(made, o)
			require.NoError(t, err)
			b, err := pages.OrderJSON(made, j.Plan, o, false)
			require.NoError(t, err)
			views["order json"] = string(b)
			for _, person := range []string{"", "self", "installer", "framer", "store"} {
				views["page "+person], err = planned.Handed(pages.Handover{Job: j, Person: person}, o)
				require.NoError(t, err)
			}
			for form, text := range views {
				require.Equal(t, want, strings.Contains(spaced(text), said), "%s, zone %s, %s", form, zone, typed)
			}
		}
	}
}

// The rows for a machine carry the damp of what is bought, as the text does.
func TestOrderRowsCarryTheDamp(t *testing.T) {
	o := planned.Options(t)
	a := fixture.Judged(t, fixture.Read(t, wetWall+"[[place]]\nkind = \"attic\"\nlabel = \"Loft\"\n"))
	p := plan.Make(a)
	made := order.Make(p, a)
	text := block(made, o, "shopping")
	csv, err := pages.OrderCSV(made, o)
	require.NoError(t, err)
	b, err := pages.OrderJSON(made, p, o, false)
	require.NoError(t, err)
	var got struct {
		Places []struct {
			Damp struct {
				Verdict string `json:"verdict"`
				Settle  string `json:"settle_first"`
			} `json:"damp"`
		} `json:"places"`
	}
	require.NoError(t, json.Unmarshal(b, &got))
	for i, settled := range []bool{false, true} {
		require.Equal(t, made.Places[i].Damp.Word, got.Places[i].Damp.Verdict)
		require.Equal(t, settled, got.Places[i].Damp.Settle == "", got.Places[i].Damp.Verdict)
	}
	require.Contains(t, got.Places[0].Damp.Settle, "Settle that before you buy for it")
	require.Contains(t, text, got.Places[0].Damp.Settle)
	require.Contains(t, csv, got.Places[0].Damp.Settle)
}
