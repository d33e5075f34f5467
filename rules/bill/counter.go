package bill

import (
	"fmt"
	"strings"
	"sync"

	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/takeoff"
)

// Counter makes bills of one house and keeps what it counted: bays of places,
// pieces of stacks, cutting plans of lines. It may be used by several at once.
type Counter struct {
	a     house.Answered
	c     *catalog.Catalog
	mu    sync.Mutex
	bays  map[string]bays
	stack map[string]stack
	pool  map[string]pooled
}

// bays are those of a place, and what must be said of them.
type bays struct {
	count count
	place Place
	err   error
}

// stack are the blankets of a place, counted.
type stack struct {
	layers []Layer
	notes  []string
	err    error
}

// pooled are the stock pieces of a line.
type pooled struct {
	stock, short int
	patterns     []takeoff.StockCut
	err          error
}

// NewCounter is for the answers as they are now; others want another counter.
func NewCounter(a house.Answered) *Counter {
	return &Counter{a: a, c: a.List.Catalog(), bays: map[string]bays{}, stack: map[string]stack{}, pool: map[string]pooled{}}
}

// Trying is a counter for other answers about one place, which keeps what is counted
// of the rest.
func (k *Counter) Trying(now house.Answered, place string) *Counter {
	k.mu.Lock()
	defer k.mu.Unlock()
	out := NewCounter(now)
	keep(out.bays, k.bays, place)
	keep(out.stack, k.stack, place)
	return out
}

// keep takes over what is not of a place.
func keep[T any](to, from map[string]T, not string) {
	for key, v := range from {
		if key != not && !strings.HasPrefix(key, not+"/") {
			to[key] = v
		}
	}
}

// Bill counts a set of build-ups, pieces of all places cut from one stock. It never
// fails: a place that cannot be counted says why.
func (k *Counter) Bill(items []Item) Bill {
	k.mu.Lock()
	defer k.mu.Unlock()
	m := &maker{items: items, a: k.a, c: k.c, kept: k}
	for i := range items {
		m.out.Places = append(m.out.Places, m.place(&items[i]))
	}
	m.lines()
	m.unused()
	m.goods()
	m.gear()
	m.money()
	return m.out
}

// Asked keeps what was asked for, each made once; several may ask at the same time.
type Asked[T any] struct {
	mu sync.Mutex
	of map[string]T
}

// Of gives what a name stands for.
func (x *Asked[T]) Of(name string, make func() T) T {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.of == nil {
		x.of = map[string]T{}
	}
	return kept(x.of, name, make)
}

// kept gives what is in a map, made once.
func kept[T any](in map[string]T, key string, make func() T) T {
	v, ok := in[key]
	if !ok {
		v = make()
		in[key] = v
	}
	return v
}

// name tells stacks of a place apart by what is counted of them.
func name(place string, a *candidate.Assessed) string {
	var b strings.Builder
	b.WriteString(place + "/" + a.Material.ID + "/" + a.Facing.OnBlanket)
	for _, l := range a.Layers {
		fmt.Fprintf(&b, "/%s,%t,%t", l.Product.ID, l.Across, l.OverChords)
	}
	return b.String()
}
