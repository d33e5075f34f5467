package strict

import (
	"fmt"
	"reflect"
	"slices"
	"time"
)

// walker compares the values of a file with a struct and fills it.
type walker struct {
	tree     *Tree
	path     []any
	plans    map[reflect.Type][]field
	problems Problems
	target   error // the struct is at fault, not the file
}

func (w *walker) fail(err error) {
	if w.target == nil {
		w.target = err
	}
}

// bad reports that the value at the present path is not what is wanted.
func (w *walker) bad(v any, want string) {
	w.problems = append(w.problems, w.tree.problem(w.path, describe(v), want))
}

// below runs a step with one more path element.
func (w *walker) below(element any, step func()) {
	w.path = append(w.path, element)
	step()
	w.path = w.path[:len(w.path)-1]
}

// key is the name of the value at the present path, of a list the list's.
func (w *walker) key() string {
	for _, p := range slices.Backward(w.path) {
		if name, ok := p.(string); ok {
			return name
		}
	}
	return ""
}

func (w *walker) table(dst reflect.Value, table map[string]any) {
	fields := w.plan(dst.Type())
	names := make([]string, len(fields))
	known := 0
	for i, f := range fields {
		names[i] = f.key
		v, ok := table[f.key]
		if !ok && !f.required {
			continue
		}
		if ok {
			known++
		}
		w.below(f.key, func() {
			if ok {
				w.value(f.at(dst), v)
			} else {
				w.bad(nil, wantOf(dst.Type().FieldByIndex(f.index).Type, f.key))
			}
		})
	}
	if known < len(table) {
		w.unknown(names)
	}
}

// unknown reports the keys of the present table that are not in names.
func (w *walker) unknown(names []string) {
	for _, key := range w.tree.Keys(w.path...) {
		if slices.Contains(names, key) || key == "" || badIn(key) >= 0 { // the last two Parse has refused
			continue
		}
		want := "another key"
		if len(w.problems) <= MaxProblems { // guessing is slow, and nobody will read more
			want = oneOf(key, names)
		}
		w.below(key, func() {
			w.problems = append(w.problems, w.tree.problem(w.path, "a key that is not used here", want))
		})
	}
}

// value fills one field.
func (w *walker) value(dst reflect.Value, v any) {
	if notNumber(v) {
		return // Parse has refused it
	}
	if dst.Kind() == reflect.Pointer {
		if dst.IsNil() {
			dst.Set(reflect.New(dst.Type().Elem()))
		}
		w.value(dst.Elem(), v)
		return
	}
	if own, ok := dst.Addr().Interface().(fromTOML); ok {
		if err := own.FromTOML(v); err != nil {
			w.bad(v, cutTo(err.Error(), 5*shown))
		}
		return
	}
	switch dst.Kind() {
	case reflect.Struct:
		w.structure(dst, v)
	case reflect.Slice, reflect.Array:
		w.list(dst, v)
	case reflect.Map:
		w.mapping(dst, v)
	case reflect.Interface:
		if dst.NumMethod() > 0 {
			w.fail(fmt.Errorf("%w: %v", ErrTarget, dst.Type()))
			return
		}
		dst.Set(reflect.ValueOf(v))
	default:
		w.scalar(dst, v)
	}
}

func (w *walker) structure(dst reflect.Value, v any) {
	if dst.Type() == reflect.TypeFor[time.Time]() {
		if t, ok := v.(time.Time); ok {
			// By way of its text, as the library does it: without the names
			// that the library gives to times of no zone.
			text, err := t.MarshalText()
			if own, isTime := dst.Addr().Interface().(*time.Time); err == nil && isTime && own.UnmarshalText(text) == nil {
				return
			}
		}
	} else if table, ok := v.(map[string]any); ok {
		w.table(dst, table)
		return
	}
	w.bad(v, wantOf(dst.Type(), w.key()))
}

func (w *walker) list(dst reflect.Value, v any) {
	list := reflect.ValueOf(v)
	if list.Kind() != reflect.Slice {
		w.bad(v, wantOf(dst.Type(), w.key()))
		return
	}
	n := list.Len()
	if dst.Kind() == reflect.Slice {
		dst.Set(reflect.MakeSlice(dst.Type(), n, n))
	} else if dst.Len() != n {
		w.bad(v, fmt.Sprintf("%d values", dst.Len()))
		return
	}
	for i := range n {
		w.below(i, func() { w.value(dst.Index(i), list.Index(i).Interface()) })
	}
}

func (w *walker) mapping(dst reflect.Value, v any) {
	t := dst.Type()
	if t.Key().Kind() != reflect.String {
		w.fail(fmt.Errorf("%w: %v", ErrTarget, t))
		return
	}
	table, ok := v.(map[string]any)
	if !ok {
		w.bad(v, wantOf(t, w.key()))
		return
	}
	if dst.IsNil() {
		dst.Set(reflect.MakeMapWithSize(t, len(table)))
	}
	for key, v := range table {
		w.below(key, func() {
			element := reflect.New(t.Elem()).Elem()
			w.value(element, v)
			dst.SetMapIndex(reflect.ValueOf(key).Convert(t.Key()), element)
		})
	}
}
