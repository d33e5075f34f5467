package rules

import "fmt"

// slot is one fact packed for fast tests: bit is 0 when unknown, otherwise
// 1<<(number of the enum value), noBit or yesBit, or any bit for a number.
type slot struct {
	num float64
	bit uint64
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

// Set gives a fact its value. It returns ErrUnknownFact for a name that is not
// declared and ErrValue for a value of another type, not listed, NaN or out of
// range. After an error the fact is unknown, never what it was before: a stale
// value could keep a safety rule quiet.
func (f *Facts) Set(name string, v Value) error {
	i, ok := f.find(name)
	if !ok {
		return fmt.Errorf("%w: %q", ErrUnknownFact, name)
	}
	s, err := f.book.facts[i].pack(v)
	f.slots[i] = s
	return err
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
	return &Facts{book: f.book, slots: append([]slot(nil), f.slots...)}
}

// CopyFrom makes f equal to other without allocating. Facts of another book
// are taken over by name; what f's book does not know is left out.
func (f *Facts) CopyFrom(other *Facts) {
	if other == nil {
		clear(f.slots)
		return
	}
	if other.book == f.book {
		copy(f.slots, other.slots)
		return
	}
	for i := range f.slots {
		fact := f.book.facts[i]
		// A value that does not fit here stays unknown, which pack returns.
		f.slots[i], _ = fact.pack(other.Get(fact.Name))
	}
}

// pack turns a value into a slot; on an error the slot is unknown.
func (f Fact) pack(v Value) (slot, error) {
	if !v.Known() {
		return slot{}, nil
	}
	if v.typ != f.Type {
		return slot{}, fmt.Errorf("%w: %s is %s, got %s %v", ErrValue, f.Name, f.Type, v.typ, v)
	}
	switch f.Type {
	case Enum:
		for i, known := range f.Values {
			if known == v.text {
				return slot{bit: 1 << i}, nil
			}
		}
		return slot{}, fmt.Errorf("%w: %s has no value %q; it has %q", ErrValue, f.Name, v.text, f.Values)
	case Boolean:
		return slot{bit: boolBit(v.yes)}, nil
	}
	if !(v.num >= f.Min && v.num <= f.Max) {
		return slot{}, fmt.Errorf("%w: %s %v, accepted %v to %v", ErrValue, f.Name, v.num, f.Min, f.Max)
	}
	return slot{num: v.num, bit: 1}, nil
}

func (f Fact) unpack(s slot) Value {
	if s.bit == 0 {
		return Unknown()
	}
	switch f.Type {
	case Boolean:
		return Bool(s.bit == yesBit)
	case Numeric:
		return Number(s.num)
	}
	for i, v := range f.Values {
		if s.bit == 1<<i {
			return Text(v)
		}
	}
	return Unknown()
}

func boolBit(b bool) uint64 {
	if b {
		return yesBit
	}
	return noBit
}
