package inspect_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/inspect"
	"battwright/rules/plan"
)

// line is one line of a bid, with more keys behind.
func line(place, face, more string) string {
	return "[[part]]\nplace = \"" + place + "\"\nmaterial = \"fiberglass\"\nform = \"batt\"\nr = 13\nthickness_in = 3.5\nfacing = \"" + face + "\"\nfacing_side = \"room\"\n" + more
}

func levelOf(t testing.TB, p inspect.OfferedPlace, id string) inspect.Level {
	t.Helper()
	return said(t, p.Findings, id).Level
}

// A board that the plan counts on and the bid does not name is asked for, and
// the figures say that they count on it; a bid that names it is not asked.
func TestBoardThatNobodyOffersIsAskedFor(t *testing.T) {
	for _, one := range []struct{ id, place string }{{"wall", openWall}, {"base", basement + "\nfoam_r = \"unknown\""}} {
		j := jobOf(t, vermont, one.place)
		need := j.Plan.Places[0].Target.AddR
		require.Positive(t, need)
		bare := at(t, offered(t, j, line(one.id, "none", "")), one.id)
		require.Equal(t, inspect.Ask, levelOf(t, bare, "board"))
		require.InDelta(t, need, bare.BoardR, 1e-9)
		owner := at(t, offered(t, j, line(one.id, "none", "board_by = \"owner\"\n")), one.id)
		require.Equal(t, inspect.Note, levelOf(t, owner, "board"))
		require.InDelta(t, need, owner.BoardR, 1e-9, "still not in the bid")
		thin := at(t, offered(t, j, line(one.id, "none", "board_r = 2\n")), one.id)
		require.Equal(t, inspect.Wrong, levelOf(t, thin, "board"))
		require.Less(t, thin.Offered.Heat.AssemblyR, bare.Offered.Heat.AssemblyR)
		full := at(t, offered(t, j, line(one.id, "none", "board_by = \"bidder\"\nboard_r = 15\n")), one.id)
		require.NotContains(t, ids(full.Findings), "board")
		require.Zero(t, full.BoardR)
	}
}

// The R of the board is that of all boards there together, in a bid as in finished
// work: with board on the wall already, the same answer tells the same of both.
func TestTheRTellsOfAllBoardsTogether(t *testing.T) {
	j := jobOf(t, vermont, openWall+"\nci_r = 5")
	p := j.Plan.Places[0]
	require.InDelta(t, 5, p.Surface.CIR, 1e-9)
	require.Positive(t, p.Target.AddR)
	bid := func(r float64) inspect.OfferedPlace {
		return at(t, offered(t, j, line("wall", p.Choice.Facing.OnBlanket, fmt.Sprintf("board_r = %g\n", r))), "wall")
	}
	whole := bid(p.BoardR())
	require.NotContains(t, ids(whole.Findings), "board")
	require.InDelta(t, at(t, offered(t, j, line("wall", p.Choice.Facing.OnBlanket, "")), "wall").Offered.Heat.AssemblyR, whole.Offered.Heat.AssemblyR, 1e-9)
	thin := said(t, bid(5).Findings, "board")
	require.Equal(t, inspect.Wrong, thin.Level)
	require.Contains(t, thin.Text, "board of R-5 in all, the plan counts on R-5 that is there and the ")
	for _, asked := range []string{inspect.OfferTemplate(j), inspect.FoundTemplate(inspect.FoundList(j.Catalog()), j)} {
		require.Contains(t, asked, "R of all boards there together, old and new?")
	}
}

// A bid with its board is not said to lay fiber on the concrete, and a foil face
// toward that board is not said to be on the room side.
func TestBoardOfABidLiesOnTheConcrete(t *testing.T) {
	j := jobOf(t, vermont, basement+"\nfoam_r = 0")
	require.Contains(t, ids(at(t, offered(t, j, line("base", "none", "")), "base").Findings), "basement-bare")
	p := at(t, offered(t, j, line("base", "none", "board_r = 5\n")), "base")
	require.NotContains(t, ids(p.Findings), "basement-bare")
	foil := line("base", "foil-rated", "board_r = 15\n")
	require.Contains(t, ids(at(t, offered(t, j, foil), "base").Findings), "below-grade-foil")
	out := at(t, offered(t, j, strings.Replace(foil, `"room"`, `"out"`, 1)), "base")
	require.NotContains(t, ids(out.Findings), "below-grade-foil")
	require.Equal(t, inspect.Wrong, levelOf(t, out, "facing-side"))
}

// The foam in the bays of a cold rim joist is asked for as well.
func TestBayFoamThatNobodyOffersIsAskedFor(t *testing.T) {
	j := jobOf(t, vermont, "id = \"rim\"\nkind = \"rim-joist\"\nlength_ft = 128")
	require.Equal(t, inspect.Ask, levelOf(t, at(t, offered(t, j, line("rim", "none", "")), "rim"), "bay-foam"))
	require.NotContains(t, ids(at(t, offered(t, j, line("rim", "none", "bay_foam_by = \"owner\"\n")), "rim").Findings), "bay-foam")
}

// Where the plan itself finds damp, a bid as planned has an open question.
func TestBidForADampPlaceIsNotComplete(t *testing.T) {
	require.Equal(t, inspect.Ask, levelOf(t, at(t, offered(t, dampJob(t), "version = 1\n"), "walls"), "plan-damp"))
	for _, p := range offer(t, demoJob(t, "house-in-the-snow.toml"), "offers/full.toml").Places {
		require.NotContains(t, ids(p.Findings), "plan-damp", p.Plan.Surface.ID)
	}
}

// What stops a place of the house is said whether or not the bid comes to it;
// a bid that fills it, or a flue of unknown width, is a stop and nothing less.
func TestStoppedPlacesStayInAnOffer(t *testing.T) {
	j := jobOf(t, midwest, openWall, oldWiring, listed)
	away := offered(t, j, line("wall", "kraft", "board_by = \"owner\"\n"))
	for _, id := range []string{"wired", "flue"} {
		p := at(t, away, id)
		require.Equal(t, inspect.Stop, p.Findings[0].Level, id)
		require.Empty(t, p.Findings[0].Ask, "this bidder does nothing there")
	}
	require.True(t, away.FallsShort())
	there := offered(t, j, line("flue", "none", "")+line("wired", "kraft", ""))
	for _, id := range []string{"wired", "flue"} {
		p := at(t, there, id)
		require.Equal(t, inspect.Stop, p.Findings[0].Level, id)
		require.NotEmpty(t, p.Findings[0].Ask)
	}
	require.True(t, slices.ContainsFunc(at(t, there, "flue").Findings, func(f inspect.Finding) bool {
		return f.Level == inspect.Stop && strings.Contains(f.Text, "width not known")
	}))
}

// A caution that holds whoever does the work is a note: a dehumidifier, open
// vents, drywall over a paper face, unfaced blankets over old ones. Only what
// the bid itself does wrong is called wrong.
func TestCautionsAreNotTheBiddersFault(t *testing.T) {
	j := jobOf(t, vermont,
		openWall, basement+"\nfoam_r = \"unknown\"",
		"id = \"attic\"\nkind = \"attic\"\narea_ft2 = 1120\nexisting_r = 11\nflue_through = true\nnon_ic_lights = true\nvents_ok = false\nvermiculite = false\nknob_and_tube = false\nframing.size = \"2x8\"\nframing.spacing_in = 16")
	j.Plan.Places = slices.Clone(j.Plan.Places)
	for i := range j.Plan.Places {
		j.Plan.Places[i].Safety = nil // as if the plan said nothing: the bid's own hits alone
	}
	r := offered(t, j, line("wall", "kraft", "")+line("base", "none", "")+line("attic", "none", ""))
	met := 0
	for _, id := range []string{"paper-face-cover", "basement-dehumidifier", "flue-through", "lights-not-rated", "attic-vents", "attic-old-face", "foam-covered"} {
		for _, p := range r.Places {
			for _, f := range p.Findings {
				if f.ID == id {
					met++
					require.Equal(t, inspect.Note, f.Level, id)
					require.Empty(t, f.Ask, id)
				}
			}
		}
	}
	require.GreaterOrEqual(t, met, 6)
	faced := at(t, offered(t, j, line("attic", "kraft", "")), "attic")
	require.Equal(t, inspect.Wrong, levelOf(t, faced, "face-between"), "paper over the old blanket is the bid's own doing")
}

// A sheet over a paper face is two retarders, and inside the board that this wall
// needs the sheet is a trap as well.
func TestOfferedFaceAndSheetAreTwoRetarders(t *testing.T) {
	p := at(t, offered(t, jobOf(t, midwest, openWall), line("wall", "kraft", "sheet = \"polyethylene\"\n")), "wall")
	require.Contains(t, said(t, p.Findings, "two-retarders-inside").Text, "two retarders, paper face")
	require.Contains(t, ids(p.Findings), "two-retarders")
}

const oldAttic = "id = \"attic\"\nkind = \"attic\"\narea_ft2 = 1120\nflue_through = true\nnon_ic_lights = true\nbath_fan_outside = false\nvents_ok = false\nvermiculite = false\nknob_and_tube = false\nframing.size = \"2x8\"\nframing.spacing_in = 16"

// What must be put right before anybody begins, or answered, stands in a bid for
// the place, each with the question who settles it; in a bid that leaves the place
// out nobody is asked, but it stands all the same (practice).
func TestBidSaysWhatIsSettledFirst(t *testing.T) {
	j := jobOf(t, midwest, oldAttic, openWall)
	attic := must(t, j, "attic")
	require.NotEmpty(t, attic.Settles())
	there := offered(t, j, line("attic", "none", "")+line("wall", "kraft", ""))
	away := offered(t, j, line("wall", "kraft", ""))
	for _, text := range attic.SettleFirst(j.Catalog(), j.System) {
		isIt := func(f inspect.Finding) bool { return f.ID == "settle-first" && f.Text == plan.SettleHead+text }
		at1 := slices.IndexFunc(at(t, there, "attic").Findings, isIt)
		require.GreaterOrEqual(t, at1, 0, text)
		require.Contains(t, there.Questions, at(t, there, "attic").Findings[at1].Ask)
		at2 := slices.IndexFunc(at(t, away, "attic").Findings, isIt)
		require.GreaterOrEqual(t, at2, 0, text)
		require.Empty(t, at(t, away, "attic").Findings[at2].Ask)
	}
	require.True(t, there.FallsShort())
}

// What the plan needs for safety beside the blanket is asked of a bid, once each
// (practice): the shield of a flue, the sheet on bare earth, the look at burners
// before a crawl space is closed and its dry air, the fire mark, the fireblocks; and never where
// nothing calls for it.
func TestBidIsAskedForWhatTheCautionsCallFor(t *testing.T) {
	crawl := "id = \"crawl\"\nkind = \"crawl-space\"\n%sdampness = \"dry\"\nground_cover = %s\nframing.size = \"2x6\"\nframing.spacing_in = 16"
	for _, x := range []struct{ id, place, needs string }{
		{"attic", oldAttic, "flue-shield"},
		{"attic", strings.Replace(oldAttic, "flue_through = true", "flue_through = false", 1), ""},
		{"crawl", fmt.Sprintf(crawl, "vented = true\narea_ft2 = 900\n", "false"), "ground-sheet"},
		{"crawl", fmt.Sprintf(crawl, "vented = true\narea_ft2 = 900\n", "true"), ""},
		{"crawl", fmt.Sprintf(crawl, "vented = false\nwall_height_ft = 3\nlength_ft = 112\n", "true"), "burner-air crawl-air"},
		{"rim", "id = \"rim\"\nkind = \"rim-joist\"\nlength_ft = 128", "fire-mark"},
		{"flue", strings.Replace(listed, "gap_in = 1", "clearance_in = 2\ngap_in = 2", 1), "fireblock"},
		{"flue", strings.Replace(listed, "gap_in = 1", "clearance_in = 2\ngap_in = 1", 1), ""}, // stopped
		{"wall", openWall, ""},
	} {
		r := offered(t, jobOf(t, midwest, x.place), line(x.id, "none", ""))
		var got []string
		for _, f := range at(t, r, x.id).Findings {
			if strings.HasPrefix(f.ID, "called-") {
				require.Contains(t, r.Questions, f.Ask)
				got = append(got, strings.TrimPrefix(f.ID, "called-"))
			}
		}
		require.ElementsMatch(t, strings.Fields(x.needs), got, x.place)
		if len(got) > 0 {
			named := offered(t, jobOf(t, midwest, x.place), line(x.id, "none", "also = [\""+strings.Join(got, "\", \"")+"\"]\n"))
			for _, f := range at(t, named, x.id).Findings {
				require.False(t, strings.HasPrefix(f.ID, "called-"), "named in the bid: %s", f.ID)
			}
			require.Contains(t, inspect.OfferTemplate(jobOf(t, midwest, x.place)), got[0])
		}
	}
}

// A batt thicker than its room is one fault with one weight in every place:
// beside a chimney too, where the plan squeezes none and it presses toward the gap.
func TestTooThickIsWrongBesideAChimney(t *testing.T) {
	place := "id = \"flue\"\nkind = \"chimney\"\nchimney = \"factory-built\"\nclearance_in = 2\ngap_in = 2\nwidth_in = 30\ndepth_in = 30\nfloors = 2\nframing.size = \"2x6\""
	j := jobOf(t, midwest, place)
	room := must(t, j, "flue").Surface.Frame.RoomIn
	bid := func(r, in float64) inspect.OfferedPlace {
		return at(t, offered(t, j, fmt.Sprintf("[[part]]\nplace = \"flue\"\nmaterial = \"mineral-wool\"\nform = \"batt\"\nr = %g\nthickness_in = %g\nfacing = \"none\"\n", r, in)), "flue")
	}
	thick := said(t, bid(30, room+2).Findings, "squeezed")
	require.Equal(t, inspect.Wrong, thick.Level)
	require.Contains(t, thick.Text, "presses toward the gap")
	require.NotContains(t, ids(bid(15, room).Findings), "squeezed")
}

// What the plan warns of with the board is asked of a bid that does not say it
// heeds it (practice).
func TestBidIsAskedWhatThePlanWarnsOfWithTheBoard(t *testing.T) {
	j := alder(t)
	require.NotEmpty(t, must(t, j, "basement").BoardCautions())
	require.Equal(t, inspect.Ask, levelOf(t, at(t, offered(t, j, line("basement", "none", "")), "basement"), "board-caution"))
	heeded := offered(t, j, line("basement", "none", "also = \"board\"\n"))
	require.Equal(t, inspect.Note, levelOf(t, at(t, heeded, "basement"), "board-caution"))
	require.Contains(t, strings.Join(heeded.Questions, "\n"), "Where does the bid say who does this? Foam board burns")
}

// What a bid adds in words, and what could not be read of it, stands on its paper:
// nobody may take it for judged, or for not said.
func TestWhatABidSaysBesideIsNotLost(t *testing.T) {
	j := alder(t)
	text := "version = 1\n" + strings.Replace(line("basement", "none", "note = \"gap filled\"\n"), `facing = "none"`, `facing = "foil"`, 1)
	o, problems := inspect.ReadOffer(j, "bid.toml", text)
	require.Len(t, problems, 1)
	r := inspect.JudgeOffer(j, o)
	require.Contains(t, said(t, r.Findings, "unread").Text, problems[0].Error())
	require.Contains(t, said(t, at(t, r, "basement").Findings, "note").Text, "gap filled")
	require.True(t, r.FallsShort())
}

// A board that a bid names where one is said to be there may be the same: it is
// asked, and never counted beside it.
func TestABoardThatIsThereIsNotCountedTwice(t *testing.T) {
	j := alder(t)
	basement := must(t, j, "basement")
	require.Positive(t, basement.Surface.CIR)
	require.Zero(t, basement.Target.AddR)
	without := at(t, offered(t, j, line("basement", "none", "")), "basement")
	for _, r := range []string{"2", "10", "30"} {
		named := at(t, offered(t, j, line("basement", "none", "board_by = \"bidder\"\nboard_r = "+r+"\n")), "basement")
		require.Equal(t, without.Offered.Heat.AssemblyR, named.Offered.Heat.AssemblyR, r)
		require.Equal(t, inspect.Ask, levelOf(t, named, "board"), r)
	}
}
