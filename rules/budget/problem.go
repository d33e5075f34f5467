package budget

import (
	"cmp"
	"math"
	"slices"

	"battwright/rules/units"
)

const (
	// valueUnits is how many counted units make one point.
	valueUnits = 1e9
	// centsPerDollar is the step of the whole-dollar mode.
	centsPerDollar = 100
)

// item is an option inside the search. cost is what the search counts (cents,
// or dollars in the whole-dollar mode), paid is always cents.
type item struct {
	cost, value, paid int64
	rank              int32 // place of its id among the ids of its place
	index             int32 // in Place.Options
}

// problem is the checked input: for each place the options worth looking at,
// cheapest first and strictly rising in value.
type problem struct {
	placeIDs  []string
	optionIDs [][]string
	items     [][]item
	minAfter  []int64 // least counted cost of the places from i on
	dollars   bool    // costs are counted in whole dollars
}

// newProblem checks the input.
func newProblem(places []Place) (*problem, error) {
	if err := checkPlaces(places); err != nil {
		return nil, err
	}
	p := &problem{}
	for _, pl := range places {
		ids := make([]string, len(pl.Options))
		for j, o := range pl.Options {
			ids[j] = o.ID
		}
		p.placeIDs = append(p.placeIDs, pl.ID)
		p.optionIDs = append(p.optionIDs, ids)
		p.items = append(p.items, undominated(placeItems(pl)))
	}
	p.minAfter = minAfter(p.items)
	return p, nil
}

func placeItems(pl Place) []item {
	order := make([]int, len(pl.Options))
	for j := range order {
		order[j] = j
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(pl.Options[a].ID, pl.Options[b].ID) })
	items := make([]item, 0, len(order))
	for rank, j := range order {
		o := pl.Options[j]
		items = append(items, item{
			cost:  int64(o.Cost),
			paid:  int64(o.Cost),
			value: int64(math.Round(o.Value * valueUnits)),
			rank:  int32(rank),
			index: int32(j),
		})
	}
	return items
}

// undominated drops every option that another one beats: at most the cost, at
// least the value, and ahead in the settling of ties. Such an option is in no
// best set at any budget.
func undominated(items []item) []item {
	slices.SortFunc(items, func(a, b item) int {
		return cmp.Or(
			cmp.Compare(a.cost, b.cost),
			cmp.Compare(b.value, a.value),
			cmp.Compare(a.rank, b.rank),
		)
	})
	kept := items[:0]
	for _, it := range items {
		if len(kept) == 0 || it.value > kept[len(kept)-1].value {
			kept = append(kept, it)
		}
	}
	return slices.Clip(kept)
}

func minAfter(items [][]item) []int64 {
	least := make([]int64, len(items)+1)
	for i := len(items) - 1; i >= 0; i-- {
		least[i] = least[i+1] + items[i][0].cost
	}
	return least
}

// inDollars is the same problem with every cost rounded up to the dollar. A
// set that fits then fits in cents too, since no cost was made smaller.
func (p *problem) inDollars() *problem {
	q := &problem{placeIDs: p.placeIDs, optionIDs: p.optionIDs, dollars: true}
	for _, items := range p.items {
		rounded := slices.Clone(items)
		for j := range rounded {
			rounded[j].cost = (rounded[j].paid + centsPerDollar - 1) / centsPerDollar
		}
		q.items = append(q.items, undominated(rounded))
	}
	q.minAfter = minAfter(q.items)
	return q
}

// cheapest is the least cost of a complete set, as counted.
func (p *problem) cheapest() int64 { return p.minAfter[0] }

// dearest is the cost of taking the best option everywhere, as counted.
func (p *problem) dearest() int64 {
	sum := int64(0)
	for _, items := range p.items {
		sum += items[len(items)-1].cost
	}
	return sum
}

// cheapestChoice takes the first option of every place. Among equally cheap
// options that is already the most valuable one.
func (p *problem) cheapestChoice() []int32 { return make([]int32, len(p.items)) }

// set turns chosen items (positions in items) into what callers see.
func (p *problem) set(choice []int32) Set {
	s := Set{Picks: make([]int, len(choice)), IDs: make([]string, len(choice))}
	value := int64(0)
	for i, c := range choice {
		it := p.items[i][c]
		s.Cost += units.Cents(it.paid)
		value += it.value
		s.Picks[i] = int(it.index)
		s.IDs[i] = p.optionIDs[i][it.index]
	}
	s.Value = points(value)
	return s
}

func (p *problem) valueOf(choice []int32) int64 {
	sum := int64(0)
	for i, c := range choice {
		sum += p.items[i][c].value
	}
	return sum
}

func (p *problem) paidOf(choice []int32) int64 {
	sum := int64(0)
	for i, c := range choice {
		sum += p.items[i][c].paid
	}
	return sum
}

// points gives counted value back as points.
func points(value int64) float64 { return float64(value) / valueUnits }
