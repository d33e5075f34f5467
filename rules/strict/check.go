package strict

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"time"
)

// checker compares the values of a file with the types that are wanted.
type checker struct {
	tree     *Tree
	path     []any
	fields   map[reflect.Type][]field
	problems Problems
}

// checksItself is a type of text with values that are wrong: what is found and
// what would be right, both empty when nothing is.
type checksItself interface {
	Problem() (found, want string)
}

func (c *checker) report(found, want string) {
	c.problems = append(c.problems, c.tree.Problem(c.path, found, want))
}

// below runs a step with one more path element.
func (c *checker) below(element any, step func()) {
	c.path = append(c.path, element)
	step()
	c.path = c.path[:len(c.path)-1]
}

// key is the name of the value at the present path, of a list the list's.
func (c *checker) key() string {
	for _, p := range slices.Backward(c.path) {
		if name, ok := p.(string); ok {
			return name
		}
	}
	return ""
}

func (c *checker) table(t reflect.Type, table map[string]any) {
	fields, ok := c.fields[t]
	if !ok {
		fields = fieldsOf(t)
		c.fields[t] = fields
	}
	names := make([]string, len(fields))
	known := 0
	for i, f := range fields {
		names[i] = f.key
		v, ok := table[f.key]
		if ok {
			known++
		} else if !f.required {
			continue
		}
		c.below(f.key, func() { c.value(f.of, v) })
	}
	if known < len(table) {
		c.unknown(names)
	}
}

// unknown reports the keys of the present table that are not in names.
func (c *checker) unknown(names []string) {
	for _, key := range c.tree.Keys(c.path...) {
		if slices.Contains(names, key) || key == "" || badIn(key) >= 0 { // the last two Parse has refused
			continue
		}
		want := "another key"
		if len(c.problems) <= MaxProblems { // guessing is slow, and nobody will read more
			want = oneOf(key, names)
		}
		c.below(key, func() { c.report("a key that is not used here", want) })
	}
}

// value checks what is to fill a field, nil for one that is absent.
func (c *checker) value(t reflect.Type, v any) {
	if notNumber(v) {
		return // Parse has refused it
	}
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	ok := false
	switch t.Kind() {
	case reflect.Struct:
		var table map[string]any
		if table, ok = v.(map[string]any); ok {
			c.table(t, table)
		}
	case reflect.Slice, reflect.Array:
		ok = c.list(t, v)
	case reflect.Map:
		var table map[string]any
		table, ok = v.(map[string]any)
		for key, v := range table {
			c.below(key, func() { c.value(t.Elem(), v) })
		}
	case reflect.Interface:
		ok = v != nil
	default:
		ok = c.scalar(t, v)
	}
	if !ok {
		c.report(Describe(v), wantOf(t, c.key())+hint(t, v))
	}
}

func (c *checker) list(t reflect.Type, v any) bool {
	list := reflect.ValueOf(v)
	if list.Kind() != reflect.Slice {
		return false
	}
	if t.Kind() == reflect.Array && t.Len() != list.Len() {
		c.report(Describe(v), fmt.Sprintf("%d values", t.Len()))
		return true
	}
	for i := range list.Len() {
		c.below(i, func() { c.value(t.Elem(), list.Index(i).Interface()) })
	}
	return true
}

// exact is the largest whole number up to which a float holds every one, and
// the library's limit too.
const exact = 1<<53 - 1

// scalar checks a text, a yes or no, or a number. A whole number may be given
// for a float, but no fraction for a whole number.
func (c *checker) scalar(t reflect.Type, v any) bool {
	switch v := v.(type) {
	case string:
		if t.Kind() != reflect.String {
			return false
		}
		if own, is := reflect.ValueOf(v).Convert(t).Interface().(checksItself); is {
			if found, want := own.Problem(); found != "" {
				c.report(Cut(found), want)
			}
		}
		return true
	case bool:
		return t.Kind() == reflect.Bool
	case int64:
		low, high := limits(t)
		return v >= low && v <= high
	case float64:
		return t.Kind() == reflect.Float64
	}
	return false
}

// limits gives the whole numbers that a type holds: none, from 0 to -1, where
// it is no number.
func limits(t reflect.Type) (low, high int64) {
	switch t.Kind() {
	case reflect.Int:
		return math.MinInt, math.MaxInt
	case reflect.Float64:
		return -exact, exact
	}
	return 0, -1
}

// notNumber tells nan and the infinities, which are floats to the format.
func notNumber(v any) bool {
	f, ok := v.(float64)
	return ok && (math.IsNaN(f) || math.IsInf(f, 0))
}

// hint adds what people trip over: quote marks around what is no text, and
// numbers out of range.
func hint(t reflect.Type, v any) string {
	low, high := limits(t)
	number := low <= high
	switch v := v.(type) {
	case string:
		_, err := strconv.ParseFloat(strings.TrimSpace(v), 64)
		if number && err == nil || t.Kind() == reflect.Bool && (v == "true" || v == "false") {
			return ", without quote marks"
		}
	case int64:
		if number {
			return fmt.Sprintf(" from %d to %d", low, high)
		}
	}
	return ""
}

// Describe shows what was found in a file.
func Describe(v any) string {
	switch v := v.(type) {
	case nil:
		return "nothing"
	case string:
		return `"` + Cut(v) + `"`
	case float64:
		return strconv.FormatFloat(v, 'g', -1, 64)
	case time.Time:
		return "a date or time"
	case map[string]any:
		return "a table"
	case []map[string]any:
		return "tables [[ ]]"
	case []any:
		return fmt.Sprintf("a list of %s", count(len(v), "value"))
	}
	return Cut(fmt.Sprint(v)) // int64 and bool
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
