package candidate

import (
	"reflect"

	"battwright/rules/catalog"
)

// What the model code wants on the room side of a framed surface.
const (
	RetarderNone   = "none"
	RetarderWanted = "wanted"
	RetarderBarred = "low-perm-barred"
)

// Facing says what slows damp air, on which side, and who brings it.
type Facing struct {
	OnBlanket string  // facing of the blanket itself: none, kraft, foil-rated
	Turned    bool    // that face was found or offered away from the heated room
	Sheet     string  // a sheet or paint beside the blanket, empty when none
	Added     bool    // the plan adds the sheet, at its cost
	Side      string  // where it goes, in words
	Class     string  // retarder class of what there is, empty when vapor-open
	Asked     string  // what the code wants: none, wanted, low-perm-barred
	TwoSheets bool    // a class I sheet inside and a board outside: fiber between two tight layers
	VaporR    float64 // least board the code's vapor table wants beside this retarder, 0 when it asks none
	ThinBoard bool    // the board, there or to buy, is less than VaporR
	PaintDoes bool    // the code accepts painted drywall alone for this wall
	LeftOut   string  // a sheet or paint the builder named and the plan leaves out; none
	LeftWhy   string  // why: climate, board, visible; none
	Why       string
	From      []catalog.Ref
}

// like reports whether two facings are the same, whatever their sources.
func (f Facing) like(other Facing) bool {
	f.From, other.From = nil, nil
	return reflect.DeepEqual(f, other)
}

// Retarder is what lies on the room side, whatever it is: the facing of the
// blanket, or the sheet; none when vapor-open. A face that is turned away is
// not there.
func (f Facing) Retarder() string {
	switch {
	case f.Sheet == "polyethylene": // tighter than any face
		return f.Sheet
	case f.OnBlanket != "none" && !f.Turned:
		return f.OnBlanket
	case f.Sheet != "":
		return f.Sheet
	}
	return "none"
}

const roomSide = "toward the heated room"

// facingOf completes a stack with the retarder its place and climate ask.
func facingOf(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target) Facing {
	has := b.Layers[0].Product.Has
	f := Facing{OnBlanket: "none", Asked: RetarderNone}
	switch s.Kind.Retarder {
	case catalog.RetarderByTable, catalog.RetarderByZone:
		return wallFacing(s, site, c, b, t, has)
	case catalog.RetarderUnfaced:
		f.Asked, f.From = askedRetarder(site, c)
		f.Why = whyUnfaced(f.Asked, site)
		if s.FoamInBays {
			f.Why = "unfaced, never a foil face here: first unfaced foam board cut to each bay, its edges sealed, then the blanket over it"
		}
	default:
		f.Why = s.Kind.Unfaced.In(s.System)
	}
	f.Class = classOf(f, c)
	return f
}

func wallFacing(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target, has func(string) bool) Facing {
	f := Facing{OnBlanket: "none", Side: roomSide}
	f.Asked, f.From = askedRetarder(site, c)
	f.LeftOut, f.LeftWhy = leftOut(s, site, c, s.CIR+t.AddR)
	switch {
	case f.LeftOut != "none":
		f.plan(s, site, s.CIR+t.AddR, has)
	case s.Retarder == "paint", s.Retarder == "polyethylene", s.Retarder == "smart":
		f.Sheet, f.Why = s.Retarder, "you put it up; the blanket then goes in unfaced, never two"
	case s.Retarder == "none":
		f.Why = "you want none"
	default:
		f.plan(s, site, s.CIR+t.AddR, has)
	}
	f.Class = classOf(f, c)
	f.pairs(s, site, c, b, t)
	return f
}

// leftOut is a sheet or paint that the builder named for a room side and that is
// neither planned nor ordered, and why: the code bars it in that climate, a board
// outside would make it the second tight layer, or nothing covers it. Both none
// otherwise.
func leftOut(s Surface, site Site, c *catalog.Catalog, boardR float64) (sheet, why string) {
	named := s.Retarder
	if s.Kind.Retarder != catalog.RetarderByTable && s.Kind.Retarder != catalog.RetarderByZone ||
		named != "paint" && named != "polyethylene" && named != "smart" {
		return "none", "none"
	}
	asked, _ := askedRetarder(site, c)
	switch {
	case asked == RetarderBarred && named != "smart":
		return named, "climate"
	case s.Exposed:
		return named, "visible"
	case named == "polyethylene" && boardR > 0:
		return named, "board"
	}
	return "none", "none"
}

// pairs looks at what the retarder makes together with the board on the cold
// side: two tight layers with fiber between, in any place; in a wall also a
// board too thin beside a class II face, and painted drywall that is enough.
func (f *Facing) pairs(s Surface, site Site, c *catalog.Catalog, b Blankets, t Target) {
	board := s.CIR + t.AddR
	f.TwoSheets = f.Class == "I" && board > 0
	if s.Kind.Retarder != catalog.RetarderByTable {
		return
	}
	rule, err := c.Codes.Retarder(site.Edition, site.CodeZone)
	if err != nil {
		return
	}
	cavityR := b.CavityR
	if s.Frame.Size == "2x4" || s.Frame.Size == "2x6" {
		// The rows of the table are by stud and hold for whatever blanket fills
		// it; only deeper cavities grow the board in proportion.
		cavityR = 0
	}
	if f.Class == "II" && board > 0 {
		least, err := rule.ClassIIBoard.LeastR(s.Frame.DepthIn, cavityR)
		if err == nil {
			f.VaporR, f.ThinBoard = least, board < least
		}
	}
	pass, err := rule.ClassIIIPasses(catalog.WallOutside{
		Sheathing: s.Sheathing.ID, VentedCladding: s.Cladding.ID == "vented", BoardR: board, StudDepthIn: s.Frame.DepthIn, CavityR: cavityR,
	})
	f.PaintDoes = err == nil && pass
}

// plan chooses the retarder when the builder leaves it open.
func (f *Facing) plan(s Surface, site Site, boardR float64, has func(string) bool) {
	switch {
	case f.Asked != RetarderWanted:
		f.Why = whyUnfaced(f.Asked, site)
	case s.Exposed && has("foil-rated") && boardR == 0:
		f.OnBlanket, f.Why = "foil-rated", "left visible, so the face must be flame-rated"
	case s.Exposed:
		f.Why = "a paper face or plain sheet must not stay visible: cover the place, then a retarder can go in"
	case has("kraft"):
		f.OnBlanket, f.Why = "kraft", "the paper face slows damp air from the room"
	default:
		f.Sheet, f.Added, f.Why = "smart", true, "sold unfaced: a smart sheet over it slows damp air from the room and lets what is behind it dry"
	}
}

// whyUnfaced says why nothing tight goes on the room side. Without a zone
// nobody can tell.
func whyUnfaced(asked string, site Site) string {
	switch {
	case site.CodeZone == "":
		return "unfaced for now: whether you need a vapor retarder depends on the climate zone, which is not known yet"
	case asked == RetarderBarred && site.Letter == "B":
		return "unfaced: in the hottest zones nothing tight goes on the room side; the cooled room is the cold side there"
	case asked == RetarderBarred:
		return "unfaced: in a hot, damp climate the damp comes from outdoors and must get out to the room"
	}
	return "unfaced: no vapor retarder is needed in this climate"
}

// openRetarder is the retarder that could be added where the code neither
// wants nor bars one; false when the builder has decided or none is sold.
func openRetarder(f Facing, s Surface, has func(string) bool) (Facing, bool) {
	f.Side, f.Why = roomSide, "the code does not ask for it here, but the damp check comes out better with it"
	switch {
	case s.Kind.Retarder != catalog.RetarderByTable || s.Retarder != "plan" || s.Exposed:
		return f, false
	case has("kraft"):
		f.OnBlanket = "kraft"
	default:
		f.Sheet, f.Added = "smart", true
	}
	return f, true
}

// TightBarred reports whether the code bars tight layers on the room side where the
// house stands.
func (site Site) TightBarred(c *catalog.Catalog) bool {
	asked, _ := askedRetarder(site, c)
	return asked == RetarderBarred
}

func askedRetarder(site Site, c *catalog.Catalog) (string, []catalog.Ref) {
	rule, err := c.Codes.Retarder(site.Edition, site.CodeZone)
	if err != nil {
		return RetarderNone, nil
	}
	switch {
	case rule.Required:
		return RetarderWanted, []catalog.Ref{rule.Ref}
	case !rule.ClassIIAllowed || rule.OpenInside:
		return RetarderBarred, []catalog.Ref{rule.Ref}
	}
	return RetarderNone, []catalog.Ref{rule.Ref}
}

func classOf(f Facing, c *catalog.Catalog) string {
	record, ok := c.Facing(f.Retarder())
	if !ok {
		return ""
	}
	return record.Class
}
