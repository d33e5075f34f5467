package rules

import (
	"errors"
	"fmt"
	"slices"
)

// slot is one fact packed for fast tests: bits is 0 when unknown, otherwise
// 1<<(number of the enum value), noBit or yesBit, or 1 for a number.
type slot struct {
	num  float64
	bits uint64
}

const (
	noBit  uint64 = 1
	yesBit uint64 = 2
)

// Facts holds one value for every declared fact of a Book; all are unknown to
// begin with. A Facts is not safe for use by several goroutines at once.
type Facts struct {
	book  *Book
	slots []slot
}

// NewFacts returns facts that are all unknown.
func (b *Book) NewFacts() *Facts {
	return &Facts{book: b, slots: make([]slot, len(b.facts))}
}

// ErrNoFact is what Set says of a name that is not declared.
var ErrNoFact = errors.New("no fact of that name is declared")

// Set gives a fact its value. It returns an error for a name that is not
// declared and for a value of another type, not listed, NaN or out of range.
// After an error the fact is unknown, never what it was before: a stale value
// could keep a safety rule quiet.
func (f *Facts) Set(name string, v Value) error {
	i, ok := f.find(name)
	if !ok {
		return fmt.Errorf("%w: %q", ErrNoFact, name)
	}
	s, ok := f.book.facts[i].pack(v)
	f.slots[i] = s
	if !ok {
		return fmt.Errorf("%s: found %v; want %s", name, v, f.book.facts[i].takes())
	}
	return nil
}

// Get returns the value of a fact; Unknown for a name that is not declared.
func (f *Facts) Get(name string) Value {
	i, ok := f.find(name)
	if !ok {
		return Unknown()
	}
	return f.book.facts[i].unpack(f.slots[i])
}

// find is safe on a zero Facts, which belongs to no book and knows no fact.
func (f *Facts) find(name string) (int, bool) {
	if f.book == nil {
		return 0, false
	}
	i, ok := f.book.index[name]
	return i, ok
}

// Clone returns a copy that can be changed on its own.
func (f *Facts) Clone() *Facts {
	return &Facts{book: f.book, slots: slices.Clone(f.slots)}
}

// pack turns a value into a slot. It returns false for a value that does not
// fit; the slot is unknown then.
func (f Fact) pack(v Value) (slot, bool) {
	if v.typ != f.Type {
		return slot{}, !v.Known()
	}
	switch f.Type {
	case Enum:
		if i := slices.Index(f.Values, v.text); i >= 0 {
			return slot{bits: 1 << i}, true
		}
	case Boolean:
		if v.yes {
			return slot{bits: yesBit}, true
		}
		return slot{bits: noBit}, true
	case Numeric:
		if v.num >= f.Min && v.num <= f.Max {
			return slot{num: v.num, bits: 1}, true
		}
	}
	return slot{}, false
}

func (f Fact) unpack(s slot) Value {
	if s.bits == 0 {
		return Unknown()
	}
	switch f.Type {
	case Boolean:
		return Bool(s.bits == yesBit)
	case Numeric:
		return Number(s.num)
	}
	for i, v := range f.Values {
		if s.bits == 1<<i {
			return Text(v)
		}
	}
	return Unknown()
}
