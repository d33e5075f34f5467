package takeoff

import (
	"cmp"
	"fmt"
	"slices"
)

// run is one straight length of wall with the openings placed in it.
type run struct {
	lengthIn float64
	freeIn   float64
	openings []Opening // one by one, Count ignored
}

// framedIn is the width an opening takes with two studs on each side.
func (w Wall) framedIn(o Opening) float64 { return o.WidthIn + 4*StudIn }

// placeOpenings deals openings to runs, widest first. Most room left is tried
// first because it spreads them; if one cannot be placed that way, least room
// left is tried, which packs tighter. Of runs with equal room the longer is
// taken.
func (w Wall) placeOpenings() ([]run, error) {
	list := w.eachOpening()
	for _, most := range []bool{true, false} {
		if runs, ok := w.deal(list, most); ok {
			return runs, nil
		}
	}
	return nil, fmt.Errorf("%w: %d openings and their side studs, runs %v in",
		ErrOpenings, len(list), w.LengthsIn)
}

func (w Wall) eachOpening() []Opening {
	var list []Opening
	for _, o := range w.Openings {
		for range o.Count {
			list = append(list, o)
		}
	}
	slices.SortStableFunc(list, func(a, b Opening) int {
		return cmp.Or(cmp.Compare(b.WidthIn, a.WidthIn), cmp.Compare(b.HeightIn, a.HeightIn))
	})
	return list
}

func (w Wall) deal(list []Opening, most bool) ([]run, bool) {
	runs := make([]run, len(w.LengthsIn))
	for i, l := range w.LengthsIn {
		runs[i] = run{lengthIn: l, freeIn: l - 2*StudIn}
	}
	for _, o := range list {
		at := -1
		for i, r := range runs {
			if r.freeIn < w.framedIn(o) {
				continue
			}
			if at < 0 || (most && r.freeIn > runs[at].freeIn) || (!most && r.freeIn < runs[at].freeIn) {
				at = i
			}
		}
		if at < 0 {
			return nil, false
		}
		runs[at].freeIn -= w.framedIn(o)
		runs[at].openings = append(runs[at].openings, o)
	}
	return runs, true
}

// span is a stretch along a wall, from its left end.
type span struct{ from, to float64 }

// runBays returns the full-height bays of a run and the short ones over and
// under its openings.
func (w Wall) runBays(r run) []Bay {
	solid := append(w.studs(0, r.lengthIn), span{0, StudIn}, span{r.lengthIn - StudIn, r.lengthIn})
	gap := r.freeIn / float64(len(r.openings)+1)
	at := StudIn
	var short []Bay
	for _, o := range r.openings {
		at += gap
		framed := span{at, at + w.framedIn(o)}
		// Studs wholly inside the frame are not set at full height; the frame
		// hides them here.
		solid = append(solid, framed)
		rough := span{framed.from + 2*StudIn, framed.to - 2*StudIn}
		short = append(short, w.shortBays(rough, o)...)
		at = framed.to
	}
	var bays []Bay
	for _, c := range clearSpans(solid) {
		bays = append(bays, Bay{w.kindOf(c), c, w.StudHeightIn, 1})
	}
	return append(bays, short...)
}

// studs are the regular studs whose centres stand between two places of a run.
func (w Wall) studs(fromIn, toIn float64) []span {
	var s []span
	for i := int(fromIn/w.SpacingIn) + 1; float64(i)*w.SpacingIn < toIn; i++ {
		c := float64(i) * w.SpacingIn
		s = append(s, span{c - StudIn/2, c + StudIn/2})
	}
	return s
}

// kindOf calls a bay odd when blanket of the usual width has to be cut for it.
func (w Wall) kindOf(clearIn float64) Kind {
	if clearIn < w.SpacingIn-1.5*StudIn-1.0/64 {
		return KindOdd
	}
	return KindFull
}

// clearSpans returns the widths left clear between solid spans, left to right.
func clearSpans(solid []span) []float64 {
	slices.SortFunc(solid, func(a, b span) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	var clear []float64
	end := solid[0].to
	for _, s := range solid[1:] {
		if s.from-end >= 1.0/64 {
			clear = append(clear, s.from-end)
		}
		end = max(end, s.to)
	}
	return clear
}

// shortBays are the spaces over and under one opening.
func (w Wall) shortBays(rough span, o Opening) []Bay {
	solid := append(w.studs(rough.from, rough.to),
		span{rough.from, rough.from + StudIn}, span{rough.to - StudIn, rough.to})
	above, below := w.overUnder(o)
	var bays []Bay
	for _, c := range clearSpans(solid) {
		if above >= MinSpaceIn {
			bays = append(bays, Bay{KindAbove, c, above, 1})
		}
		if below >= MinSpaceIn {
			bays = append(bays, Bay{KindBelow, c, below, 1})
		}
	}
	return bays
}

// overUnder is the clear height over the header and under the sill; 0 or less
// when there is none.
func (w Wall) overUnder(o Opening) (above, below float64) {
	plate := (w.HeightIn - w.StudHeightIn) / 3
	head := min(max(HeadIn, o.HeightIn), w.HeightIn)
	above = plate + w.StudHeightIn - head - headerIn(o.WidthIn)
	below = head - o.HeightIn - StudIn - plate
	return above, below
}

func headerIn(openingIn float64) float64 {
	switch {
	case openingIn <= 48:
		return 5.5
	case openingIn <= 72:
		return 7.25
	case openingIn <= 96:
		return 9.25
	}
	return 11.25
}
