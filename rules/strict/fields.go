package strict

import (
	"fmt"
	"reflect"
	"strings"
)

// field is one key of a struct and the way to its Go field.
type field struct {
	key      string
	index    []int
	required bool
}

// plan lists the keys of a struct type in the order of its fields, embedded
// ones included. As in Go the outer field wins over an embedded one of the
// same key.
func (w *walker) plan(t reflect.Type) []field {
	if fields, ok := w.plans[t]; ok {
		return fields
	}
	c := collector{depth: map[string]int{}, seen: map[reflect.Type]bool{}}
	c.collect(t, nil)
	if c.err != nil {
		w.fail(c.err)
	}
	w.plans[t] = c.fields
	return c.fields
}

type collector struct {
	fields []field
	depth  map[string]int // of each key found so far
	seen   map[reflect.Type]bool
	err    error
}

func (c *collector) collect(t reflect.Type, index []int) {
	if c.seen[t] { // a struct that embeds itself
		return
	}
	c.seen[t] = true
	defer delete(c.seen, t)
	for i := range t.NumField() {
		f := t.Field(i)
		name, options, _ := strings.Cut(f.Tag.Get("toml"), ",")
		at := append(append([]int(nil), index...), i)
		switch inner := embedded(f); {
		case name == "-":
		case name == "" && inner != nil:
			c.collect(inner, at)
		case !f.IsExported():
		default:
			if name == "" {
				name = f.Name
			}
			required := strings.Contains(","+options+",", ",required,")
			c.add(t, field{key: name, index: at, required: required})
		}
	}
}

// embedded gives the struct type whose fields f promotes, nil if it is an
// ordinary field. A hidden type behind a pointer cannot be filled at all.
func embedded(f reflect.StructField) reflect.Type {
	if !f.Anonymous {
		return nil
	}
	t := f.Type
	if t.Kind() == reflect.Pointer && f.IsExported() {
		t = t.Elem()
	}
	if t.Kind() != reflect.Struct || reflect.PointerTo(t).Implements(fromTOMLType) {
		return nil
	}
	return t
}

func (c *collector) add(t reflect.Type, f field) {
	depth, taken := c.depth[f.key]
	switch {
	case !taken:
		c.fields = append(c.fields, f)
	case depth == len(f.index):
		c.err = fmt.Errorf("%w: %v has two fields for the key %q", ErrTarget, t, f.key)
		return
	case depth < len(f.index):
		return
	default:
		for i := range c.fields {
			if c.fields[i].key == f.key {
				c.fields[i] = f
			}
		}
	}
	c.depth[f.key] = len(f.index)
}

// at goes to the field, making embedded pointers on the way.
func (f field) at(v reflect.Value) reflect.Value {
	for i, n := range f.index {
		if i > 0 && v.Kind() == reflect.Pointer {
			if v.IsNil() {
				v.Set(reflect.New(v.Type().Elem()))
			}
			v = v.Elem()
		}
		v = v.Field(n)
	}
	return v
}
