package takeoff

// StockCut is one way to cut a stock piece.
type StockCut struct {
	Count    int    // stock pieces cut this way
	Slots    []Slot // end to end along the piece; Count is how often in each
	OffcutIn float64
}

// Order is the take-off of one product for one layout.
type Order struct {
	Stock       int // stock pieces used, whole or cut up
	Pieces      []Piece
	Patterns    []StockCut
	Plan        CutPlan // bounds and gap, for the slots as paired
	Joints      []Joint
	Packages    int
	SparePieces int // stock pieces bought beyond the plan
}

// TakeOff counts one product for a layout: pieces, a cutting plan, packages with
// spareShare ordered beyond it, 0 to 1; 3 to 5 % is usual for plain work, 10 % for
// cut-up work (memory). Where a bay is taller than the blanket, pieces stand end
// to end.
//
// Offcuts are used again; narrow bays are cut lengthwise, and strips that fit
// side by side share a blanket. The plan is the best there is for the slots so
// paired, or says by how many stock pieces it might be short of best.
//
// Errors: ErrSize, ErrCount, ErrShare, ErrTooWide, ErrNothing, ErrUncovered.
func TakeOff(l Layout, p Product, spareShare float64) (Order, error) {
	return takeOff(l, p, spareShare, DefaultBudget)
}

func takeOff(l Layout, p Product, spareShare float64, budget int) (Order, error) {
	if err := checkTakeOff(l, p, spareShare); err != nil {
		return Order{}, err
	}
	need, err := cutPieces(l, p)
	if err != nil {
		return Order{}, err
	}
	slots := pairStrips(need.pieces, p.WidthIn)
	demand := make([]Demand, len(slots))
	for i, s := range slots {
		demand[i] = Demand{s.LengthIn, s.Count}
	}
	plan, err := Cut(p.LengthIn, demand, budget)
	if err != nil {
		return Order{}, err
	}
	r := Order{
		Stock: plan.Stock, Pieces: need.pieces, Plan: plan, Joints: need.joints,
		Patterns: dealSlots(plan, slots),
	}
	r.Packages, r.SparePieces = packages(plan.Stock, spareShare, p.PerPackage)
	return r, r.cover(l)
}

func checkTakeOff(l Layout, p Product, spareShare float64) error {
	if err := p.check(); err != nil {
		return err
	}
	if err := shareBetween("spare share", spareShare, 0, 1); err != nil {
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
