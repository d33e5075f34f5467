package catalog

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"battwright/rules/units"
)

// ErrWall marks a wall that cannot be: a depth or R below zero, NaN, huge.
var ErrWall = errors.New("wall not possible")

// BoardByStud is the least R of unbroken board outside 2x4 and 2x6 studs.
// The zero value asks for none.
type BoardByStud struct{ Over2x4R, Over2x6R float64 }

// The table rows stand for these cavity R-values; board must grow with the
// cavity beyond them or the sheathing gets colder than the row meant.
const (
	rowCavity2x4R   = 13
	rowCavity2x6R   = 20
	deepest2x4In    = 4
	deepestCavityIn = 48
)

// LeastR is the board R for a stud depth in inches (0 to 48) and the R of the
// insulation in the cavity (0 to 200): the row of the table, scaled up in
// proportion where the cavity holds more than the row stands for.
func (b BoardByStud) LeastR(studDepthIn, cavityR float64) (float64, error) {
	if !(studDepthIn > 0 && studDepthIn <= deepestCavityIn) || !(cavityR >= 0 && cavityR <= maxTableR) {
		return 0, fmt.Errorf("%w: studs %v in deep, cavity R %v", ErrWall, studDepthIn, cavityR)
	}
	rowR, stands := b.Over2x6R, float64(rowCavity2x6R)
	if studDepthIn <= deepest2x4In {
		rowR, stands = b.Over2x4R, rowCavity2x4R
	}
	return rowR * math.Max(1, cavityR/stands), nil
}

// RetarderRule says which vapor retarders the code wants or allows on the room
// side of framed walls. Classes by dry cup: I up to 0.1 perm, II up to 1.0, III
// up to 10.
type RetarderRule struct {
	Edition, Zone     string
	Required          bool // class I or II, or class III by its condition
	ClassIAllowed     bool
	ClassIIAllowed    bool
	OpenInside        bool // our own caution: nothing tight on the room side, whatever the code leaves open
	ClassIIIAllowed   bool // with no condition
	ClassIIIAllowedIf bool // by vented cladding or board outside
	VentedOver        []string
	ClassIIIBoard     BoardByStud
	ClassIIBoard      BoardByStud // least board where class II goes with foam outside
	ClassIIIRef       Ref         // the conditions are often known less well than the rule
	Notes             []units.Prose
	Ref
}

// WallOutside is what decides whether paint alone may be the retarder.
type WallOutside struct {
	Sheathing      string // osb, plywood, gypsum, fiberboard
	VentedCladding bool
	BoardR         float64 // unbroken board outside the studs
	StudDepthIn    float64
	CavityR        float64
}

// ClassIIIPasses reports whether a class III retarder (paint) meets the code
// on this wall.
func (r RetarderRule) ClassIIIPasses(w WallOutside) (bool, error) {
	if !(w.BoardR >= 0 && w.BoardR <= maxTableR) {
		return false, fmt.Errorf("%w: board R %v", ErrWall, w.BoardR)
	}
	least, err := r.ClassIIIBoard.LeastR(w.StudDepthIn, w.CavityR)
	switch {
	case err != nil || r.ClassIIIAllowed:
		return err == nil, err
	case !r.ClassIIIAllowedIf:
		return false, nil
	case w.VentedCladding && slices.Contains(r.VentedOver, w.Sheathing):
		return true, nil
	}
	return least > 0 && w.BoardR >= least, nil
}

// Retarder gives the rule of an edition and zone.
func (c *CodeBook) Retarder(edition, zone string) (RetarderRule, error) {
	key, err := c.key(edition, zone, "")
	if err != nil {
		return RetarderRule{}, err
	}
	r, ok := c.retarders[key]
	if !ok {
		return RetarderRule{}, fmt.Errorf("%w: vapor retarders in zone %s of %s", ErrNoCell, key.zone, edition)
	}
	r.Notes, r.VentedOver = slices.Clone(r.Notes), slices.Clone(r.VentedOver)
	return r, nil
}

// RetrofitLevel is advice for existing houses: a recommendation, not a code.
type RetrofitLevel struct {
	Zone             string
	AtticR           float64
	AtticOverSomeR   float64       // over 3 to 4 in of old blanket
	FloorR           float64       // over unheated space
	BelowGrade       []Alternative // basement and crawl walls: board or blanket; nil: none advised
	BoardEmptyWallR  [2]float64    // low, high, with the siding off and the cavity filled; 0: none advised
	BoardFilledWallR float64       // over a wall that is insulated already
	Ref
}

// Retrofit gives the recommended levels of a zone. Zone 0 has none.
func (c *CodeBook) Retrofit(zone string) (RetrofitLevel, error) {
	z, err := CodeZone(zone)
	if err != nil {
		return RetrofitLevel{}, err
	}
	l, ok := c.retrofits[z]
	if !ok {
		return RetrofitLevel{}, fmt.Errorf("%w: advice for existing houses in zone %s", ErrNoCell, z)
	}
	l.BelowGrade = slices.Clone(l.BelowGrade)
	return l, nil
}

// RetrofitAttic gives the recommended attic R of a zone; with overSome, what to
// add over 3 to 4 in of old blanket.
func (c *CodeBook) RetrofitAttic(zone string, overSome bool) (r float64, ref Ref, ok bool) {
	l, err := c.Retrofit(zone)
	if err != nil {
		return 0, Ref{}, false
	}
	if overSome {
		return l.AtticOverSomeR, l.Ref, true
	}
	return l.AtticR, l.Ref, true
}

func (b *bookBuilder) addRetarders(records []retarderRecord) {
	for _, r := range records {
		what := "retarder " + strings.Join(r.Editions, " ") + " zones " + r.Zones
		b.ref(what, r.Ref)
		if !slices.Contains([]string{"yes", "if", "no"}, r.ClassIII) {
			b.bad("%s: class_iii = %q; want yes, if or no", what, r.ClassIII)
		}
		for _, k := range b.cells(what, r.Editions, r.Zones, "") {
			rule := r.rule(k)
			if rule.ClassIIIAllowedIf != (rule.ClassIIIBoard != BoardByStud{}) {
				b.bad("%s: class III by condition and its board go together", what)
			}
			for _, v := range []float64{rule.ClassIIIBoard.Over2x4R, rule.ClassIIIBoard.Over2x6R, rule.ClassIIBoard.Over2x4R, rule.ClassIIBoard.Over2x6R} {
				b.figure(what+" board R", v, 0, maxTableR)
			}
			put(b, what, b.book.retarders, k, rule)
		}
	}
}

func (r retarderRecord) rule(k cellKey) RetarderRule {
	out := RetarderRule{
		Edition: k.edition, Zone: k.zone, Required: r.Required,
		ClassIAllowed: r.ClassI, ClassIIAllowed: r.ClassII, OpenInside: r.OpenInside,
		ClassIIIAllowed: r.ClassIII == "yes", ClassIIIAllowedIf: r.ClassIII == "if",
		VentedOver: r.VentedOver, Notes: r.Notes, Ref: r.Ref, ClassIIIRef: r.Ref,
	}
	if r.ClassIIIKnown != "" {
		out.ClassIIIRef.Known = r.ClassIIIKnown
	}
	for _, z := range r.ByZone {
		if z.Zone == k.zone {
			out.ClassIIIBoard = BoardByStud{z.ClassIIIBoardR[0], z.ClassIIIBoardR[1]}
			out.ClassIIBoard = BoardByStud{z.ClassIIBoardR[0], z.ClassIIBoardR[1]}
		}
	}
	return out
}

func (b *bookBuilder) addRetrofits(records []retrofitRecord) {
	for _, r := range records {
		what := "retrofit zones " + r.Zones
		b.ref(what, r.Ref)
		b.figure(what+" attic_r", r.AtticR, 1, maxTableR)
		b.figure(what+" attic_over_some_r", r.AtticOverSomeR, 1, r.AtticR)
		b.figure(what+" floor_r", r.FloorR, 1, maxTableR)
		level := RetrofitLevel{
			AtticR: r.AtticR, AtticOverSomeR: r.AtticOverSomeR, FloorR: r.FloorR,
			BoardEmptyWallR: r.BoardEmptyWallR, BoardFilledWallR: r.BoardFilledWallR, Ref: r.Ref,
		}
		if r.BelowGrade != "" {
			var err error
			if level.BelowGrade, err = ParseOptions(r.BelowGrade); err != nil {
				b.errs = append(b.errs, fmt.Errorf("%w: %s: %w", ErrData, what, err))
			}
		}
		for _, z := range strings.Fields(r.Zones) {
			level.Zone = z
			put(b, what, b.book.retrofits, z, level)
		}
	}
}

// The rest is codes.toml as written.

type codeFile struct {
	Editions   []Edition          `toml:"edition"`
	Minimums   []minimumRecord    `toml:"minimum"`
	Notes      []noteRecord       `toml:"note"`
	FullHeight []fullHeightRecord `toml:"full_height"`
	Sloped     SlopedRule         `toml:"sloped,required"`
	Retrofits  []retrofitRecord   `toml:"retrofit"`
	Retarders  []retarderRecord   `toml:"retarder"`
	Zoning     zoningRecord       `toml:"zoning"`
}

type minimumRecord struct {
	Edition string `toml:"edition,required"`
	Element string `toml:"element,required"`
	R       []struct {
		Zones   string `toml:"zones,required"`
		Options string `toml:"options,required"`
		Ref            // only where it differs from the record's
	} `toml:"r"`
	Ref
}

type noteRecord struct {
	FilledR   float64     `toml:"filled_r"` // R that serves where the blanket fills its bay, 0 when none
	Text      units.Prose `toml:"text,required"`
	Editions  []string    `toml:"editions"` // empty: all; so with elements and zones
	Elements  []string    `toml:"elements"`
	Zones     string      `toml:"zones"`
	AboveR    *float64    `toml:"above_r"` // only where more than this is asked
	WarmHumid bool        `toml:"warm_humid"`
	Ref
}

func (n noteRecord) applies(k cellKey, alts []Alternative) bool {
	if len(n.Editions) > 0 && !slices.Contains(n.Editions, k.edition) ||
		len(n.Elements) > 0 && !slices.Contains(n.Elements, k.element) ||
		n.Zones != "" && !slices.Contains(strings.Fields(n.Zones), k.zone) {
		return false
	}
	return n.AboveR == nil || slices.ContainsFunc(alts, func(a Alternative) bool {
		return a.CavityR > *n.AboveR || a.CavityR == 0 && a.ContinuousR > *n.AboveR
	})
}

// SlopedRule is the R that serves on a small part of the ceiling where sloped
// rafters cannot hold what the table asks: on Share of the whole insulated
// ceiling, and never on more than MostFt2.
type SlopedRule struct {
	R       float64 `toml:"r,required"`
	Share   float64 `toml:"share,required"`
	MostFt2 float64 `toml:"most_ft2,required"`
	Ref
}

type fullHeightRecord struct {
	Editions []string `toml:"editions"`
	Steps    []struct {
		ForR    float64 `toml:"for_r,required"`
		ServesR float64 `toml:"serves_r,required"`
	} `toml:"steps"`
	Ref
}

type retrofitRecord struct {
	Zones            string     `toml:"zones,required"`
	AtticR           float64    `toml:"attic_r,required"`
	AtticOverSomeR   float64    `toml:"attic_over_some_r,required"`
	FloorR           float64    `toml:"floor_r,required"`
	BelowGrade       string     `toml:"below_grade"`
	BoardEmptyWallR  [2]float64 `toml:"board_empty_wall_r"`
	BoardFilledWallR float64    `toml:"board_filled_wall_r"`
	Ref
}

type retarderRecord struct {
	Editions   []string `toml:"editions"`
	Zones      string   `toml:"zones,required"`
	Required   bool     `toml:"required,required"`
	ClassI     bool     `toml:"class_i,required"`
	ClassII    bool     `toml:"class_ii,required"`
	OpenInside bool     `toml:"open_inside"`        // advised against although the code is silent
	ClassIII   string   `toml:"class_iii,required"` // yes, if, no
	VentedOver []string `toml:"vented_over"`
	ByZone     []struct {
		Zone           string     `toml:"zone,required"`
		ClassIIIBoardR [2]float64 `toml:"class_iii_board_r"`
		ClassIIBoardR  [2]float64 `toml:"class_ii_board_r"`
	} `toml:"by_zone"`
	ClassIIIKnown Known         `toml:"class_iii_known"` // where weaker than the rule
	Notes         []units.Prose `toml:"notes"`
	Ref
}
