package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// A house without any plan is never called ready.
func TestNothingToLookAtIsNotReady(t *testing.T) {
	j := planned.Job(house.Answered{List: fixture.List(t), House: house.New()})
	w := inspect.NewWalk(fixture.Catalog(t))
	r := w.Judge(j)
	require.False(t, r.ReadyToClose())
	require.Contains(t, pages.FoundVerdict(r), "Not ready to close")
	head := pages.ReadyBlocks(j, r)[0]
	require.Equal(t, page.Care, head.Rows[0].Tone)
}

// What can hurt people is told apart on every page of the last step.
func TestStopsAreTold(t *testing.T) {
	j := planned.Job(fixture.Demo(t, "house-in-the-snow.toml"))
	w := inspect.NewWalk(fixture.Catalog(t))
	_, problems := w.Open(j, "stop", fixture.File(t, "finished/chimney-stop.toml"))
	require.Empty(t, problems)
	require.Equal(t, page.Stop, pages.ReadyBlocks(j, w.Judge(j))[0].Rows[0].Tone)
	require.Contains(t, pages.WalkNote(j, w), "STOP: do not close")
	found, ok := w.JudgeAt(j, "chimney")
	require.True(t, ok)
	require.Equal(t, page.Stop, pages.FoundRows(found, planned.Options(t))[0].Tone)
	require.Equal(t, "STOP: do not close", pages.FoundNote(found))

	p, ok := j.Place("chimney")
	require.True(t, ok)
	gap := false
	for _, r := range pages.SheetBlocks(j, p, planned.Options(t))[0].Rows {
		gap = gap || r.Tone == page.Stop && strings.HasPrefix(r.Text, "KEEP EMPTY")
	}
	require.True(t, gap)
	p.Stops = []plan.Stop{{Danger: "knob-and-tube", Say: "live wiring on porcelain knobs"}}
	p.Choice = nil
	none := pages.SheetBlocks(j, p, planned.Options(t))
	require.Len(t, none, 1)
	require.Equal(t, page.Stop, none[0].Rows[0].Tone)
	j.Plan.Places[0].Stops = p.Stops
	require.Equal(t, page.Row{Kind: page.Item, Tone: page.Stop, Text: "STOP: live wiring on porcelain knobs"}, pages.CoverBlocks(j.Plan, planned.Options(t))[1].Rows[0])
}

// The mistakes of an offer stand before it and keep to the page.
func TestOpenOffersKeepToThePage(t *testing.T) {
	j, o := planned.Job(fixture.Demo(t, "house-in-the-snow.toml")), planned.Options(t)
	open := []inspect.OpenOffer{{Path: "metric.toml", Text: fixture.File(t, "offers/metric.toml")}}
	for _, width := range []int{40, 78} {
		o.Width = width
		text := print.Text(pages.OpenOffersPage(j, open, o), o.Width)
		require.Contains(t, text, "Could not be read\n"+strings.Repeat("-", width)+"\n- metric.toml:5: ")
		for _, l := range strings.Split(text, "\n") {
			require.LessOrEqual(t, len([]rune(l)), width, l)
		}
	}
	require.Contains(t, pages.OpenOfferNote(j, open[0]), "5 lines could not be read")
	require.Equal(t, "1 open, up to 3 side by side", pages.OffersNote(1))
}

// Whoever reads a page of finished work reads that it gets wet: in text, in Markdown,
// in JSON and on the screen.
func TestFinishedWorkSaysWet(t *testing.T) {
	j := planned.Job(fixture.Judged(t, fixture.Read(t, strings.Replace(wetWall, "retarder = \"none\"", "", 1))))
	for _, face := range []string{"facing = \"none\"", "facing = \"kraft\"\nfacing_side = \"out\""} {
		h, _, problems := inspect.ReadFound(inspect.FoundList(j.Catalog()), j, "x.toml", "[[place]]\nid = \"walls\"\n"+face+"\n")
		require.Empty(t, problems)
		r := inspect.JudgeFound(j, h, nil)
		o := planned.Options(t)
		object, err := pages.FoundJSON(j, r)
		require.NoError(t, err)
		screen := ""
		for _, row := range pages.FoundRows(r.Places[0], o) {
			screen += row.Label + " " + row.Text + "\n"
		}
		for form, text := range map[string]string{"text": print.Text(pages.FoundPage(j, r, o), o.Width), "markdown": print.Markdown(pages.FoundPage(j, r, o)), "json": string(object), "screen": screen} {
			require.Regexp(t, `gets wet|mold grows|"wets"|"mold"`, text, form)
		}
	}
}

// Gaps measured by hand are shares of a guess: whole percents, never decimals.
func TestMeasuredGapsAreWholePercents(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	for text, want := range map[string]string{"void_pct = 3.28": "about 3 %", "void_pct = 0.2": "less than 1 %", "void_pct = 0": "0 %", "gaps = \"24 x 1, 10 x 1/2\"\nlooked_ft2 = 50": "less than 1 %"} {
		h, _, problems := inspect.ReadFound(inspect.FoundList(j.Catalog()), j, "x.toml", "[[place]]\nid = \"street-wall\"\n"+text+"\n")
		require.Empty(t, problems)
		page := strings.Join(strings.Fields(print.Text(pages.FoundPage(j, inspect.JudgeFound(j, h, nil), planned.Options(t)), planned.Options(t).Width)), " ")
		require.Regexp(t, `No gaps(: |\? No: )`+want+" of the area", page, text)
	}
}

// Two bids of one firm are told apart by their files, and an attic has no
// finished wall.
func TestTwoBidsOfOneFirm(t *testing.T) {
	j := planned.Job(fixture.Demo(t, demo.Default))
	bid := "from = \"One Firm (invented)\"\n[[part]]\nplace = \"attic\"\nmaterial = \"fiberglass\"\nr = 38\nthickness_in = 12\n"
	var offers []inspect.OfferResult
	for _, file := range []string{"bids/may.toml", "bids/june.toml"} {
		r, problems := inspect.OpenOffer{Path: file, Text: bid}.Judge(j)
		require.Empty(t, problems)
		offers = append(offers, r)
	}
	o := planned.Options(t)
	for form, text := range map[string]string{"text": print.Text(pages.OffersPage(j, offers, nil, o), o.Width), "markdown": print.Markdown(pages.OffersPage(j, offers, nil, o))} {
		for _, file := range []string{"may.toml", "june.toml"} {
			require.Contains(t, text, "Questions to phone, One Firm (invented) ("+file+")", form)
		}
		require.NotContains(t, text, "Finished wall", form)
	}
	require.NotContains(t, print.Text(pages.OffersPage(j, offers[:1], nil, o), o.Width), "may.toml", "one alone needs no file")
}
