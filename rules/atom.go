package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Op is the comparison of an Atom, spelled as in rule files.
type Op string

// The comparisons. Eq and Ne go with every type, In and NotIn with enums, the
// others with numbers. Between is half-open: Num is in, Num2 is out.
const (
	Eq      Op = "eq"
	Ne      Op = "ne"
	In      Op = "in"
	NotIn   Op = "not_in"
	Lt      Op = "lt"
	Le      Op = "le"
	Gt      Op = "gt"
	Ge      Op = "ge"
	Between Op = "between"
)

// Atom tests one fact. Values is used for enums (one value with Eq and Ne),
// Bool for yes-or-no facts, Num (and Num2 with Between) for numbers, in the
// unit of the fact.
type Atom struct {
	Fact      string
	Op        Op
	Values    []string
	Bool      bool
	Num, Num2 float64
}

// show writes the atom as "zone ge 5"; the type says which of its fields count.
func (a Atom) show(t FactType) string {
	head := a.Fact + " " + string(a.Op) + " "
	switch {
	case t == Enum:
		return head + strings.Join(a.Values, "|")
	case t == Boolean:
		return head + Bool(a.Bool).String()
	case a.Op == Between:
		return fmt.Sprintf("%s[%v, %v)", head, a.Num, a.Num2)
	}
	return fmt.Sprintf("%s%v", head, a.Num)
}

// test is an atom made ready: for enums and yes-or-no facts the accepted bits,
// for numbers the accepted closed interval. An open end becomes closed by
// stepping to the neighbouring float64, which is exact for the numbers a
// program can hold. A hole is everything except [lo, hi].
type test struct {
	fact   int
	mask   uint64 // 0 for numbers
	hole   bool
	lo, hi float64
}

// truth is a value of three-valued logic.
type truth uint8

const (
	no truth = iota
	undecided
	yes
)

func (t *test) on(s slot) truth {
	if s.bit == 0 {
		return undecided
	}
	var ok bool
	if t.mask != 0 {
		ok = s.bit&t.mask != 0
	} else {
		ok = (s.num >= t.lo && s.num <= t.hi) != t.hole
	}
	if ok {
		return yes
	}
	return no
}

func below(v float64) float64 { return math.Nextafter(v, math.Inf(-1)) }
func above(v float64) float64 { return math.Nextafter(v, math.Inf(1)) }

// compile checks an atom against the declared facts.
func (b *Book) compile(a Atom) (test, error) {
	i, ok := b.index[a.Fact]
	if !ok {
		return test{}, fmt.Errorf("%w: %q", ErrUnknownFact, a.Fact)
	}
	f := b.facts[i]
	var t test
	var err error
	switch f.Type {
	case Enum:
		t, err = f.enumTest(a)
	case Boolean:
		t, err = f.boolTest(a)
	default:
		t, err = f.numberTest(a)
	}
	t.fact = i
	return t, err
}

func (f Fact) misfit(a Atom) error {
	return fmt.Errorf("%w: %q does not go with %s, which is %s", ErrCondition, a.Op, f.Name, f.Type)
}

func (f Fact) enumTest(a Atom) (test, error) {
	single := a.Op == Eq || a.Op == Ne
	if !single && a.Op != In && a.Op != NotIn || single && len(a.Values) != 1 || len(a.Values) == 0 {
		return test{}, f.misfit(a)
	}
	var mask uint64
	for _, v := range a.Values {
		i := slices.Index(f.Values, v)
		if i < 0 {
			return test{}, fmt.Errorf("%w: %s has no value %q; it has %q", ErrValue, f.Name, v, f.Values)
		}
		mask |= 1 << i
	}
	if a.Op == Ne || a.Op == NotIn {
		mask = f.allBits() &^ mask
	}
	if mask == 0 {
		return test{}, fmt.Errorf("%w: %s leaves no value", ErrCondition, a.show(Enum))
	}
	return test{mask: mask}, nil
}

func (f Fact) boolTest(a Atom) (test, error) {
	if a.Op != Eq && a.Op != Ne || len(a.Values) != 0 || a.Num != 0 {
		return test{}, f.misfit(a)
	}
	return test{mask: boolBit(a.Bool == (a.Op == Eq))}, nil
}

func (f Fact) numberTest(a Atom) (test, error) {
	if len(a.Values) != 0 || a.Bool {
		return test{}, f.misfit(a)
	}
	if err := f.inRange(a, a.Num); err != nil {
		return test{}, err
	}
	t := test{lo: f.Min, hi: f.Max}
	switch a.Op {
	case Eq:
		t.lo, t.hi = a.Num, a.Num
	case Ne:
		t.lo, t.hi, t.hole = a.Num, a.Num, true
	case Lt:
		t.hi = below(a.Num)
	case Le:
		t.hi = a.Num
	case Gt:
		t.lo = above(a.Num)
	case Ge:
		t.lo = a.Num
	case Between:
		if err := f.inRange(a, a.Num2); err != nil {
			return test{}, err
		}
		if a.Num >= a.Num2 {
			return test{}, fmt.Errorf("%w: %s holds nothing; the lower end comes first", ErrCondition, a.show(Numeric))
		}
		t.lo, t.hi = a.Num, below(a.Num2)
	default:
		return test{}, f.misfit(a)
	}
	return t, nil
}

func (f Fact) inRange(a Atom, v float64) error {
	if !(v >= f.Min && v <= f.Max) {
		return fmt.Errorf("%w: %s: %v is outside %v to %v", ErrValue, a.show(Numeric), v, f.Min, f.Max)
	}
	return nil
}

// allBits is the mask that every value of an enum or yes-or-no fact passes.
func (f Fact) allBits() uint64 {
	if f.Type == Boolean {
		return noBit | yesBit
	}
	if len(f.Values) == maxEnumValues {
		return math.MaxUint64
	}
	return 1<<len(f.Values) - 1
}
