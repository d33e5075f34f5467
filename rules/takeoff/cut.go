package takeoff

import (
	"cmp"
	"math"
	"slices"
)

// Demand is how many pieces of one length are wanted.
type Demand struct {
	LengthIn float64
	Count    int
}

// Pattern is one way to cut a stock piece and how many are cut that way.
type Pattern struct {
	Count    int
	Cuts     []Demand // longest first
	OffcutIn float64
}

// CutPlan says which pieces come out of which stock piece.
type CutPlan struct {
	StockIn    float64
	Stock      int       // stock pieces used
	Patterns   []Pattern // most used first
	LowerBound int       // no plan can use fewer; best of the bounds and of the search
	Gap        int       // Stock - LowerBound; 0 = proven best
	Steps      int       // search steps spent
}

// DefaultBudget bounds the search in steps, not seconds, so that the same
// input gives the same plan on every machine. House sizes need a fraction.
const DefaultBudget = 200_000

const (
	ticksPerIn = 32      // finer than a tape reads
	maxPieces  = 200_000 // in one plan
	maxBudget  = 100_000_000
)

// Cut finds the fewest stock pieces from which all demands can be cut. Lengths
// are rounded up to 1/32 in and the stock down, so a plan never comes out
// short. It is exact unless Gap says otherwise; budget is in search steps (0 =
// DefaultBudget).
//
// Method: first-fit decreasing against the bound L2 (Martello and Toth
// 1990); if they differ, column generation (Gilmore and Gomory 1961) with
// its bound recomputed in whole numbers, rounding, and a depth-first search.
//
// Errors: ErrSize, ErrCount, ErrStock, ErrNothing.
func Cut(stockIn float64, demand []Demand, budget int) (CutPlan, error) {
	if err := countBetween("search budget", budget, 0, maxBudget); err != nil {
		return CutPlan{}, err
	}
	if budget == 0 {
		budget = DefaultBudget
	}
	p, err := newProblem(stockIn, demand)
	if err != nil {
		return CutPlan{}, err
	}
	s := solve(p, budget)
	return p.plan(stockIn, s), nil
}

// problem is a cutting problem in whole ticks, lengths distinct and longest
// first.
type problem struct {
	stock int
	size  []int
	need  []int
	in    []float64 // the longest real length behind each size
}

func newProblem(stockIn float64, demand []Demand) (problem, error) {
	if err := positive("stock length", stockIn, maxSizeIn); err != nil {
		return problem{}, err
	}
	p := problem{stock: stockTicks(stockIn)}
	if p.stock == 0 {
		return problem{}, wrapf(ErrSize, "stock length %v in", stockIn)
	}
	byTick := map[int]Demand{}
	total := 0
	for _, d := range demand {
		if err := countBetween("pieces of one length", d.Count, 0, maxPieces); err != nil {
			return problem{}, err
		}
		if err := positive("piece length", d.LengthIn, maxSizeIn); err != nil {
			return problem{}, err
		}
		if d.LengthIn > stockIn {
			return problem{}, wrapf(ErrStock, "piece %v in, stock %v in", d.LengthIn, stockIn)
		}
		if total += d.Count; total > maxPieces {
			return problem{}, wrapf(ErrCount, "%d pieces, accepted up to %d", total, maxPieces)
		}
		tick := tickOf(d.LengthIn, stockIn)
		was := byTick[tick]
		byTick[tick] = Demand{max(was.LengthIn, d.LengthIn), was.Count + d.Count}
	}
	if total == 0 {
		return problem{}, wrapf(ErrNothing, "no piece to cut from %v in stock", stockIn)
	}
	p.fill(byTick)
	return p, nil
}

func (p *problem) fill(byTick map[int]Demand) {
	for tick, d := range byTick {
		if d.Count > 0 {
			p.size = append(p.size, tick)
		}
	}
	slices.SortFunc(p.size, func(a, b int) int { return cmp.Compare(b, a) })
	g := p.stock
	for _, t := range p.size {
		p.need = append(p.need, byTick[t].Count)
		p.in = append(p.in, byTick[t].LengthIn)
		g = gcd(g, t)
	}
	// Whole inches need no ticks; smaller numbers make the tables smaller.
	p.stock /= g
	for i := range p.size {
		p.size[i] /= g
	}
}

func stockTicks(in float64) int { return int(math.Floor(in*ticksPerIn + 1e-6)) }

// tickOf is a length in ticks, rounded up, but never longer than the stock it
// was found to fit. Lengths of one tick are cut alike.
func tickOf(in, stockIn float64) int {
	return min(stockTicks(stockIn), int(math.Ceil(in*ticksPerIn-1e-6)))
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func (p problem) total(count []int) int {
	sum := 0
	for i, n := range count {
		sum += n * p.size[i]
	}
	return sum
}

// filling is a pattern in counts per size and how often it is used.
type filling struct {
	times int
	count []int
}

func stockUsed(f []filling) int {
	n := 0
	for _, x := range f {
		n += x.times
	}
	return n
}

// solution is what solve hands back.
type solution struct {
	fillings []filling
	lb       int
	steps    int
}

func solve(p problem, budget int) solution {
	s := solution{lb: p.boundL2(), fillings: p.greedy(p.need)}
	if stockUsed(s.fillings) == s.lb {
		return s
	}
	r := relax(p)
	s.lb = max(s.lb, r.bound)
	p.improve(&s, r, budget)
	return s
}

func (p problem) plan(stockIn float64, s solution) CutPlan {
	c := CutPlan{StockIn: stockIn, Stock: stockUsed(s.fillings), LowerBound: s.lb, Steps: s.steps}
	c.Gap = c.Stock - c.LowerBound
	merged := merge(s.fillings)
	for _, f := range merged {
		pat := Pattern{Count: f.times, OffcutIn: stockIn}
		for i, n := range f.count {
			if n > 0 {
				pat.Cuts = append(pat.Cuts, Demand{p.in[i], n})
				pat.OffcutIn -= p.in[i] * float64(n)
			}
		}
		pat.OffcutIn = max(0, pat.OffcutIn)
		c.Patterns = append(c.Patterns, pat)
	}
	return c
}

// merge adds up equal fillings: most used first, then longest pieces first.
func merge(fillings []filling) []filling {
	var m []filling
	sorted := slices.Clone(fillings)
	slices.SortFunc(sorted, func(a, b filling) int { return slices.Compare(b.count, a.count) })
	for _, f := range sorted {
		if n := len(m); n > 0 && slices.Equal(m[n-1].count, f.count) {
			m[n-1].times += f.times
			continue
		}
		m = append(m, f)
	}
	slices.SortStableFunc(m, func(a, b filling) int { return cmp.Compare(b.times, a.times) })
	return m
}
