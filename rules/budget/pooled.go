package budget

import (
	"cmp"
	"math"
	"slices"

	"battwright/rules/units"
)

// Pack is something that is bought whole for all places of a house together.
type Pack struct {
	Holds float64     // above 0, in any unit
	Cost  units.Cents // of one, 0 to MaxCost
	Have  int         // of them there already, 0 or more
}

// Use is what an option takes out of packs of one sort.
type Use struct {
	Pack int     // index of the pack
	Qty  float64 // 0 or more, in the unit of Holds
}

// PooledOption is one way to do a place. Its Cost is what it takes alone.
type PooledOption struct {
	Option
	Uses []Use
}

// PooledPlace is a place whose options share packs with those of other places.
type PooledPlace struct {
	ID      string
	Options []PooledOption
}

// PooledChoice is the best set found within a budget.
type PooledChoice struct {
	Set     Set         // its Cost has the packs in it
	Missing units.Cents // how much the cheapest set found, which then is Set, costs beyond the budget
	Proved  bool        // nothing better exists; else the search was cut short
}

// maxQty is more of anything than a house takes.
const maxQty = 1e6

// DefaultMaxNodes is how many partial sets BestPooled looks at before it settles for
// the best one found.
const DefaultMaxNodes = 60_000

// BestPooled finds the best set within a budget where packs are bought whole, for
// all places together: more value, then less money, then the option ids in the order
// of the places. Too small a budget is no error; Missing tells. Errors: ErrBudget,
// ErrPack, and ErrNoPlaces, ErrNoOptions, ErrID, ErrSize, ErrCost, ErrValue.
//
// Method: branch and bound. Packs bought in parts would cost no more, and what is
// there already saves no more than its price: the same problem with such costs is
// the plain knapsack, whose Lagrangian bound says how far a partial set may
// fall behind, and whose answer for a little less money is where the search begins.
func BestPooled(places []PooledPlace, packs []Pack, budget units.Cents) (PooledChoice, error) {
	return bestPooled(places, packs, budget, DefaultMaxNodes)
}

func bestPooled(places []PooledPlace, packs []Pack, budget units.Cents, maxNodes int) (PooledChoice, error) {
	if budget < 0 {
		return PooledChoice{}, wrapf(ErrBudget, "%d cents", int64(budget))
	}
	s, err := newPooled(places, packs)
	if err != nil {
		return PooledChoice{}, err
	}
	s.most = maxNodes
	s.cheapest()
	if s.found.cost > int64(budget) {
		out := s.choice()
		out.Missing = out.Set.Cost - budget
		return out, nil
	}
	s.within(int64(budget))
	return s.choice(), nil
}

// PooledCost is what a set costs, packs bought whole. picks has the index of an
// option for each place, as Set.Picks.
func PooledCost(places []PooledPlace, packs []Pack, picks []int) units.Cents {
	qty := make([]int64, len(packs))
	var sum int64
	for i, at := range picks {
		o := places[i].Options[at]
		sum += int64(o.Cost)
		for _, u := range o.Uses {
			qty[u.Pack] += parts(u.Qty)
		}
	}
	for i, p := range packs {
		sum += p.price(qty[i])
	}
	return units.Cents(sum)
}

// perUnit is how finely amounts are counted: a millionth, so that sums are exact and
// the last bits of one open no other pack.
const perUnit = 1e6

func parts(qty float64) int64 { return int64(math.Round(qty * perUnit)) }

// price is what an amount, in parts, costs in whole packs, less those there are.
func (p Pack) price(qty int64) int64 {
	holds := parts(p.Holds)
	return int64(p.Cost) * max(0, (qty+holds-1)/holds-int64(p.Have))
}

type pooledItem struct {
	index int
	own   int64
	low   float64 // cost with packs in parts, cents
	value int64
	slack int64 // how far it falls short of the best worth of its place
	uses  []use
}

type use struct {
	pack int
	qty  int64 // parts
}

// pooledSet is a complete set: an index into the items of each place as given.
type pooledSet struct {
	picks       []int
	cost, value int64
	any         bool
}

type pooledSearch struct {
	given    []PooledPlace
	packs    []Pack
	plain    *problem // packs in parts
	items    [][]pooledItem
	at       []int     // the place of each depth
	restOwn  []int64   // least own cost of the depths from i on
	restLow  []float64 // least low cost of them
	credit   float64   // worth of the packs there are
	found    pooledSet
	limit    int64
	gap      int64 // slack that may still match what was found
	shift    uint
	upper    int64
	picks    []int
	qty      []int64
	most     int
	nodes    int
	cutShort bool
}

func newPooled(places []PooledPlace, packs []Pack) (*pooledSearch, error) {
	s := &pooledSearch{given: places, packs: packs, picks: make([]int, len(places)), qty: make([]int64, len(packs))}
	for i, p := range packs {
		if !(p.Holds >= 1/perUnit) || p.Holds > maxQty || p.Cost < 0 || p.Cost > MaxCost || p.Have < 0 {
			return nil, wrapf(ErrPack, "pack %d: holds %v, %d cents, %d there", i+1, p.Holds, int64(p.Cost), p.Have)
		}
		s.credit += float64(p.Have) * float64(p.Cost)
	}
	plain := make([]Place, len(places))
	for i, pl := range places {
		plain[i].ID = pl.ID
		items := make([]pooledItem, len(pl.Options))
		for j, o := range pl.Options {
			it := pooledItem{index: j, own: int64(o.Cost), low: float64(o.Cost), value: int64(math.Round(o.Value * valueUnits))}
			for _, u := range o.Uses {
				if u.Pack < 0 || u.Pack >= len(packs) || !(u.Qty >= 0) || u.Qty > maxQty {
					return nil, wrapf(ErrPack, "%q at %q: %v of pack %d", o.ID, pl.ID, u.Qty, u.Pack+1)
				}
				it.uses = append(it.uses, use{u.Pack, parts(u.Qty)})
				it.low += u.Qty / packs[u.Pack].Holds * float64(packs[u.Pack].Cost)
			}
			if it.low > float64(MaxCost) {
				return nil, wrapf(ErrCost, "%.0f cents for %q at %q", it.low, o.ID, pl.ID)
			}
			items[j] = it
			plain[i].Options = append(plain[i].Options, Option{ID: o.ID, Cost: units.Cents(it.low), Value: o.Value})
		}
		s.items = append(s.items, items)
	}
	var err error
	s.plain, err = newProblem(plain)
	return s, err
}

// cheapest looks for the set that costs least, of equal ones the most valuable.
func (s *pooledSearch) cheapest() {
	s.sorted(func(a, b pooledItem) int { return cmp.Or(cmp.Compare(a.low, b.low), cmp.Compare(b.value, a.value)) })
	s.limit, s.gap = math.MaxInt64, math.MaxInt64
	s.walk(0, 0, 0, 0, 0, true)
}

// within looks for the best set that costs no more than a limit.
func (s *pooledSearch) within(limit int64) {
	s.limit = limit
	plainLimit := min(limit+int64(s.credit), s.plain.dearest())
	b := s.plain.newBound(max(plainLimit, s.plain.cheapest()))
	s.shift, s.upper = b.shift, b.upper
	for i := range s.items {
		best := b.prefix[i+1] - b.prefix[i]
		for j := range s.items[i] {
			it := &s.items[i][j]
			it.slack = best - b.worth(int64(it.low), it.value)
		}
	}
	s.nodes = 0
	s.begin(plainLimit)
	s.sorted(func(a, b pooledItem) int { return cmp.Or(cmp.Compare(a.slack, b.slack), cmp.Compare(a.low, b.low)) })
	s.narrow()
	s.walk(0, 0, 0, 0, 0, false)
}

// begin takes the answer of the plain knapsack for ever less money, until its packs
// fit bought whole.
func (s *pooledSearch) begin(limit int64) {
	const tries = 8
	for range tries {
		if limit < s.plain.cheapest() {
			return
		}
		c, err := s.plain.choose(limit, DefaultMaxStates)
		if err != nil {
			return
		}
		over := int64(PooledCost(s.given, s.packs, c.Set.Picks)) - s.limit
		if over <= 0 {
			s.take(c.Set.Picks)
			return
		}
		limit -= over
	}
}

// take keeps a complete set where it is better than the one found.
func (s *pooledSearch) take(picks []int) {
	next := pooledSet{picks: slices.Clone(picks), cost: int64(PooledCost(s.given, s.packs, picks)), any: true}
	for i, at := range picks {
		next.value += int64(math.Round(s.given[i].Options[at].Value * valueUnits))
	}
	if next.cost <= s.limit && s.better(next) {
		s.found = next
	}
}

func (s *pooledSearch) better(next pooledSet) bool {
	if !s.found.any {
		return true
	}
	return cmp.Or(cmp.Compare(s.found.value, next.value), cmp.Compare(next.cost, s.found.cost), s.byID(next.picks, s.found.picks)) < 0
}

func (s *pooledSearch) byID(a, b []int) int {
	for i := range a {
		if c := cmp.Compare(s.given[i].Options[a[i]].ID, s.given[i].Options[b[i]].ID); c != 0 {
			return c
		}
	}
	return 0
}

// narrow sets how far a partial set may fall behind and still match what was found.
func (s *pooledSearch) narrow() { s.gap = s.upper - s.found.value<<s.shift }

// sorted puts the options of each place in the order they are tried, and the places
// with the most to lose first.
func (s *pooledSearch) sorted(order func(a, b pooledItem) int) {
	s.at = s.at[:0]
	for i := range s.items {
		slices.SortStableFunc(s.items[i], order)
		s.at = append(s.at, i)
	}
	slices.SortStableFunc(s.at, func(a, b int) int { return cmp.Compare(s.spread(b), s.spread(a)) })
	s.restOwn, s.restLow = make([]int64, len(s.at)+1), make([]float64, len(s.at)+1)
	for d := len(s.at) - 1; d >= 0; d-- {
		own, low := int64(math.MaxInt64), math.Inf(1)
		for _, it := range s.items[s.at[d]] {
			own, low = min(own, it.own), min(low, it.low)
		}
		s.restOwn[d], s.restLow[d] = s.restOwn[d+1]+own, s.restLow[d+1]+low
	}
}

// spread is how much the second best option of a place gives up.
func (s *pooledSearch) spread(i int) float64 {
	if len(s.items[i]) < 2 {
		return math.Inf(1) // nothing to choose
	}
	a, b := s.items[i][0], s.items[i][1]
	return float64(b.slack-a.slack) + b.low - a.low
}

// walk tries the options of one depth after the other. own and packs are what the
// partial set costs, low what it would with packs in parts.
func (s *pooledSearch) walk(d int, own, packs int64, low float64, slack int64, least bool) {
	if d == len(s.at) {
		s.leaf(own+packs, least)
		return
	}
	for _, it := range s.items[s.at[d]] {
		if !least && slack+it.slack > s.gap {
			return // those after it fall behind by more
		}
		if s.nodes++; s.nodes > s.most {
			s.cutShort = true
			return
		}
		mark, more := own+it.own, packs+s.add(it.uses, 1)
		l := low + it.low
		reach := max(float64(mark+more+s.restOwn[d+1]), math.Floor(l+s.restLow[d+1]-s.credit))
		if reach <= float64(s.limit) && (!least || !s.found.any || reach <= float64(s.found.cost)) {
			s.picks[s.at[d]] = it.index
			s.walk(d+1, mark, more, l, slack+it.slack, least)
		}
		s.add(it.uses, -1)
	}
}

// add puts what is used to the rest, or takes it off again, and gives by how much the
// packs cost more.
func (s *pooledSearch) add(uses []use, sign int64) int64 {
	more := int64(0)
	for _, u := range uses {
		before := s.packs[u.pack].price(s.qty[u.pack])
		s.qty[u.pack] += sign * u.qty
		more += s.packs[u.pack].price(s.qty[u.pack]) - before
	}
	return more
}

func (s *pooledSearch) leaf(cost int64, least bool) {
	if cost > s.limit {
		return
	}
	if least && s.found.any && cost > s.found.cost {
		return
	}
	next := pooledSet{cost: cost, any: true, picks: s.picks}
	for i, at := range s.picks {
		next.value += int64(math.Round(s.given[i].Options[at].Value * valueUnits))
	}
	if least && s.found.any && cost < s.found.cost || s.better(next) {
		next.picks = slices.Clone(s.picks)
		s.found = next
		if !least {
			s.narrow()
		}
	}
}

func (s *pooledSearch) choice() PooledChoice {
	out := PooledChoice{Proved: !s.cutShort}
	out.Set = Set{Cost: units.Cents(s.found.cost), Value: points(s.found.value), Picks: s.found.picks}
	for i, at := range s.found.picks {
		out.Set.IDs = append(out.Set.IDs, s.given[i].Options[at].ID)
	}
	return out
}
