package candidate

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"

	"battwright/rules/catalog"
	"battwright/rules/units"
)

// Target is the R-value a place must reach, and by which alternative.
type Target struct {
	CavityR     float64 // R on the bag in the cavity
	ContinuousR float64 // board outside the studs, or foam behind below grade
	AddR        float64 // board still to be added: never silently met
	FullHeightR float64 // lower R the code accepts in an attic where it runs full height over the walls, 0 when none
	FilledR     float64 // lower R the code accepts where the blanket fills the bay, FilledIn deep at least; 0 when none
	FilledIn    float64
	SlopedR     float64 // lower R the code accepts on this slope, a small part of the ceiling; 0 when none
	EnoughR     float64 // R beyond which nothing more is asked of the blanket
	Required    bool
	Idle        bool // nothing is asked here and nobody wants any: no blanket is planned
	Text        string
	Options     string // all alternatives as the code writes them
	By          string // drawings, code, retrofit, none
	Notes       []string
	From        []catalog.Ref
}

// asksLike reports whether two targets differ in words and sources alone.
func (t Target) asksLike(other Target) bool {
	for _, x := range []*Target{&t, &other} {
		x.Text, x.Options, x.Notes, x.From = "", "", nil, nil
	}
	return reflect.DeepEqual(t, other)
}

// targetOf is what a place must reach and the board that is still to be bought
// for it. Foam behind a wall below grade that nobody said is there is bought in
// full. maxCavityR is the most R on the bag that any product of the catalog
// puts into this frame.
func targetOf(s Surface, site Site, c *catalog.Catalog, maxCavityR float64) Target {
	foam := foamToBuy(s, site, c)
	t := chosenTarget(s, site, c, maxCavityR, s.CIR+foam)
	t.AddR = max(foam, t.ContinuousR-s.CIR)
	if t.AddR > 0 && s.Kind.Boundary == "soil" && !s.HasDrawing {
		// Who must buy foam anyway buys what keeps the concrete warm enough.
		t.AddR = max(t.AddR, climateFoam(site, c)-s.CIR)
	}
	if t.AddR > 0 {
		t.AddR = max(t.AddR, c.Figure("least-board").Value)
	}
	slopedException(&t, s, c, maxCavityR)
	filledException(&t, s, c)
	t.Idle = !t.Required && t.By != "none" && s.Pin == ""
	return t
}

// foamToBuy is the board that goes on concrete before a blanket, where nobody
// said that there is any; the middle zones' while no zone is known.
func foamToBuy(s Surface, site Site, c *catalog.Catalog) float64 {
	switch {
	case !s.FoamUnsaid:
		return 0
	case s.DrawingBoardR > 0:
		return s.DrawingBoardR
	}
	return climateFoam(site, c)
}

// climateFoam is the foam that keeps concrete warm enough behind a blanket.
func climateFoam(site Site, c *catalog.Catalog) float64 {
	const middleZone = 5
	if site.Zone == "" {
		return c.Foam.Behind.LeastR(middleZone)
	}
	return c.Foam.Behind.LeastR(site.ZoneNumber)
}

// chosenTarget takes the alternative of the code that this frame can hold with
// the least board beside the board counted on; drawings win over any of it.
func chosenTarget(s Surface, site Site, c *catalog.Catalog, maxCavityR, boardR float64) Target {
	if s.HasDrawing {
		t := Target{CavityR: s.DrawingR, ContinuousR: s.DrawingBoardR, By: "drawings"}
		t.Required = t.CavityR > 0 || t.ContinuousR > 0
		who := "your drawings ask"
		t.Text = t.figures(s) + ", as your drawings or local rule say"
		if s.OwnTarget {
			who, t.Text = "you typed", t.figures(s)+", as you typed"
			t.codeBeside(s, site, c, maxCavityR, boardR)
		}
		if s.OldIn > 0 {
			t.Notes = append(t.Notes, fmt.Sprintf("the %s that lies there is not counted against what %s: where that means old and new together, less is enough", s.System.R(s.ExistingR), who))
		}
		return t
	}
	element := s.Kind.CodeElement
	if s.Kind.BesideChimney {
		if s.Clearance.Chimney != "masonry-in-wall" && s.Clearance.Chimney != "masonry-outside" {
			return Target{By: "none", Text: "no R-value asked here; leaving it empty may be the right answer"}
		}
		element = "wood_frame_wall"
	}
	if site.CodeZone == "" {
		return Target{By: "none", Text: "climate zone not known: say the state and county, or the zone"}
	}
	alts, ref, notes, err := c.Codes.Alternatives(site.Edition, site.CodeZone, element)
	if err != nil {
		return Target{By: "none", Text: "no figure for this place in the tables: ask the building department"}
	}
	shown := make([]string, len(notes))
	for i, n := range notes {
		shown[i] = n.In(s.System)
	}
	if s.Kind.BesideChimney {
		if alts = blanketAlone(alts); len(alts) == 0 {
			return Target{By: "none", From: []catalog.Ref{ref}, Text: "every way of the code needs board outside the studs, and foam board does not belong beside a chimney: ask the building department"}
		}
		shown = append(shown, "board outside the studs, another way of the code for walls, stays away from a chimney unless it is noncombustible by test")
	}
	t := chooseAlternative(alts, boardR, maxCavityR)
	t.By, t.From, t.Notes = "code", []catalog.Ref{ref}, shown
	t.Options = alternativesText(alts, s)
	if s.Kind.Airway == catalog.AirwayEaves {
		if serves, ref, ok := c.Codes.FullHeight(site.Edition, t.CavityR); ok {
			t.FullHeightR = serves
			t.From = append(t.From, ref)
		}
	}
	if s.ExistingR > 0 && s.Kind.CodeElement == "ceiling" {
		retrofitTarget(&t, s, site, c)
	}
	t.Required = t.CavityR > 0 || t.ContinuousR > 0
	t.Text = t.describe(s, site)
	return t
}

// codeBeside adds what the model code asks where a typed figure asks for something
// else; nothing where it asks the same or nothing.
func (t *Target) codeBeside(s Surface, site Site, c *catalog.Catalog, maxCavityR, boardR float64) {
	s.HasDrawing = false
	code := chosenTarget(s, site, c, maxCavityR, boardR)
	if code.Required && code.figures(s) != t.figures(s) {
		t.Text, t.From = t.Text+"; the model code asks "+code.figures(s), code.From
	}
}

// chooseAlternative takes the alternative with the least board to add among
// those whose cavity part fits; when none fits, the one that falls least
// short in the cavity.
func chooseAlternative(alts []catalog.Alternative, haveBoardR, maxCavityR float64) Target {
	best, bestShort, bestAdd := -1, math.Inf(1), math.Inf(1)
	for i, alt := range alts {
		short := max(0, alt.CavityR-maxCavityR)
		add := max(0, alt.ContinuousR-haveBoardR)
		// Board can always be added, cavity depth cannot: a fit comes first.
		better := short < bestShort || short == bestShort && add < bestAdd ||
			short == bestShort && add == bestAdd && alt.CavityR < alts[best].CavityR
		if better {
			best, bestShort, bestAdd = i, short, add
		}
	}
	if best < 0 {
		return Target{}
	}
	return Target{CavityR: alts[best].CavityR, ContinuousR: alts[best].ContinuousR}
}

// blanketAlone keeps the alternatives that need no board: near a chimney it
// would burn or sit in the air space.
func blanketAlone(alts []catalog.Alternative) []catalog.Alternative {
	return slices.DeleteFunc(slices.Clone(alts), func(a catalog.Alternative) bool { return a.ContinuousR > 0 })
}

func alternativesText(alts []catalog.Alternative, s Surface) string {
	r := s.System.PlainR
	parts := make([]string, len(alts))
	for i, a := range alts {
		switch {
		case a.CavityR == 0 && a.ContinuousR == 0:
			parts[i] = "none"
		case a.ContinuousR == 0:
			parts[i] = r(a.CavityR)
		case a.CavityR == 0:
			parts[i] = r(a.ContinuousR) + " board alone"
		default:
			parts[i] = r(a.CavityR) + " + " + r(a.ContinuousR) + " board"
		}
	}
	return strings.Join(parts, ", or ")
}

func retrofitTarget(t *Target, s Surface, site Site, c *catalog.Catalog) {
	t.By = "retrofit"
	whole := t.CavityR
	t.CavityR = max(0, whole-s.ExistingR)
	t.Notes = append(t.Notes, fmt.Sprintf("%s in all; %s lies there already", s.System.R(whole), s.System.R(s.ExistingR)))
	advised := c.Figure("advice-old-blanket").Range()
	const overSome = units.Prose("over {3 to 4 inches} of old blanket the government's advice for this zone is to add")
	if level, ref, ok := c.Codes.RetrofitAttic(site.CodeZone, true); ok && s.OldIn > advised.Low && s.OldIn < advised.High {
		t.Notes = append(t.Notes, overSome.In(s.System)+" "+s.System.R(level))
		t.From = append(t.From, ref)
	}
}

func (t Target) describe(s Surface, site Site) string {
	if !t.Required && t.By == "retrofit" {
		return fmt.Sprintf("%s lies there already: as much as the model code asks", s.System.R(s.ExistingR))
	}
	if !t.Required {
		return "no R-value required here by the model code"
	}
	return t.figures(s) + fmt.Sprintf(" (model code %s, zone %s; your building office decides)", site.EditionText(), site.Zone)
}

// figures are the R-values of the target: of the blanket and of a board.
func (t Target) figures(s Surface) string {
	board := "board outside"
	if s.Kind.Boundary == "soil" {
		board = "foam board behind"
	}
	switch {
	case t.ContinuousR == 0 && t.By == "retrofit":
		return fmt.Sprintf("%s on top of the %s there", s.System.R(t.CavityR), s.System.R(s.ExistingR))
	case t.ContinuousR == 0:
		return s.System.R(t.CavityR)
	case t.CavityR == 0:
		return fmt.Sprintf("%s of %s alone", s.System.R(t.ContinuousR), board)
	}
	return fmt.Sprintf("%s + %s %s", s.System.R(t.CavityR), s.System.PlainR(t.ContinuousR), board)
}
