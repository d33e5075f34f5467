package inspect_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/damp"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// chosen are all places of the demo houses that have a plan.
func chosen(t testing.TB, visit func(j inspect.Job, p plan.Place)) {
	n := 0
	for _, name := range demo.Names() {
		j := demoJob(t, name)
		for _, p := range j.Plan.Places {
			if p.Choice != nil {
				visit(j, p)
				n++
			}
		}
	}
	require.Greater(t, n, 12)
}

func numbers(vs ...float64) house.Answer {
	words := make([]string, len(vs))
	for i, v := range vs {
		words[i] = fmt.Sprint(v)
	}
	return house.List(words...)
}

// asPlanned are the answers of a job done as the plan has it.
func asPlanned(p plan.Place) house.Answers {
	a := house.Answers{"material": house.Text(p.Choice.MaterialID), "facing": house.Text(p.Choice.Facing.OnBlanket), "facing_side": house.Text("room")}
	if p.Choice.Facing.Sheet != "" {
		a["sheet"] = house.Text(p.Choice.Facing.Sheet)
	}
	if p.Surface.Kind.ID == "crawl-wall" {
		a["facing_side"] = house.Text("out")
	}
	var rs, ins []float64
	height := 0.0
	for _, l := range p.Choice.Layers {
		rs, ins, height = append(rs, l.Product.NominalR), append(ins, l.Product.ThicknessIn), height+l.RoomIn
	}
	a["label_r"], a["label_thickness_in"] = numbers(rs...), numbers(ins...)
	if p.Surface.OldIn > 0 { // the ruler goes to the ceiling
		height += candidate.StandsIn(p.Surface, p.Choice.Blankets)
		a["old_in"] = house.Number(p.Surface.OldIn)
	}
	var ten []float64
	for range 10 {
		ten = append(ten, height)
	}
	a["thickness_in"] = numbers(ten...)
	a["squeezed_pct"] = house.Number(0)
	a["void_pct"] = house.Number(100 * p.Choice.Heat.VoidShare)
	if p.BoardR() > 0 {
		a["board_there"], a["board_r"] = house.YesNo(true), house.Number(p.BoardR())
	}
	if p.Surface.Kind.ID == "chimney" {
		a["batt_in_gap"], a["gap_in"] = house.YesNo(false), house.Number(p.Surface.Clearance.Inches)
	}
	for i := range p.Choice.Layers {
		if p.Choice.Layers[i].Across { // the bottom's gaps are under the top: none was seen
			a["void_pct"] = house.Number(0)
		}
	}
	return a
}

// Measured as planned gives the plan: heat, damp, money, and no point fails.
func TestMeasuredAsPlannedGivesThePlan(t *testing.T) {
	chosen(t, func(j inspect.Job, p plan.Place) {
		for name, a := range map[string]house.Answers{"measured": asPlanned(p), "nothing measured": {}} {
			got := inspect.JudgePlace(j, p, a)
			what := p.Surface.ID + ", " + name
			require.NotNil(t, got.Got, what)
			require.InDelta(t, p.Choice.Heat.DeliveredR, got.Got.Heat.DeliveredR, 1e-9, what)
			require.InDelta(t, p.Choice.Heat.AssemblyR, got.Got.Heat.AssemblyR, 1e-9, what)
			require.InDelta(t, p.Choice.Heat.LossMMBtu.High, got.Got.Heat.LossMMBtu.High, 1e-9, what)
			if len(a) > 0 {
				require.Equal(t, p.Choice.Damp.Word, got.Got.Damp.Word, what)
			} else {
				require.Equal(t, damp.NotJudged, got.Got.Damp.Word, "a face nobody saw has no verdict: "+what)
			}
			require.Zero(t, got.LostHeat.High, what)
			require.Zero(t, got.LostUSD.High, what)
			want := inspect.Pass
			if got.DampPlanned() {
				want = inspect.Fix
			}
			require.Equal(t, want, got.Worst(), what)
		}
	})
}

// randomFound are answers within what the questions take.
func randomFound(rng *rand.Rand, p plan.Place) house.Answers {
	a := asPlanned(p)
	height := got(p)
	depths := make([]float64, 1+rng.IntN(10))
	for i := range depths {
		depths[i] = height * math.Min(1, 0.2+rng.Float64()) // thicker bulges, which is another fault
	}
	a["thickness_in"] = numbers(depths...)
	a["void_pct"] = house.Number(rng.Float64() * 20)
	a["squeezed_pct"] = house.Number(rng.Float64() * 40)
	a["squeezed_to_in"] = house.Number(height * rng.Float64())
	return a
}

func got(p plan.Place) float64 {
	sum := 0.0
	for _, l := range p.Choice.Layers {
		sum += l.RoomIn
	}
	return sum
}

// More gaps, more squeezing, less depth: never more R, never less heat lost,
// never a better grade.
func TestWorseIsNeverBetter(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 1))
	worse := map[string]func(house.Answers){
		"more void": func(a house.Answers) {
			a["void_pct"] = house.Number(math.Min(100, a["void_pct"].Number+rng.Float64()*30))
		},
		"more squeezed": func(a house.Answers) {
			a["squeezed_pct"] = house.Number(math.Min(100, a["squeezed_pct"].Number+rng.Float64()*30))
		},
		"squeezed more": func(a house.Answers) { a["squeezed_to_in"] = house.Number(a["squeezed_to_in"].Number * rng.Float64()) },
		"thinner": func(a house.Answers) {
			var vs []float64
			for _, s := range a["thickness_in"].List {
				var v float64
				fmt.Sscan(s, &v)
				vs = append(vs, v*rng.Float64())
			}
			a["thickness_in"] = numbers(vs...)
		},
	}
	chosen(t, func(j inspect.Job, p plan.Place) {
		for name, change := range worse {
			for range 6 {
				before := randomFound(rng, p)
				after := before.Clone()
				change(after)
				a, b := inspect.JudgePlace(j, p, before), inspect.JudgePlace(j, p, after)
				what := fmt.Sprintf("%s, %s: %v -> %v", p.Surface.ID, name, before, after)
				require.NotNil(t, a.Got, what)
				require.NotNil(t, b.Got, what)
				require.LessOrEqual(t, b.Got.Heat.DeliveredR, a.Got.Heat.DeliveredR+1e-9, what)
				require.LessOrEqual(t, b.Got.Heat.AssemblyR, a.Got.Heat.AssemblyR+1e-9, what)
				require.LessOrEqual(t, b.GradedR, a.GradedR+1e-9, what)
				require.GreaterOrEqual(t, b.LostHeat.High, a.LostHeat.High-1e-9, what)
				require.GreaterOrEqual(t, int(b.Grade), int(a.Grade), what)
				require.GreaterOrEqual(t, int(b.Worst()), int(a.Worst()), what)
			}
		}
	})
}

// Work that is worse than the plan in every layer is never a better figure
// anywhere; and whatever is measured, the two figures of a place that stand
// beside each other never point in two directions: less in place is never more
// with the wood.
func TestWorseWorkIsNoBetterFigure(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 5))
	contrary := 0
	try := func(j inspect.Job, p plan.Place) {
		for range 8 {
			a := randomFound(rng, p)
			mixed := inspect.JudgePlace(j, p, a)
			require.NotNil(t, mixed.Got)
			got, planned := mixed.Got.Heat, p.Choice.Heat
			if got.DeliveredR < planned.DeliveredR-0.05 {
				contrary++
				require.LessOrEqual(t, got.AssemblyR, planned.AssemblyR+1e-9, "%s %v: %.2f in place, planned %.2f", p.Surface.ID, a, got.DeliveredR, planned.DeliveredR)
			}
			var rs, depths []float64
			for _, l := range p.Choice.Layers {
				rs = append(rs, l.Product.NominalR*(0.6+0.39*rng.Float64()))
			}
			for range 10 {
				depths = append(depths, p.Choice.HeightIn*(0.5+0.49*rng.Float64()))
			}
			a["label_r"], a["thickness_in"] = numbers(rs...), numbers(depths...)
			a["void_pct"] = house.Number(100*planned.VoidShare + rng.Float64()*10)
			worse := inspect.JudgePlace(j, p, a)
			require.NotNil(t, worse.Got)
			require.Less(t, worse.Got.Heat.DeliveredR, planned.DeliveredR, p.Surface.ID)
			require.Less(t, worse.Got.Heat.AssemblyR, planned.AssemblyR, p.Surface.ID)
			require.GreaterOrEqual(t, worse.Got.Heat.LossMMBtu.High, planned.LossMMBtu.High, p.Surface.ID)
		}
	}
	chosen(t, try)
	for _, spacing := range []int{16, 24} { // an attic between trusses, where no layer covers the gaps of the other
		j := atticJob(t, "trusses", spacing)
		try(j, j.Plan.Places[0])
	}
	require.Greater(t, contrary, 20)
}

// What is offered as planned is worth what the plan is worth.
func TestOfferedAsPlannedIsThePlan(t *testing.T) {
	for _, name := range demo.Names() {
		j := demoJob(t, name)
		text := "version = 1\n"
		for _, p := range j.Plan.Places {
			if p.Choice == nil {
				continue
			}
			for i, l := range p.Choice.Layers {
				sheet := "none"
				if p.Choice.Facing.Sheet != "" {
					sheet = p.Choice.Facing.Sheet
				}
				with := "bay_foam_by = \"bidder\"\n"
				if p.Target.AddR > 0 && i == 0 {
					with += fmt.Sprintf("board_by = \"bidder\"\nboard_r = %g\n", p.Target.AddR)
				}
				text += fmt.Sprintf("[[part]]\nplace = %q\nmaterial = %q\nform = %q\nr = %g\nthickness_in = %g\narea_ft2 = %g\nfacing = %q\nfacing_side = \"room\"\nsheet = %q\n",
					p.Surface.ID, p.Choice.MaterialID, l.Product.Form, l.Product.NominalR, l.Product.ThicknessIn, p.Surface.AreaFt2, p.Choice.Facing.OnBlanket, sheet) + with
			}
		}
		r := offered(t, j, text)
		for _, p := range r.Places {
			what := name + " " + p.Plan.Surface.ID
			if p.Plan.Choice == nil {
				require.Equal(t, inspect.Stop, inspect.Worst(p.Findings), what)
				continue
			}
			require.NotNil(t, p.Offered, what)
			require.InDelta(t, p.Plan.Choice.Heat.AssemblyR, p.Offered.Heat.AssemblyR, 1e-9, what)
			require.InDelta(t, p.Plan.Choice.Heat.DeliveredR, p.Offered.Heat.DeliveredR, 1e-9, what)
			require.Equal(t, p.Plan.Choice.Damp.Word, p.Offered.Damp.Word, what)
			for _, f := range p.Findings {
				require.True(t, f.Level < inspect.Ask || f.ID == "plan-damp" || slices.Contains([]string{"beside", "find-first", "settle-first", "board-caution"}, f.ID) || strings.HasPrefix(f.ID, "called-"), "%s: %v", what, f)
			}
		}
	}
}

// The findings of a place never blame a line that is not in the file.
func TestLinesAreInTheFile(t *testing.T) {
	text := fixture.File(t, "offers/bold.toml")
	r := offer(t, alder(t), "offers/bold.toml")
	lines := strings.Split(text, "\n")
	for _, p := range r.Places {
		for _, f := range p.Findings {
			if f.Line > 0 {
				require.Contains(t, lines[f.Line-1], "[[part]]", f.ID)
				require.Contains(t, lines[f.Line], p.Plan.Surface.ID, f.ID)
			}
		}
	}
}
