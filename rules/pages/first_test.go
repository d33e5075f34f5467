package pages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/candidate"
	"battwright/rules/order"
	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/rules/plan"
	"battwright/rules/print"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// heads are the pages that people buy and build by, each form of them.
func heads(t *testing.T, text string) map[string]string {
	t.Helper()
	a := fixture.Read(t, text)
	p := plan.Make(a)
	opts := planned.Options(t)
	out := orderOutputs(t, order.Make(p, a), p, opts)
	out["plan"], out["plan-markdown"] = print.Text(pages.PlanPage(p, opts), opts.Width), print.Markdown(pages.PlanPage(p, opts))
	b, err := pages.JSON(p, opts, false)
	require.NoError(t, err)
	out["plan-json"] = string(b)
	for _, person := range []string{"", "installer", "store", "self"} {
		h := pages.Handover{Job: planned.Job(a), Person: person}
		out["handover-"+person], err = planned.Handed(h, opts)
		require.NoError(t, err)
		out["handover-markdown-"+person], err = planned.HandedMarkdown(h, opts)
		require.NoError(t, err)
		b, err = h.JSON(opts)
		require.NoError(t, err)
		out["handover-json-"+person] = string(b)
	}
	out["cover"] = checkText(pages.CoverBlocks(p, opts))
	out["sheet"] = checkText(pages.SheetBlocks(planned.Job(a), p.Places[0], opts))
	for name, s := range out {
		out[name] = strings.Join(strings.Fields(s), " ")
	}
	return out
}

func checkText(blocks []page.Block) string {
	var b strings.Builder
	for _, x := range blocks {
		for _, r := range x.Rows {
			b.WriteString(r.Text + "\n")
		}
	}
	return b.String()
}

// What the R-values to reach rest on is said where somebody buys and where
// somebody begins, once, and never where nothing is missing.
func TestWhatMustBeSettledFirstHeadsEveryPage(t *testing.T) {
	const wall = "[[place]]\nid = \"wall\"\nkind = \"exterior-wall\"\nlabel = \"Street wall\"\n"
	const vermont = "[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n"
	const drawn, zone, against = "THE R-VALUES OF YOUR DRAWINGS ARE NOT IN THIS PLAN YET (Street wall)", "CLIMATE ZONE NOT KNOWN", "TWO ANSWERS DISAGREE"
	for _, c := range []struct{ house, want string }{
		{"drawings = true\n" + vermont + wall, drawn},
		{"drawings = true\n[drawing_r]\nwall_board = 5\n" + vermont + wall, drawn},
		{"drawings = true\n[drawing_r]\nwall = 20\nwall_board = 5\n" + vermont + wall, ""},
		{"drawings = false\n[drawing_r]\nwall = 20\n" + vermont + wall, against},
		{"drawings = false\n" + wall, zone},
		{"drawings = false\n" + vermont + wall, ""},
	} {
		for form, text := range heads(t, "version = 1\n"+c.house) {
			for _, line := range []string{drawn, zone, against} {
				want := 0
				if line == c.want {
					want = 1
				}
				require.Equal(t, want, strings.Count(text, line), "%s: %s: %s", c.house, form, line)
			}
		}
	}
}

// A board that was typed alone lowers nothing: the model code's figures stand
// until the blanket's are typed too. Figures: IECC 2021, zone 6, R-20 + 5 or 13 +
// 10 for a wall, R-15 + 0 or 19 in a basement (data/codes.toml, read).
func TestABoardAloneLowersNothing(t *testing.T) {
	const head = "version = 1\ndrawings = true\n[site]\nzone = \"6A\"\ncode = \"irc-2021\"\n"
	for _, place := range []string{"kind = \"exterior-wall\"\nframing.size = \"2x4\"\n", "kind = \"basement-wall\"\n"} {
		of := func(figures string) candidate.Target {
			return plan.Make(fixture.Read(t, head+"[drawing_r]\n"+figures+"[[place]]\n"+place)).Places[0].Target
		}
		require.Equal(t, of(""), of("wall_board = 2\nbasement_board = 2\n"), place)
		require.Equal(t, "code", of("wall_board = 2\nbasement_board = 2\nwall = \"unknown\"\n").By, place)
		named := of("wall_board = 2\nbasement_board = 2\nwall = 0\nbasement = 0\n")
		require.Equal(t, "drawings", named.By, place)
		require.Equal(t, 2.0, named.ContinuousR, place)
	}
}

// The caution about a flue is not lost to one answer against another.
func TestAnInsideChimneyKeepsItsCaution(t *testing.T) {
	const house = "version = 1\nold = false\ndrawings = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n[shape]\nchimney = \"masonry\"\n[[place]]\nid = \"attic\"\nkind = \"attic\"\nflue_through = "
	const inside = "\n[[place]]\nkind = \"chimney\"\nchimney = \"masonry-inside\"\n"
	for _, said := range []string{"false", "\"unknown\"", "true"} {
		out := heads(t, house+said+inside)
		require.Contains(t, out["plan"], "sheet-metal shield", said)
		require.Contains(t, out["text"], "sheet-metal shield around the flue", said)
		require.Contains(t, out["handover-installer"], "Flues and chimneys: their own air space stays empty", said)
		require.Equal(t, said == "false", strings.Contains(out["plan"], "TWO ANSWERS DISAGREE"), said)
		require.Equal(t, said != "true", strings.Contains(out["plan"], "Does a chimney, flue or metal vent go up through it?"), "listed as not known: %s", said)
		require.Equal(t, said != "true", strings.Contains(out["text"], "only if one goes through"), "not told as a fact: %s", said)
	}
	require.NotContains(t, heads(t, house+"false\n")["plan"], "sheet-metal shield")
}

// On a wall that is finished no board goes up before siding or studs that are
// there already.
func TestABoardForAFinishedWall(t *testing.T) {
	const rest = "\ndrawings = false\nold = false\n[site]\nzone = \"6A\"\n[[place]]\nkind = \"exterior-wall\"\n[[place]]\nkind = \"basement-wall\"\n"
	for stage, done := range map[string]bool{"not-framed": false, "framed": false, "wired": false, "insulated": true, "closed": true} {
		for form, text := range heads(t, "version = 1\nstage = \""+stage+"\""+rest) {
			for _, early := range []string{"go on before the siding", "before the siding goes on", "before the studs go up", "before the studs stand"} {
				if done {
					require.NotContains(t, text, early, "%s: %s", stage, form)
				}
			}
			if form == "plan" || form == "text" || form == "handover-" || form == "cover" {
				require.Equal(t, done, strings.Contains(text, "siding has to come off"), "%s: %s", stage, form)
				require.Equal(t, done, strings.Contains(text, "inside finish has to come off"), "%s: %s", stage, form)
			}
		}
	}
}
