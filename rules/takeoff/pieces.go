package takeoff

import (
	"cmp"
	"math"
	"slices"
)

// Piece is one size of blanket to set, and how many.
type Piece struct {
	WidthIn  float64 // as cut
	LengthIn float64 // as cut
	Count    int
}

// Joint says which bays are filled by pieces standing end to end.
type Joint struct {
	BayIn     float64 // height of the bay
	Bays      int
	Whole     int     // whole pieces in each
	RemnantIn float64 // the cut piece that closes the bay, 0 if none
	EvenIn    float64 // where the remnant was too short to set: the piece below, cut back; else 0
}

// pieceNeed is what one layout asks of one product.
type pieceNeed struct {
	pieces []Piece
	joints []Joint
}

// cutPieces turns bays into pieces. A bay no taller than the blanket takes one
// piece. A taller one takes whole pieces and one remnant, and no more joints
// than that; a remnant shorter than MinPieceIn is lengthened by cutting back
// the piece next to it.
func cutPieces(l Layout, p Product) (pieceNeed, error) {
	var n pieceNeed
	counts := map[[2]float64]int{}
	jointed := map[float64]Joint{}
	for _, b := range l.Bays {
		if b.Count == 0 {
			continue
		}
		if b.WidthIn > p.WidthIn {
			return n, wrapf(ErrTooWide, "bay %v in, blanket %v in", b.WidthIn, p.WidthIn)
		}
		lengths, j := stack(b.HeightIn, p)
		if j.BayIn > 0 {
			j.Bays = jointed[b.HeightIn].Bays + b.Count
			jointed[b.HeightIn] = j
		}
		w := cutWidth(b.WidthIn, p)
		for _, s := range lengths {
			counts[[2]float64{w, s.LengthIn}] += s.Count * b.Count
		}
	}
	total := 0
	for k, c := range counts {
		n.pieces = append(n.pieces, Piece{k[0], k[1], c})
		total += c
	}
	for _, j := range jointed {
		n.joints = append(n.joints, j)
	}
	slices.SortFunc(n.pieces, func(a, b Piece) int {
		return cmp.Or(cmp.Compare(b.LengthIn, a.LengthIn), cmp.Compare(b.WidthIn, a.WidthIn))
	})
	slices.SortFunc(n.joints, func(a, b Joint) int { return cmp.Compare(b.BayIn, a.BayIn) })
	if total == 0 {
		return n, wrapf(ErrNothing, "%d bays", l.BayCount())
	}
	return n, countBetween("pieces", total, 1, maxPieces)
}

// stack divides a bay's height into piece lengths. Lengths are counted per
// bay; Joint is zero when the bay needs none.
func stack(bayIn float64, p Product) ([]Demand, Joint) {
	if bayIn <= p.LengthIn {
		return []Demand{{min(p.LengthIn, bayIn+p.FitLengthIn), 1}}, Joint{}
	}
	whole := int(math.Floor(bayIn / p.LengthIn))
	rest := bayIn - float64(whole)*p.LengthIn
	j := Joint{BayIn: bayIn, Whole: whole}
	// Less than the fit that blankets are cut over by is no gap: they are
	// pushed together to it.
	if rest <= p.FitLengthIn {
		return []Demand{{p.LengthIn, whole}}, j
	}
	j.RemnantIn = min(p.LengthIn, rest+p.FitLengthIn)
	if rest >= MinPieceIn || p.LengthIn < 2*MinPieceIn {
		return []Demand{{p.LengthIn, whole}, {j.RemnantIn, 1}}, j
	}
	j.Whole--
	j.EvenIn = p.LengthIn - (MinPieceIn - rest)
	j.RemnantIn = MinPieceIn + p.FitLengthIn
	out := []Demand{{j.EvenIn, 1}, {j.RemnantIn, 1}}
	if j.Whole > 0 {
		out = append([]Demand{{p.LengthIn, j.Whole}}, out...)
	}
	return out, j
}

// cutWidth is the width a blanket is cut to: as sold when it can be pressed
// into the bay, else the bay and the fit.
func cutWidth(bayIn float64, p Product) float64 {
	if p.WidthIn-bayIn <= cmp.Or(p.PressIn, PressInIn) {
		return p.WidthIn
	}
	return min(p.WidthIn, bayIn+p.FitWidthIn)
}

// Slot is a length of blanket over its whole width: one piece, or several
// narrow ones side by side.
type Slot struct {
	LengthIn float64
	Pieces   []Piece // Count is how many side by side
	Count    int     // slots like this one
}

// pairStrips lays pieces into slots. The longest piece left opens a slot; the
// longest that still fit beside it share it. Two strips of half width share a
// blanket; a piece as wide as the blanket has its slot alone.
func pairStrips(pieces []Piece, widthIn float64) []Slot {
	left := slices.Clone(pieces)
	var slots []Slot
	for at := 0; at < len(left); {
		if left[at].Count == 0 {
			at++
			continue
		}
		s := Slot{LengthIn: left[at].LengthIn, Count: left[at].Count}
		room := widthIn
		for i := at; i < len(left); i++ {
			n := min(left[i].Count, int(math.Floor(room/left[i].WidthIn+1e-9)))
			if n == 0 {
				continue
			}
			room -= float64(n) * left[i].WidthIn
			s.Count = min(s.Count, left[i].Count/n)
			s.Pieces = append(s.Pieces, Piece{left[i].WidthIn, left[i].LengthIn, n})
		}
		left = takeSlots(left, s)
		slots = append(slots, s)
	}
	return slots
}

func takeSlots(left []Piece, s Slot) []Piece {
	for i := range left {
		for _, q := range s.Pieces {
			if q.WidthIn == left[i].WidthIn && q.LengthIn == left[i].LengthIn {
				left[i].Count -= q.Count * s.Count
			}
		}
	}
	return left
}
