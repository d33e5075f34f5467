// Package takeoff turns geometry into pieces and packages of blanket
// insulation: bays from walls, floors, attics and chases, pieces from bays, a
// cutting plan from pieces, packages from stock pieces.
//
// Numbers in, numbers out. Lengths are inches unless a name says Ft, areas are
// square feet. Impossible input returns a sentinel error with the value, never
// a panic. The same input gives the same output, whatever the order of walls.
//
// Who counts an area says how (Convention): the ways in use differ by a fifth on
// the same house.
package takeoff

// Convention names how a quantity was counted.
type Convention string

const (
	// ByBay counts each clear space between studs or joists.
	ByBay Convention = "bay by bay"
	// ByModule divides an area by the framing module (stud and space
	// together), so the wood is counted as if it were blanket.
	ByModule Convention = "area / module"
	// ByClearShare takes the wood off first: area x clear share, divided by
	// the face of one piece.
	ByClearShare Convention = "area x clear share / piece"
)

// Framing and fitting conventions. Those marked practice are common practice
// with no published source behind them here.
const (
	// StudIn is the thickness of dimension lumber.
	StudIn = 1.5
	// PlatesIn is one bottom and two top plates: 92-5/8 in studs stand in a
	// 97-1/8 in wall.
	PlatesIn = 3 * StudIn
	// FitWidthIn is how much wider than its bay a blanket is cut to hold by
	// friction: trade width 15 in against 14-1/2 in clear.
	FitWidthIn = 0.5
	// FitLengthIn is how much longer than its bay a blanket is cut: 93 in
	// against 92-5/8 in studs.
	FitLengthIn = 0.375
	// PressInIn: a blanket up to this much wider than its bay is pressed in
	// uncut (practice); the first bay of a wall is 3/4 in narrow.
	PressInIn = 1.5
	// StandPressInIn is the same where a blanket stands between studs or hangs
	// under a floor (practice): a 15 in batt in the narrow first bay; one of 16 in,
	// made to lie between attic joists, is cut.
	StandPressInIn = 1.25
	// MinPieceIn is the shortest piece worth setting above a joint (practice).
	MinPieceIn = 6.0
	// HeadIn is the height of opening heads above the wall's foot (practice).
	HeadIn = 82.5
	// MinSpaceIn: a space above or below an opening lower than this is left
	// to scraps and sealant and not counted (practice).
	MinSpaceIn = 1.0
)
