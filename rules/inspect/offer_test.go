package inspect_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/inspect"
	"battwright/rules/units"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// The offer that follows the plan lacks nothing but the chimney, and what the
// plan itself leaves open: a damp wall.
func TestCompleteOffer(t *testing.T) {
	r := offer(t, alder(t), "offers/full.toml")
	require.Empty(t, r.Findings)
	require.Equal(t, units.Cents(414000), r.Total)
	require.False(t, r.Summed)
	for _, p := range r.Places {
		if p.Plan.Surface.ID == "chimney" {
			require.Equal(t, []string{"mind", "not-offered"}, ids(p.Findings))
			continue
		}
		if p.Plan.Surface.ID == "basement" {
			require.Contains(t, ids(p.Findings), "settle-first", "a damp wall")
			continue
		}
		require.Less(t, inspect.Worst(p.Findings), inspect.Ask, "%s %v", p.Plan.Surface.ID, p.Findings)
	}
	require.Len(t, r.Questions, 3, "the fire cover of the foam is asked for whatever the bid says")
	require.True(t, r.FallsShort())
}

// What does not add up is found, each in its place.
func TestBoldOffer(t *testing.T) {
	r := offer(t, alder(t), "offers/bold.toml")
	want := map[string][]string{
		"street-wall":  {"r-impossible", "facing-side", "missing-form"},
		"garden-walls": {"area-off", "squeezed", "no-retarder"},
		"crawl":        {"paper-face-exposed", "missing-facing_side"},
		"chimney":      {"chimney-combustible", "missing-area_ft2"},
		"attic":        {"not-offered"},
	}
	for place, list := range want {
		require.Subset(t, ids(at(t, r, place).Findings), list, place)
	}
	require.Equal(t, inspect.Stop, inspect.Worst(at(t, r, "chimney").Findings), "a fiber that burns beside a chimney stops")
	require.Subset(t, ids(r.Findings), []string{"missing-date", "missing-signed", "missing-receipt", "sum-off"})
	require.NotContains(t, ids(at(t, r, "street-wall").Findings), "squeezed")
	require.True(t, strings.HasPrefix(r.Questions[0], "Beside the brick chimney"), "the gravest question first: %s", r.Questions[0])
	seen := map[string]bool{}
	for _, q := range r.Questions {
		require.False(t, seen[q], "asked twice: %s", q)
		seen[q] = true
	}
}

// Other units and mistakes: everything that can be read is read, everything
// else is named with its line.
func TestOfferInOtherUnits(t *testing.T) {
	j := alder(t)
	o, problems := inspect.ReadOffer(j, "metric.toml", fixture.File(t, "offers/metric.toml"))
	got := map[int]string{}
	for _, p := range problems {
		got[p.Line] = p.Key
	}
	require.Equal(t, map[int]string{5: "total_eur", 8: "part[1].place", 25: "part[3].material", 28: "part[3].area_ft2", 29: "part[3].color"}, got)
	require.Contains(t, problems.Error(), "did you mean street-wall?")
	require.Len(t, o.Parts, 2)
	street := o.Parts[0].Answers
	require.Equal(t, "mineral-wool", street["material"].Text)
	require.InDelta(t, 4.05*units.RIPPerRSI, street["r"].Number, 1e-9)
	require.InDelta(t, 140/25.4, street["thickness_in"].Number, 1e-9)
	require.InDelta(t, 24.6/units.M2PerFt2, street["area_ft2"].Number, 1e-9)
	require.Equal(t, 520.0, street["price_usd"].Number)
	require.InDelta(t, 89/25.4, o.Parts[1].Answers["thickness_in"].Number, 1e-9)
	require.Len(t, o.Notes, 5, "each figure in another unit is named")
	for _, n := range o.Notes {
		require.Positive(t, n.Line)
		require.Contains(t, n.Want, "read as")
	}
	r := inspect.JudgeOffer(j, o)
	require.NotNil(t, at(t, r, "street-wall").Offered)
	require.Nil(t, at(t, r, "garden-walls").Offered, "without a fiber no heat is worked out")
	require.Contains(t, ids(r.Findings), "other-units")
}

func TestBrokenOfferFiles(t *testing.T) {
	j := alder(t)
	for name, x := range map[string]struct {
		text string
		want []string
	}{
		"not toml":        {"version = = 1", []string{":1"}},
		"empty":           {"", nil},
		"newer":           {"version = 7", []string{"version"}},
		"part is a word":  {"version = 1\npart = \"wall\"", []string{"part"}},
		"place is a list": {"[[part]]\nplace = [\"attic\"]", []string{"place"}},
		"not a place":     {"[[part]]\nr = 13", []string{"place"}},
		"both units":      {"[[part]]\nplace = \"attic\"\nr = 13\nrsi = 2.3", []string{"only one of the two units"}},
		"wrong type":      {"signed = \"maybe\"\n[[part]]\nplace = \"attic\"\nr = true\nthickness_in = \"a hand\"", []string{"signed", "part[1].r", "thickness_in"}},
		"not a need":      {"[[part]]\nplace = \"attic\"\nalso = [\"gold\"]", []string{"also"}},
		"control":         {"from = \"a\\u0007b\"", []string{"from"}},
	} {
		o, problems := inspect.ReadOffer(j, "x.toml", x.text)
		require.Equal(t, len(x.want) == 0, len(problems) == 0, "%s: %v", name, problems)
		for _, w := range x.want {
			require.Contains(t, problems.Error(), w, name)
		}
		require.NotPanics(t, func() { inspect.JudgeOffer(j, o) }, name)
	}
}

// An offer of nothing is answered with a question for each place and for each
// thing a contract says.
func TestOfferOfNothing(t *testing.T) {
	r := offered(t, alder(t), "version = 1\n")
	for _, p := range r.Places {
		require.Contains(t, ids(p.Findings), "not-offered")
		require.Subset(t, []string{"settle-first", "mind", "not-offered", "plan-damp"}, ids(p.Findings))
	}
	require.Len(t, r.Findings, 11)
	require.False(t, r.HasTotal)
}

// The sum of the lines stands in for a missing total, and says so.
func TestSumOfLines(t *testing.T) {
	part := "[[part]]\nplace = \"street-wall\"\nprice_usd = %s\n"
	one := strings.Replace(part, "%s", "100.25", 1)
	r := offered(t, alder(t), one+strings.Replace(part, "%s", "200", 1))
	require.True(t, r.Summed)
	require.Equal(t, units.Cents(30025), r.Total)
	require.Equal(t, units.Cents(30025), at(t, r, "street-wall").Price)
	r = offered(t, alder(t), one+"[[part]]\nplace = \"attic\"\n")
	require.False(t, r.HasTotal, "a line without a price has no sum")
	r = offered(t, alder(t), "total_usd = 100.25\n"+one)
	require.NotContains(t, ids(r.Findings), "sum-off")
	r = offered(t, alder(t), "total_usd = 110\n"+one)
	require.Contains(t, ids(r.Findings), "sum-off")
}

// R at thickness: within what the fiber has is believed, beyond it is not.
func TestImpossibleR(t *testing.T) {
	for _, x := range []struct {
		material, r, thick string
		want               string
	}{
		{"fiberglass", "15", "3.5", ""},
		{"fiberglass", "21", "5.5", ""},
		{"fiberglass", "30", "5.5", "r-impossible"},
		{"cotton", "13", "3.5", ""},
		{"cotton", "19", "3.5", "r-impossible"},
		{"sheeps-wool", "13", "3.5", ""},
		{"sheeps-wool", "30", "5.5", "r-impossible"},
		{"mineral-wool", "23", "5.5", ""},
		{"fiberglass", "3.7", "5.5", "r-low"}, // the metric figure without its unit
		{"fiberglass", "60", "5", "r-impossible"},
	} {
		r := offered(t, alder(t), "[[part]]\nplace = \"street-wall\"\nmaterial = \""+x.material+"\"\nr = "+x.r+"\nthickness_in = "+x.thick+"\n")
		got := ids(at(t, r, "street-wall").Findings)
		for _, id := range []string{"r-impossible", "r-low"} {
			if id == x.want {
				require.Contains(t, got, id, "%+v", x)
			} else {
				require.NotContains(t, got, id, "%+v", x)
			}
		}
	}
}

// Centimetres, metres and metric words stand for the same wall.
func TestUnitsOfAThickness(t *testing.T) {
	j := alder(t)
	for _, line := range []string{"thickness_cm = 14", "thickness_m = 0.14", "thickness_mm = 140", "thickness_in = \"14 cm\"", "thickness_in = \"140mm\"", "thickness_mm = \"140\""} {
		o, problems := inspect.ReadOffer(j, "x.toml", "[[part]]\nplace = \"street-wall\"\n"+line+"\n")
		require.Empty(t, problems, line)
		require.InDelta(t, 14/2.54, o.Parts[0].Answers["thickness_in"].Number, 1e-9, line)
		require.Len(t, o.Notes, 1, line)
	}
}

// Too much and too little area are told apart.
func TestAreaOff(t *testing.T) {
	for area, want := range map[string]string{"200": "65 ft2 less", "300": "35 ft2 more", "270": "", "255": ""} {
		r := offered(t, alder(t), "[[part]]\nplace = \"street-wall\"\narea_ft2 = "+area+"\n")
		said := ""
		for _, f := range at(t, r, "street-wall").Findings {
			if f.ID == "area-off" {
				said = f.Text
			}
		}
		require.Equal(t, want == "", said == "", area)
		require.Contains(t, said, want, area)
	}
}

// The rule book judges what is offered: a face that is wrong for a hot, damp
// zone, and two retarders.
func TestFaceWrongForTheZone(t *testing.T) {
	j := demoJob(t, "house-on-stilts.toml")
	checked := 0
	for _, p := range j.Plan.Places {
		if p.Surface.Kind.ID != "exterior-wall" {
			continue
		}
		r := offered(t, j, "[[part]]\nplace = \""+p.Surface.ID+"\"\nmaterial = \"fiberglass\"\nr = 13\nthickness_in = 3.5\nfacing = \"kraft\"\nfacing_side = \"room\"\n")
		require.Contains(t, ids(at(t, r, p.Surface.ID).Findings), "hot-humid-face")
		out := at(t, offered(t, j, strings.Replace(line(p.Surface.ID, "kraft", ""), `"room"`, `"out"`, 1)), p.Surface.ID)
		require.NotContains(t, ids(out.Findings), "hot-humid-face", "no face is on the room side")
		require.Equal(t, inspect.Wrong, levelOf(t, out, "facing-side"))
		seen := place(t, found(t, j, "[[place]]\nid = \""+p.Surface.ID+"\"\nfacing = \"kraft\"\nfacing_side = \"out\"\n"), p.Surface.ID)
		face := result(t, seen, "facing-side")
		require.Equal(t, inspect.Fix, face.State)
		require.NotContains(t, face.Text, "room side")
		checked++
	}
	require.Positive(t, checked)
	r := offered(t, alder(t), "[[part]]\nplace = \"street-wall\"\nmaterial = \"fiberglass\"\nr = 21\nthickness_in = 5.5\nfacing = \"kraft\"\nfacing_side = \"room\"\nsheet = \"polyethylene\"\n")
	require.Contains(t, ids(at(t, r, "street-wall").Findings), "two-retarders-inside")
}

// What is offered is compared in damp too; a face between layers and the air
// gap of a chimney are asked about.
func TestDampFacesAndGap(t *testing.T) {
	r := offer(t, alder(t), "offers/bold.toml")
	garden := at(t, r, "garden-walls")
	bare, planned := garden.Offered.Damp.Word, garden.Plan.Choice.Damp.Word
	require.Equal(t, damp.Rank(bare) > damp.Rank(planned), strings.Contains(said(t, garden.Findings, "no-retarder").Text, "Damp check: "))
	require.Contains(t, ids(at(t, r, "chimney").Findings), "gap")
	require.Contains(t, strings.Join(r.Questions, "\n"), "How do you keep the 2 in of air empty")
	layer := "[[part]]\nplace = \"attic\"\nmaterial = \"fiberglass\"\nr = 25\nthickness_in = 8\nfacing = \"%s\"\n"
	faced := offered(t, alder(t), strings.Replace(layer, "%s", "none", 1)+strings.Replace(layer, "%s", "kraft", 1))
	require.Contains(t, ids(at(t, faced, "attic").Findings), "face-between")
	plain := offered(t, alder(t), strings.Replace(layer, "%s", "none", 1)+strings.Replace(layer, "%s", "none", 1))
	require.NotContains(t, ids(at(t, plain, "attic").Findings), "face-between")
}

// Sealing at extra cost is an answer: it is asked what it costs, and never said
// to be a no. What a contract lacks is named by what is lacking.
func TestExtraIsNotNo(t *testing.T) {
	r := offered(t, alder(t), "air_sealing = \"extra\"\n")
	require.NotContains(t, ids(r.Findings), "missing-air_sealing")
	require.Contains(t, said(t, r.Findings, "sealing-extra").Ask, "cost")
	for _, said := range []string{"owner", "included"} {
		r := offered(t, alder(t), "air_sealing = \""+said+"\"\n")
		require.NotContains(t, ids(r.Findings), "sealing-extra")
		require.NotContains(t, ids(r.Findings), "missing-air_sealing")
	}
	require.Contains(t, said(t, offered(t, alder(t), "").Findings, "missing-inspection_first").Text, "lacks a promise to cover nothing")
	require.Contains(t, said(t, offered(t, alder(t), "mending = false\n").Findings, "missing-mending").Text, "says no to: free repair")
}

// A question to phone names the place and the figure as the bidder gave it,
// never a key of the file.
func TestQuestionsNameNoKeys(t *testing.T) {
	j := alder(t)
	o, _ := inspect.ReadOffer(j, "metric.toml", fixture.File(t, "offers/metric.toml"))
	r := inspect.JudgeOffer(j, o)
	all := strings.Join(r.Questions, "\n")
	require.Contains(t, all, "Street wall: You give RSI 4.05. Which R is printed on the US label?")
	require.Contains(t, all, "Street wall: You give 140 mm. How many inches thick is it by its label?")
	require.NotRegexp(t, `part\[|_mm|_ft2|\brsi\b`, all)
}

// The width of the air gap, its source and its mark are those of the clearance:
// masonry by the code, the back of a fireplace from memory; what only a listing
// says has no width and stops.
func TestGapIsTheClearances(t *testing.T) {
	for kind, want := range map[string]struct {
		level inspect.Level
		known catalog.Known
	}{"masonry-inside": {inspect.Note, catalog.Standard}, "masonry-fireplace": {inspect.Note, catalog.Memory}, "factory-built": {inspect.Stop, ""}} {
		j := planned.Job(fixture.OfPlaces(t, "state = \"VT\"\ncounty = \"Chittenden\"", "id = \"chimney\"\nkind = \"chimney\"\nchimney = \""+kind+"\"\nframing.size = \"2x10\""))
		p := at(t, offered(t, j, "[[part]]\nplace = \"chimney\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\nfacing = \"none\"\n"), "chimney")
		gap := said(t, p.Findings, "gap")
		require.Equal(t, want.level, gap.Level, kind)
		require.Equal(t, want.known, gap.Ref.Known, kind)
		require.Equal(t, p.Plan.Surface.Clearance.Ref(), gap.Ref, kind)
		require.Contains(t, gap.Text, p.Plan.Surface.Clearance.Text(units.US), kind)
		if want.level == inspect.Stop {
			require.NotRegexp(t, "[0-9] in", gap.Text+gap.Ask, "no width without its listing")
		}
	}
}
