package inspect_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/catalog"
	"battwright/rules/damp"
	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
	"battwright/testdata/fixture/planned"
)

// combo is a face, its side and a sheet as they may be found.
type combo struct{ face, side, sheet string }

func (c combo) keys() string {
	return fmt.Sprintf("[[place]]\nid = \"here\"\nfacing = %q\nfacing_side = %q\nsheet = %q\n", c.face, c.side, c.sheet)
}

// combos are all of them: each face and side with each sheet.
func combos() []combo {
	var out []combo
	for _, f := range []combo{{"none", "room", ""}, {"kraft", "room", ""}, {"kraft", "out", ""}, {"foil-rated", "room", ""}, {"foil-rated", "out", ""}} {
		for _, s := range []string{"none", "smart", "polyethylene", "paint"} {
			f.sheet = s
			out = append(out, f)
		}
	}
	return out
}

const (
	outerWall  = "id = \"here\"\nkind = \"exterior-wall\"\nlength_ft = 40\nheight_ft = 9\nframing.size = \"2x6\"\nframing.spacing_in = 16\nsheathing = \"osb\"\ncladding = \"vented\"\n"
	board      = outerWall + "ci_r = 5\n"
	noBoard    = outerWall + "ci_r = 0\ntarget_r = 20\n"
	coldest    = "state = \"ND\"\ncounty = \"Grand Forks\""
	middle     = "state = \"MO\"\ncounty = \"Boone\""
	hotAndDamp = "state = \"TX\"\ncounty = \"Travis\""
)

// faceAsks are the remedies of the face by a letter.
func faceAsks(t testing.TB) map[string]string {
	for _, x := range fixture.Catalog(t).Acceptance().Points {
		if x.From == catalog.FromFacing {
			return map[string]string{
				"T": x.Ask.String(), "U": x.Unfaced.String(), "O": x.Other.String(), "A": x.Absent.String(), "N": x.NoSheet.String(), "S": x.Sheet.String(),
				"t": x.Then.String(), "X": x.Extra.String(), "V": x.Serves.String(), "W": x.Wanted.String(), "P": x.Swap.String(), "D": x.Drier.String(), "L": x.Side.String(),
			}
		}
	}
	return nil
}

// lettersOf are the remedies in a text, in the order in which they stand.
func lettersOf(t testing.TB, ask string) string {
	out := ""
	for rest := ask; rest != ""; {
		next, at := "", len(rest)
		for letter, text := range faceAsks(t) {
			if i := strings.Index(rest, text); i >= 0 && i < at {
				next, at = letter, i
			}
		}
		if next == "" {
			break
		}
		out, rest = out+next, rest[at+len(faceAsks(t)[next]):]
	}
	return out
}

// What is asked fits what was found, for every face, side and sheet, whatever was
// agreed (practice): only a face on the wrong side is turned, what does the work of
// what was agreed stays, and what slows damp air never comes out first. A letter is a
// remedy of the point; "V/Ot" is the second where the damp check finds it worse.
// Five columns of faces (none, paper in, paper out, foil in, foil out), in each no
// sheet, smart, plastic, paint.
func TestRemedyFitsEveryFaceAndSheet(t *testing.T) {
	for name, row := range map[string]struct{ site, place, want string }{
		"paper, board":                {vermont, board, "A V/Ot Ot V/O | - X X - | T Tt Tt T | O Ot Ot O | O Ot Ot O"},
		"paper":                       {vermont, noBoard, "A V/Ot V/Ot V/O | - X X - | T Tt Tt T | V/O Ot Ot V/O | O Ot Ot O"},
		"smart sheet, board":          {vermont, board + "retarder = \"smart\"", "N - S S | V/UN U US US | UN U US US | UN U US US | UN U US US"},
		"smart sheet":                 {vermont, noBoard + "retarder = \"smart\"", "N - S S | V/UN U US US | UN U US US | V/UN U US US | UN U US US"},
		"paint":                       {vermont, noBoard + "retarder = \"paint\"", "- V/X V/X - | V/U Ut Ut V/U | U Ut Ut U | V/U Ut Ut V/U | U Ut Ut U"},
		"unfaced though asked, board": {vermont, board + "retarder = \"none\"", "- W P - | W XW XW W | U UW P U | P P P P | U UW P U"},
		"unfaced though asked":        {vermont, noBoard + "retarder = \"none\"", "- W W - | W XW XW W | U UW UW U | W XW XW W | U UW UW U"},
	} {
		j := jobOf(t, row.site, row.place)
		want := strings.Fields(strings.ReplaceAll(row.want, "|", ""))
		for i, f := range combos() {
			p := place(t, found(t, j, f.keys()), "here")
			x := result(t, p, "facing-side")
			fits, worse, two := strings.Cut(want[i], "/")
			if two && p.Damper() {
				fits = worse
			}
			require.Equal(t, strings.Trim(fits, "-"), lettersOf(t, x.Ask), "%s: %v: %s", name, f, x.Ask)
			require.Equal(t, fits == "-", x.State == inspect.Pass, "%s: %v", name, f)
			if f.face != "none" && f.side == "out" {
				require.Contains(t, strings.SplitAfter(x.Text, "; ")[0], "on the wrong side", "%s: %v", name, f)
			}
			if other := j.Plan.Places[0].Choice.Facing.Sheet; f.sheet != "none" && f.sheet != "paint" && f.sheet != other {
				sheet, _ := j.Catalog().Facing(f.sheet)
				require.Contains(t, x.Text, sheet.Name, "%s: %v: both faults are said", name, f)
			}
		}
	}
}

// obeyed is what lies there once every remedy of a point is done.
func obeyed(t testing.TB, p inspect.FoundPlace, f combo, letters string) combo {
	agreed := p.Plan.Choice.Facing
	sheet := agreed.Sheet
	if sheet == "" || sheet == "paint" {
		sheet = "none"
	}
	for _, l := range letters {
		switch l {
		case 'T', 'L':
			f.side = "room"
		case 'U':
			f.face = "none"
		case 'O', 'A':
			f.face, f.side = agreed.OnBlanket, "room"
		case 'N', 'S':
			f.sheet = sheet
		case 't', 'X':
			f.sheet = "none"
		case 'P':
			f.face, f.sheet = "none", "smart"
		}
	}
	return f
}

// No remedy, once obeyed, makes a place worse by the damp check than it was found, or
// than the plan itself says it is; and what was obeyed passes, or is asked to stay.
// Where the code bars what slows damp air (IRC R702.7) the code goes first.
func TestNoRemedyMakesAPlaceDamper(t *testing.T) {
	slope := "id = \"here\"\nkind = \"sloped-ceiling\"\narea_ft2 = 400\nframing.size = \"2x12\"\n"
	tried := 0
	for _, site := range []string{coldest, vermont, middle, hotAndDamp} {
		for _, place0 := range []string{board, noBoard, slope} {
			for _, retarder := range []string{"plan", "smart", "polyethylene", "paint", "none"} {
				j := jobOf(t, site, place0+"retarder = \""+retarder+"\"")
				if site == vermont && place0 != slope && (retarder == "plan" || retarder == "none") { // a year for each would take too long
					j, _ = judgedPlace(t, site, strings.TrimPrefix(place0, "id = \"here\"\n")+"retarder = \""+retarder+"\"")
				}
				for _, f := range combos() {
					p := place(t, found(t, j, f.keys()), "here")
					x := result(t, p, "facing-side")
					letters := lettersOf(t, x.Ask)
					require.Equal(t, x.State > inspect.Pass, letters != "", "%s %v: %s", retarder, f, x.Ask)
					if letters == "" || site == hotAndDamp {
						continue
					}
					then := place(t, found(t, j, obeyed(t, p, f, letters).keys()), "here")
					at := fmt.Sprintf("%s %s %s %v %s", site, place0, retarder, f, letters)
					require.LessOrEqual(t, then.Got.Damp.Risk(), max(p.Got.Damp.Risk(), p.Plan.Choice.Damp.Risk()), at)
					left := lettersOf(t, result(t, then, "facing-side").Ask)
					require.Empty(t, strings.Trim(left, "VWD"), "%s: then %s", at, left)
					tried++
				}
			}
		}
	}
	require.Greater(t, tried, 500)
}

// A face that nobody saw the side of keeps its sheet until somebody looked.
func TestSideIsLookedForBeforeASheetComesOut(t *testing.T) {
	j := jobOf(t, vermont, board)
	x := result(t, place(t, found(t, j, "[[place]]\nid = \"here\"\nfacing = \"kraft\"\nsheet = \"smart\"\n"), "here"), "facing-side")
	require.Equal(t, "Lt", lettersOf(t, x.Ask))
	require.Contains(t, x.Text, "look toward which side it is")
}

// A face that lies away from the room is no air barrier: nothing that was found so has
// a better verdict than the same blanket without a face (practice).
func TestATurnedFaceIsNeverBetterThanNone(t *testing.T) {
	for _, place := range []string{"kind = \"attic\"\narea_ft2 = 1000\nroof_pitch = 6\nvents_ok = true\nbath_fan_outside = true", "kind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\""} {
		j := planned.Job(fixture.Judged(t, fixture.OfPlaces(t, "state = \"SD\"\ncounty = \"Brookings\"\ncode = \"irc-2021\"", "id = \"here\"\n"+place)))
		p := j.Plan.Places[0]
		rank := func(face string) int {
			a := asPlanned(p)
			a["facing"], a["facing_side"], a["sheet"] = house.Text(face), house.Text("out"), house.Text("none")
			got := inspect.JudgePlace(j, p, a).Got
			require.True(t, got.Damp.Judged(), place)
			return damp.Rank(got.Damp.Word)
		}
		require.GreaterOrEqual(t, rank("kraft"), rank("none"), place)
	}
}

// Where the fiber of a bid does not burn nobody asks for the mark of one that does, and
// a face on the wrong side names the face that was agreed (IRC R302.10.1).
func TestNoMarkIsAskedOfWhatDoesNotBurn(t *testing.T) {
	j := jobOf(t, vermont, basement+"\nfoam_r = 15\npin = \"sheeps-wool\"")
	for fiber, want := range map[string]bool{"fiberglass": false, "mineral-wool": false, "cotton": true, "sheeps-wool": true} {
		r := offered(t, j, "version = 1\n[[part]]\nplace = \"base\"\nmaterial = \""+fiber+"\"\nr = 13\nthickness_in = 3.5\nfacing = \"none\"\n")
		require.Equal(t, want, slices.Contains(ids(at(t, r, "base").Findings), "called-fire-mark-fiber"), fiber)
	}
	floor := jobOf(t, vermont, "id = \"floor\"\nkind = \"crawl-space\"\nvented = true\nground_cover = true\ndampness = \"dry\"")
	a := asPlanned(must(t, floor, "floor"))
	a["facing"], a["facing_side"] = house.Text("kraft"), house.Text("out")
	require.Contains(t, result(t, inspect.JudgePlace(floor, must(t, floor, "floor"), a), "facing-side").Text, "on the wrong side, agreed no facing")
}
