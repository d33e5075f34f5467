package inspect_test

import (
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// painted is a house with one place that counts on retarder paint.
func painted(t testing.TB, stage, kind string) (inspect.Job, plan.Place) {
	t.Helper()
	j := planned.Job(fixture.Judged(t, fixture.Read(t, "version = 1\nold = false\nstage = \""+stage+"\"\n[site]\nstate = \"SD\"\ncounty = \"Brookings\"\ncode = \"irc-2021\"\n[[place]]\nid = \"here\"\nretarder = \"paint\"\ntarget_r = 20\nexposed = false\n"+kind)))
	p := j.Plan.Places[0]
	require.Equal(t, "paint", p.Choice.Facing.Sheet)
	return j, p
}

// Paint goes on the drywall, so nobody has seen it while the framing is open: until
// somebody says that it is on, it is still to come and the work is not done. Usual wall
// paint in its place is judged as what it is: no retarder (IRC R702.7: usual paint is
// class III, what the plan counts on class II).
func TestPaintStaysOpenUntilItIsOn(t *testing.T) {
	for _, kind := range []string{"kind = \"exterior-wall\"\nlength_ft = 12\nheight_ft = 9\nframing.size = \"2x6\"\nci_r = 0\ncladding = \"vented\"\npin = \"mineral-wool\"\n", "kind = \"sloped-ceiling\"\narea_ft2 = 300\nframing.size = \"2x12\"\nroof_pitch = 8\nnon_ic_lights = false\nbath_fan_outside = true\nflue_through = false\n"} {
		for _, stage := range []string{"framed", "closed"} {
			j, p := painted(t, stage, kind)
			judge := func(see, sheet string) (inspect.FoundResult, inspect.FoundPlace) {
				h := good(t, j)
				a := h.Places[0].Answers
				a["sheet"] = house.Text(sheet)
				delete(a, "see.retarder-paint")
				if see != "" {
					a["see.retarder-paint"] = house.Text(see)
				}
				r := inspect.JudgeFound(j, h, nil)
				return r, r.Places[0]
			}
			for _, sheet := range []string{"none", "paint"} {
				r, open := judge("", sheet)
				on := sheet == "paint" && stage == "closed" // before the drywall no paint is on, whatever is typed
				require.Equal(t, on, r.ReadyToClose(), sheet+stage)
				require.Equal(t, on, !open.PaintToCome(), sheet+stage)
				require.Zero(t, open.Open(), "it cannot be looked at yet")
				if !on {
					require.Contains(t, result(t, open, "retarder-paint").Text, "still to come, on the drywall")
				}
			}
			r, _ := judge("good", "none")
			require.True(t, r.ReadyToClose())
			_, bad := judge("bad", "none")
			require.Equal(t, inspect.Fix, state(t, bad, "retarder-paint"))
			require.Empty(t, bad.Got.Facing.Sheet, "no retarder is counted on")
			require.Greater(t, bad.Got.Damp.Sealed.Moisture, p.Choice.Damp.Sealed.Moisture)
			lines := strings.Join(inspect.AgreedLines(p, j), "\n")
			require.Contains(t, lines, "then, on the drywall: vapor retarder paint")
			require.Contains(t, inspect.FoundTemplate(inspect.FoundList(j.Catalog()), j), "see.retarder-paint")
		}
	}
}

// The calendar has a day for the paint, after the drywall, where the plan has any.
func TestPaintHasADayAfterTheDrywall(t *testing.T) {
	day := func(j inspect.Job) (out []time.Time) {
		start := time.Date(2027, 5, 3, 0, 0, 0, 0, time.UTC)
		for _, d := range inspect.Calendar(inspect.Leads(j), start, "self") {
			if d.Lead.ID == "retarder-paint" {
				require.True(t, d.Day.After(start))
				out = append(out, d.Day)
			}
		}
		return out
	}
	j, _ := painted(t, "framed", "kind = \"exterior-wall\"\nlength_ft = 12\nframing.size = \"2x6\"\nci_r = 0\n")
	require.Len(t, day(j), 1)
	require.Empty(t, day(jobOf(t, vermont, openWall)))
}

// Beside a chimney no sheet and no paper lies, and retarder paint on the room face of
// the drywall is the building department's to allow: a question that its yes settles,
// in finished work and in a bid (practice).
func TestPaintBesideAChimneyIsAsked(t *testing.T) {
	for _, where := range []string{"masonry-in-wall", "masonry-inside"} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"c\"\nkind = \"chimney\"\nchimney = \""+where+"\"\ngap_in = 2\nframing.size = \"2x6\"\n"))
		wall := where == "masonry-in-wall"
		judge := func(sheet, see string) inspect.FoundPlace {
			h := good(t, j)
			a := h.Places[0].Answers
			a["sheet"] = house.Text(sheet)
			delete(a, "see.flue-retarder")
			if see != "" {
				a["see.flue-retarder"] = house.Text(see)
			}
			return inspect.JudgeFound(j, h, nil).Places[0]
		}
		for _, sheet := range []string{"polyethylene", "smart"} {
			require.Equal(t, inspect.Halt, state(t, judge(sheet, "good"), "facing-side"), "a sheet stays away, whatever anybody says")
		}
		open := judge("paint", "")
		require.Equal(t, inspect.NotSeen, state(t, open, "facing-side"))
		require.Equal(t, inspect.NotSeen, state(t, open, "flue-retarder"))
		require.Contains(t, result(t, open, "facing-side").Text, "as the building department allows")
		yes := judge("paint", "good")
		require.Equal(t, inspect.Pass, state(t, yes, "facing-side"))
		require.Equal(t, inspect.Pass, yes.Worst())
		require.Zero(t, yes.Open())
		require.Equal(t, wall, judge("none", "").Open() == 1, "in a cold outside wall it is asked in any case")

		bid := func(keys string) (level inspect.Level, called bool) {
			list := at(t, offered(t, j, "version = 1\n[[part]]\nplace = \"c\"\nmaterial = \"mineral-wool\"\nr = 15\nthickness_in = 3.5\nfacing = \"none\"\n"+keys), "c").Findings
			for _, f := range list {
				if f.ID == "loose-sheet" {
					level = f.Level
				}
				called = called || f.ID == "called-flue-retarder"
			}
			return level, called
		}
		level, called := bid("sheet = \"paint\"\n")
		require.Equal(t, inspect.Ask, level)
		require.Equal(t, wall, called)
		level, called = bid("sheet = \"paint\"\nalso = [\"flue-retarder\"]\n")
		require.Equal(t, inspect.Note, level)
		require.False(t, called)
		level, _ = bid("sheet = \"smart\"\nalso = [\"flue-retarder\"]\n")
		require.Equal(t, inspect.Stop, level)
	}
}

// Where the plan says to ask the building department about the room side before it is
// closed, nothing is ready to close before somebody has (IRC R702.7).
func TestWhatIsAskedOfTheRoomSideStaysOpen(t *testing.T) {
	for place, want := range map[string]bool{
		"kind = \"exterior-wall\"\nlength_ft = 12\nframing.size = \"2x4\"\ncladding = \"direct\"\nci_r = 0\ntarget_r = 13\nretarder = \"none\"\n":                                        true,
		"kind = \"exterior-wall\"\nlength_ft = 12\nframing.size = \"2x4\"\ncladding = \"direct\"\nci_r = 0\ntarget_r = 13\n":                                                             false,
		"kind = \"sloped-ceiling\"\narea_ft2 = 300\nframing.size = \"2x12\"\ntarget_r = 30\nnon_ic_lights = false\nbath_fan_outside = true\nflue_through = false\nretarder = \"none\"\n": true,
	} {
		j := planned.Job(fixture.Read(t, "version = 1\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nid = \"here\"\n"+place))
		h := good(t, j)
		_, asked := h.Places[0].Answers["see.retarder-word"]
		require.Equal(t, want, asked, place)
		require.True(t, inspect.JudgeFound(j, h, nil).ReadyToClose(), place)
		delete(h.Places[0].Answers, "see.retarder-word")
		require.Equal(t, !want, inspect.JudgeFound(j, h, nil).ReadyToClose(), place)
	}
}
