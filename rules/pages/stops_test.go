package pages_test

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules"
	"battwright/rules/inspect"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// Every rule that stops a place is met by the houses below, so that a new one
// is not left out of the test of the views.
func TestStoppedHousesMeetEveryStop(t *testing.T) {
	met := map[string]bool{}
	for _, h := range planned.StoppedHouses(t) {
		for _, s := range plan.Make(h.House).Places[0].Stops {
			met[s.Danger] = true
		}
	}
	for _, r := range fixture.Catalog(t).Book().Rules() {
		if r.Effect.Stops {
			require.True(t, met[r.ID], r.ID)
		}
	}
}

// A stopped place begins with STOP in everything that is printed of it, says
// every danger, and no line of work, choice or money.
func TestStoppedPlacesInEveryView(t *testing.T) {
	o := planned.Options(t)
	for _, h := range planned.StoppedHouses(t) {
		t.Run(h.Name, func(t *testing.T) {
			j := planned.Job(h.House)
			place := j.Plan.Places[0]
			require.Nil(t, place.Choice)
			for form, text := range viewsOf(t, j, o) {
				for _, s := range place.Stops {
					require.Contains(t, spaced(text), spaced(s.Say), form)
				}
				require.NotContains(t, spaced(text), "STOP, after that: "+spaced(place.Stops[0].Say), form)
			}
			out := planned.Forms(t, j.Plan, o)
			section := between(out["text"], planned.StoppedLabel+", ", "The other, ")
			_, body, _ := strings.Cut(section, "\n")
			_, body, _ = strings.Cut(body, "\n")
			require.True(t, strings.HasPrefix(body, "STOP "), body)
			noWork(t, j, section)
			section = between(out["markdown"], "## "+planned.StoppedLabel, "## The other")
			require.True(t, strings.HasPrefix(strings.TrimSpace(strings.SplitN(section, "\n", 2)[1]), "- **STOP**"), section)
			noWork(t, j, section)
			require.True(t, strings.HasPrefix(pages.Glance(place, o), "STOP: "))
			noWork(t, j, pages.Glance(place, o))
			stoppedJSON(t, j.Plan, out["json"])
			for _, line := range strings.Split(out["csv"], "\n") {
				if strings.HasPrefix(line, planned.StoppedLabel) {
					require.Contains(t, line, ",STOP,,,,,,,,,no")
				}
			}
			require.Equal(t, j.Plan.Places[1].Cost.Total, j.Plan.Bill.Money.Total, "nothing of the place is in the sum")
		})
	}
}

// viewsOf are the printed views besides the rows of a spreadsheet.
func viewsOf(t *testing.T, j inspect.Job, o pages.Options) map[string]string {
	t.Helper()
	out := planned.Forms(t, j.Plan, o)
	delete(out, "csv")
	made := order.Make(j.Plan, j.Assessment.Answered)
	out["order"] = print.Text(pages.OrderPage(made, j.Plan, o), o.Width)
	handed := pages.Handover{Job: j}
	var err error
	out["handover"], err = planned.Handed(handed, o)
	require.NoError(t, err)
	b, err := handed.JSON(o)
	require.NoError(t, err)
	out["handover json"] = string(b)
	for _, person := range inspect.Persons() {
		out["page "+person], err = planned.Handed(pages.Handover{Job: j, Person: person}, o)
		require.NoError(t, err)
	}
	out["cover"] = blocksOf(pages.CoverBlocks(j.Plan, o))
	out["sheet"] = blocksOf(pages.SheetBlocks(j, j.Plan.Places[0], o))
	found, notes, problems := inspect.ReadFound(inspect.FoundList(j.Catalog()), j, "f", "version = 1\n")
	require.Empty(t, problems)
	judged := inspect.JudgeFound(j, found, notes)
	require.False(t, judged.ReadyToClose())
	out["finished"] = print.Text(pages.FoundPage(j, judged, o), o.Width)
	bid, problems := inspect.ReadOffer(j, "o", "version = 1\nfirm = \"Invented\"\n[[part]]\nplace = \""+planned.StoppedID+"\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\n")
	require.NotNil(t, bid)
	result := inspect.JudgeOffer(j, bid)
	require.Equal(t, inspect.Stop, result.Places[0].Findings[0].Level, "%v", problems)
	out["bid"] = print.Text(pages.OffersPage(j, []inspect.OfferResult{result}, nil, o), o.Width)
	return out
}

func blocksOf(blocks []page.Block) string {
	var out []string
	for _, b := range blocks {
		out = append(out, b.Title)
		for _, r := range b.Rows {
			out = append(out, r.Text)
		}
	}
	return strings.Join(out, "\n")
}

// between is the part of a text from one mark to the next.
func between(text, from, to string) string {
	_, rest, _ := strings.Cut(text, from)
	part, _, _ := strings.Cut(rest, to)
	return part
}

// noWork finds nothing in a text that is only there where work has a plan.
func noWork(t *testing.T, j inspect.Job, text string) {
	t.Helper()
	for _, r := range j.Catalog().Book().Rules() {
		if r.Effect.Kind == rules.Install || r.Effect.Kind == rules.Require {
			require.NotContains(t, spaced(text), spaced(r.Reason), r.ID)
		}
	}
	for _, word := range []string{"$", "of 100 points", "N95", "Use ", "R-"} {
		require.NotContains(t, text, word)
	}
}

func stoppedJSON(t *testing.T, p plan.Plan, text string) {
	t.Helper()
	var got struct {
		Places []struct {
			State   string
			Stopped string
			Stops   []struct{ Danger, Say, Call string }
			Ranking []any
			Choice  any
			Install []any
			Order   []any
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	first, other := got.Places[0], got.Places[1]
	require.Equal(t, "stop", first.State)
	require.True(t, strings.HasPrefix(first.Stopped, "STOP: "))
	require.Len(t, first.Stops, len(p.Places[0].Stops))
	for i, s := range p.Places[0].Stops {
		require.Equal(t, struct{ Danger, Say, Call string }{s.Danger, s.Say, s.Call}, first.Stops[i])
		require.Contains(t, s.Say, s.Call)
	}
	require.Empty(t, first.Ranking)
	require.Nil(t, first.Choice)
	require.Empty(t, first.Install)
	require.Empty(t, first.Order)
	require.Equal(t, "planned", other.State)
	require.Empty(t, other.Stops)
	require.NotEmpty(t, other.Ranking)
}

// Nothing is ordered for a stopped place, and the order says why.
func TestNothingIsOrderedForStoppedPlaces(t *testing.T) {
	o := planned.Options(t)
	for _, h := range planned.StoppedHouses(t) {
		p := plan.Make(h.House)
		made := order.Make(p, h.House)
		require.Empty(t, made.Places[0].Layers, h.Name)
		require.Empty(t, made.Places[0].Extras, h.Name)
		require.Zero(t, made.Places[0].Money.Total, h.Name)
		require.True(t, strings.HasPrefix(made.Places[0].Skipped, "STOP: "), h.Name)
		for _, l := range made.Lines {
			require.NotContains(t, l.Places, planned.StoppedLabel, h.Name)
		}
		for _, g := range made.Goods {
			require.NotContains(t, g.Places, planned.StoppedLabel, h.Name)
		}
		table, err := pages.OrderCSV(made, o)
		require.NoError(t, err)
		for _, line := range strings.Split(table, "\n") {
			if strings.HasPrefix(line, "blanket,") || strings.HasPrefix(line, "with it,") {
				require.NotContains(t, line, planned.StoppedLabel)
			}
		}
	}
}

// Who goes first is in the data: the fill is tested before an electrician
// crawls through it, and old wiring is looked at before anybody stands in water.
func TestStopsInTheOrderOfWhoGoesFirst(t *testing.T) {
	of := func(place string) []string {
		p := plan.Make(fixture.Read(t, "version = 1\nstage = \"framed\"\nold = true\n[[place]]\nid = \"x\"\n"+place))
		var out []string
		for _, s := range p.Places[0].Stops {
			out = append(out, s.Danger)
		}
		return out
	}
	require.Equal(t, []string{"vermiculite", "knob-and-tube"}, of("kind = \"attic\"\nknob_and_tube = true\nvermiculite = true\n"))
	require.Equal(t, []string{"knob-and-tube", "water-first"}, of("kind = \"crawl-space\"\nvented = true\nknob_and_tube = true\ndampness = \"wet\"\n"))
	p := plan.Make(fixture.Read(t, "version = 1\n[[place]]\nid = \"x\"\nkind = \"basement-wall\"\ndampness = \"wet\"\n"))
	require.Empty(t, p.Places[0].Stops[0].Call, "water needs gutters and time, nobody licensed")
	require.NotContains(t, p.Places[0].Stops[0].Say, "licensed")
}

// Where the width of the air beside a flue is not known no width is printed, no
// blanket is chosen, and the fibers are still ranked with their reasons.
func TestUnknownWidthsAreNotPrinted(t *testing.T) {
	width := regexp.MustCompile(`\d ?(in|inch|inches|mm)\b`)
	o := planned.Options(t)
	for _, kind := range []string{"factory-built", "type-b-vent", "pellet-vent", "plastic-vent", "unknown"} {
		for _, more := range []string{"", "\nclearance_in = 0"} {
			a := fixture.OfPlaces(t, "zone = \"6A\"", "id = \"here\"\nlabel = \"Flue\"\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = \""+kind+"\""+more)
			j := planned.Job(a)
			p := j.Plan.Places[0]
			require.Nil(t, p.Choice, kind)
			require.Zero(t, j.Plan.Bill.Money.Total)
			text := pages.Glance(p, o) + "\n" + strings.Join(pages.Cautions(p, o), "\n")
			for _, l := range pages.PlaceRows(p, o) {
				text += "\n" + l.Text
			}
			for _, r := range pages.RankRows(p, o) {
				text += "\n" + r.Text()
			}
			handed, err := planned.Handed(pages.Handover{Job: j}, o)
			require.NoError(t, err)
			handed = between(handed, "Flue\n", "Labels and receipts")
			made := order.Make(j.Plan, a)
			for what, said := range map[string]string{"plan": text, "handover": handed, "order": made.Places[0].Skipped} {
				require.Contains(t, spaced(said), "width not known: read the listing", what)
				require.Empty(t, width.FindAllString(strings.ReplaceAll(said, "64 ft2, 2x8 at 16 in", ""), -1), "%s of %s", what, kind)
			}
			require.Empty(t, made.Lines)
			require.Empty(t, made.Places[0].Extras)
			rows := pages.RankRows(p, o)
			require.Equal(t, "1", rows[0].Rank)
			require.Equal(t, "mineral wool", rows[0].Name)
			require.Empty(t, rows[0].Price)
			require.NotEmpty(t, rows[0].Plus)
			require.NotContains(t, planned.Forms(t, j.Plan, o)["csv"], "batts")
			require.NotContains(t, planned.Forms(t, j.Plan, o)["json"], "product")
			bid, _ := inspect.ReadOffer(j, "o", "version = 1\n[[part]]\nplace = \"here\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\n")
			offered := print.Text(pages.OffersPage(j, []inspect.OfferResult{inspect.JudgeOffer(j, bid)}, nil, o), o.Width)
			require.Contains(t, spaced(offered), "STOP, before any of it is signed")
			require.Contains(t, spaced(offered), "STOP KEEP THE GAP EMPTY, width not known: read the listing")
		}
	}
}

// A bid beside a chimney is held to the width with its own source: the 4 in at
// the back of a fireplace is said to be from memory, and not in R1003.18.
func TestBidsNameTheWidthWithItsSource(t *testing.T) {
	o := planned.Options(t)
	for kind, want := range map[string]string{
		"masonry-inside": "IRC R1003.18 and .19", "masonry-fireplace": "IRC R1001.11",
	} {
		j := planned.Job(fixture.OfPlaces(t, "zone = \"6A\"", "id = \"here\"\nkind = \"chimney\"\nframing.size = \"2x8\"\nchimney = \""+kind+"\""))
		bid, _ := inspect.ReadOffer(j, "o", "version = 1\n[[part]]\nplace = \"here\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\n")
		r := inspect.JudgeOffer(j, bid)
		at := slices.IndexFunc(r.Places[0].Findings, func(f inspect.Finding) bool { return f.ID == "gap" })
		require.GreaterOrEqual(t, at, 0)
		source, _ := j.Catalog().Source(r.Places[0].Findings[at].Ref.Source)
		require.Contains(t, source.Title, want)
		text := spaced(print.Text(pages.OffersPage(j, []inspect.OfferResult{r}, nil, o), o.Width))
		require.Equal(t, kind == "masonry-fireplace", strings.Contains(text, "4 in (from memory, not yet checked)"), kind)
	}
}

// What nobody has found out at a stopped place is said with the stop, on every
// paper: whoever is called goes in.
func TestWhatIsNotKnownGoesWithTheStop(t *testing.T) {
	for place, want := range map[string]string{
		"kind = \"attic\"\nknob_and_tube = true\nvermiculite = \"unknown\"":                      "Is there loose, pebbly, shiny fill?",
		"kind = \"crawl-space\"\nvented = true\ndampness = \"wet\"\nknob_and_tube = \"unknown\"": "Is there old wiring on white porcelain knobs?",
	} {
		a := fixture.Read(t, "version = 1\nold = true\nstage = \"framed\"\n[site]\nzone = \"5A\"\n[[place]]\nid = \"p\"\n"+place+"\n")
		require.True(t, planned.Job(a).Plan.Places[0].Stopped())
		for name, text := range papers(t, a) {
			switch name {
			case "page store":
			default:
				require.Contains(t, strings.Join(strings.Fields(strings.ReplaceAll(text, "#", "")), " "), "STOP, before anybody goes in: "+want, name)
			}
		}
	}
}

// A caution beside a stop is one, and no question.
func TestACautionBesideAStopKeepsItsSign(t *testing.T) {
	p := planned.Job(fixture.Read(t, "version = 1\nold = true\n[site]\nzone = \"6A\"\n[[place]]\nkind = \"chimney\"\nchimney = \"masonry-inside\"\nframing.size = \"2x8\"\ngap_in = 1\nknob_and_tube = false\n")).Plan.Places[0]
	require.True(t, p.Stopped())
	n := 0
	for _, d := range []page.Page{pages.HowPage(p, planned.Options(t)), pages.PlanPage(plan.Plan{Places: []plan.Place{p}}, planned.Options(t))} {
		for _, b := range d.Blocks {
			for _, r := range b.Rows {
				if strings.Contains(r.Text, "before 1978") {
					require.Equal(t, page.Caution, r.Mark, r.Text)
					n++
				}
			}
		}
	}
	require.GreaterOrEqual(t, n, 2)
}
