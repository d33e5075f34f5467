// Package bill counts what a set of build-ups takes and what it costs: bays and
// pieces place by place, packages, boards and sheets over the whole house, gear
// and work. Whatever a page says of money is read from here.
//
// Blankets of one kind are counted together: offcuts of one place serve the
// next, and a wall typed as two takes what it would as one. The order in which
// places are listed changes nothing.
package bill

import (
	"battwright/rules/budget"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
	"battwright/rules/units"
)

// Item is one place and what goes in.
type Item struct {
	Place  *candidate.PlaceResult
	Choice *candidate.Assessed // nil where no blanket goes in
	Calls  candidate.Calls
	Closed bool // nothing is counted, whatever it calls for: nobody may begin there
}

// Bill is what a set of build-ups takes.
type Bill struct {
	Lines  []Line  // blankets: the shopping list
	Unused []Line  // with a quote, but of no place now: nothing is bought, the quote stays in reach
	Goods  []Goods // what goes with them
	Gear   []Goods
	Places []Place // one an item
	People int     // who put it in, where the builder does; 0 when an installer does all
	Days   int
	Money  Money
}

// Place is the count of one place.
type Place struct {
	ID, Label string
	Counted   bool   // a blanket goes in, and its count could be made
	Problem   string // why it could not be counted, in words for the builder
	How       takeoff.Convention
	Notes     []string // how it was counted, what to know before cutting
	Differ    string   // how the area typed and the sizes disagree, and what was ordered; must be said where one buys
	Assumed   []string // sizes that nobody confirmed, by their questions
	Measured  int      // sizes marked as measured
	Sizes     int      // sizes the count rests on
	SizeKeys  []string // the answers of the place among them, to mark as measured
	AreaFt2   float64
	Bays      []takeoff.Bay
	Layers    []Layer
	Extras    []Extra
	Self      bool // the builder does the work
	Hours     units.Range[float64]
	Money     PlaceMoney
	Quoted    int // how many of its blankets are at the builder's own price
}

// NotMeasured reports whether a size of the place is a guess.
func (p Place) NotMeasured() bool { return len(p.Assumed) > 0 }

// Layer is one blanket of a place as it is cut.
type Layer struct {
	Product    catalog.Product
	Material   catalog.Material
	Facing     string
	WidthIn    float64
	LengthIn   float64
	Across     bool
	Bays       []takeoff.Bay
	Cut        []takeoff.Piece // the pieces to set; none where only the area is known
	Joints     []takeoff.Joint
	Stock      int // batts or rolls, if this place were done alone
	Packages   int // the same with the spare, in packages
	Spare      int
	Form       string // batt or roll
	id         string
	visible    Visible
	overChords bool
	lies       bool // between joists, where a wide one goes in uncut
	key        key
	layout     takeoff.Layout
	area       takeoff.Area
	spare      float64
}

// Line is one blanket of the shopping list, for all its places.
type Line struct {
	Product    catalog.Product
	Material   catalog.Material
	Facing     string
	WidthIn    float64
	LengthIn   float64
	PerPackage int
	PackageFt2 float64 // coverage of a package
	Label      bool    // sizes are from the builder's label; else usual ones
	Places     []string
	OnlyIf     []string // of them those where a blanket may lie already, which then has to come out first
	Visible    Visible  // whether it must carry the fire mark
	CutFor     []string // of them those whose pieces the patterns cut; the others are counted by the area
	Stock      int      // batts or rolls to cut from
	WithSpare  int      // the same with the spare share, before it is rounded to packages
	Spare      int      // of them beyond the count
	Packages   int      // needed in all
	Hold       int      // packages that hold the count without the spare
	Form       string   // batt or roll
	Have       int
	Buy        int
	Returns    int     // whole packages that should be left over
	Ft3        float64 // of what is bought, as it lies unpacked
	Patterns   []takeoff.StockCut
	Short      int // stock pieces by which the cutting plan may miss the best
	PerPack    units.Range[float64]
	Cost       units.Range[units.Cents]
	Quoted     bool
	Scaled     bool // the builder's price is for another width, and was turned by area
	Year       int
	Ref        catalog.Ref
	byPlace    []float64
}

// Visible tells whether a blanket stays in sight, and so needs its fire mark.
type Visible int

// The answers, the weaker first.
const (
	Covered        Visible = iota
	PerhapsVisible         // nobody said
	StaysVisible
	Burns // cotton and wool, covered or not
)

// Extra is something one place needs beside its blankets.
type Extra struct {
	ID    string
	Name  string
	Unit  string
	Qty   float64 // unrounded: it is rounded once, over the house
	Ft2   float64 // what it is priced by, where it is priced by area
	Price string  // id of its price, empty when it has none
	Quote bool    // get a quote: nothing is priced
	Note  string
}

// Goods is an extra over the whole house.
type Goods struct {
	Extra
	Count   int // in the unit bought
	Places  []string
	Cost    units.Range[units.Cents]
	Priced  bool
	Year    int
	Ref     catalog.Ref
	byPlace []float64
}

// PlaceMoney is what one place costs. The places of a house add up to it.
type PlaceMoney struct {
	Blankets, Extras, Gear, Labour, Total units.Range[units.Cents]
}

// Money is what the whole order costs, as far as it has prices.
type Money struct {
	PlaceMoney
	Year        int           // of the rough prices, 0 when all are the builder's own
	Known       catalog.Known // weakest mark among them
	Quoted      int           // places whose blankets are all at the builder's own price
	PartQuoted  int           // places with some of theirs at it
	Priced      int           // places in all
	QuotedShare float64       // of the typical total, at the builder's own prices
	Budget      units.Cents
	HasBudget   bool
	// Odds are there only when the builder's own prices make up the bigger half.
	Odds    *budget.Odds    // of staying within the budget
	Enough  *budget.Amounts // what suffices nine times in ten
	Without []string        // what is bought but has no price here
	sum     []units.Range[units.Cents]
}

type maker struct {
	items []Item
	a     house.Answered
	c     *catalog.Catalog
	kept  *Counter
	byID  []int
	out   Bill
}

// key is what is bought together.
type key struct {
	product, facing   string
	widthIn, lengthIn float64
}
