package takeoff

// Options say how a product may be set and ordered.
type Options struct {
	SpareShare float64 // ordered beyond the plan, 0 to 1; 3 to 5 % is usual for plain work, 10 % for cut-up work (memory)
	Joints     bool    // pieces may stand end to end between framing; second layers and rims always may
	Budget     int     // search steps of the cutting plan, 0 = DefaultBudget
}

// StockCut is one way to cut a stock piece.
type StockCut struct {
	Count    int    // stock pieces cut this way
	Slots    []Slot // end to end along the piece; Count is how often in each
	OffcutIn float64
}

// Coverage holds the pieces of a plan against the bays, counted anew from the
// cutting patterns.
type Coverage struct {
	Bays       int
	PiecesCut  int
	PiecesNeed int
	ClearFt2   float64 // the bays
	PieceFt2   float64 // the pieces as cut; more than ClearFt2 by the fit
	ModuleFt2  float64 // what whole bays serve with the stud beside them
}

// Order is the take-off of one product for one layout.
type Order struct {
	Convention  Convention
	Full        int // stock pieces set whole, uncut
	Cut         int // stock pieces cut up
	Stock       int // Full + Cut
	Pieces      []Piece
	Patterns    []StockCut
	Plan        CutPlan // bounds and gap, for the slots as paired
	Joints      []Joint
	Packages    int
	SparePieces int // stock pieces bought beyond the plan
	Coverage    Coverage
}

// TakeOff counts one product for a layout: pieces, a cutting plan, packages.
// Offcuts are used again; narrow bays are cut lengthwise, and strips that fit
// side by side share a blanket. The plan is the best there is for the slots so
// paired, or says by how many stock pieces it might be short of best.
//
// Errors: ErrSize, ErrCount, ErrShare, ErrTooWide, ErrTooLong, ErrNothing,
// ErrUncovered.
func TakeOff(l Layout, p Product, o Options) (Order, error) {
	if err := checkTakeOff(l, p, o); err != nil {
		return Order{}, err
	}
	need, err := cutPieces(l, p, o.Joints)
	if err != nil {
		return Order{}, err
	}
	slots := pairStrips(need.pieces, p.WidthIn)
	demand := make([]Demand, len(slots))
	for i, s := range slots {
		demand[i] = Demand{s.LengthIn, s.Count}
	}
	plan, err := Cut(p.LengthIn, demand, o.Budget)
	if err != nil {
		return Order{}, err
	}
	r := Order{
		Convention: l.Convention, Stock: plan.Stock, Pieces: need.pieces, Plan: plan, Joints: need.joints,
		Patterns: dealSlots(plan, slots),
	}
	r.count(p)
	r.Packages, r.SparePieces = packages(plan.Stock, o.SpareShare, p.PerPackage)
	return r, r.cover(l, p)
}

func checkTakeOff(l Layout, p Product, o Options) error {
	if err := p.check(); err != nil {
		return err
	}
	if err := shareBetween("spare share", o.SpareShare, 0, 1); err != nil {
		return err
	}
	for _, b := range l.Bays {
		if err := positive("bay width", b.WidthIn, maxSizeIn); err != nil {
			return err
		}
		if err := positive("bay height", b.HeightIn, maxSizeIn); err != nil {
			return err
		}
		if err := countBetween("bays of one size", b.Count, 0, maxBays); err != nil {
			return err
		}
	}
	return nil
}

// Packages is ceil(pieces x (1 + spare) / per package) and the pieces left
// over the plan.
//
// Errors: ErrCount, ErrShare.
func Packages(pieces int, spareShare float64, perPackage int) (packs, spare int, err error) {
	if err := countBetween("pieces", pieces, 0, maxPieces); err != nil {
		return 0, 0, err
	}
	if err := countBetween("pieces per package", perPackage, 1, 1000); err != nil {
		return 0, 0, err
	}
	if err := shareBetween("spare share", spareShare, 0, 1); err != nil {
		return 0, 0, err
	}
	packs, spare = packages(pieces, spareShare, perPackage)
	return packs, spare, nil
}

func packages(pieces int, spareShare float64, perPackage int) (packs, spare int) {
	packs = ceilInt(float64(pieces) * (1 + spareShare) / float64(perPackage))
	return packs, packs*perPackage - pieces
}

// count tells whole stock from cut stock.
func (r *Order) count(p Product) {
	for _, s := range r.Patterns {
		if s.whole(p) {
			r.Full += s.Count
		}
	}
	r.Cut = r.Stock - r.Full
}

// whole says that the first piece is the whole stock piece, which leaves no
// room for another.
func (s StockCut) whole(p Product) bool {
	q := s.Slots[0].Pieces[0]
	return q.WidthIn == p.WidthIn && q.LengthIn == p.LengthIn
}
