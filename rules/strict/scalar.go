package strict

import (
	"fmt"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"
)

// checksItself is a type of text, number or truth with values that are wrong:
// what is found and what would be right, both empty when nothing is.
type checksItself interface {
	Problem() (found, want string)
}

// scalar fills a text, a yes or no, or a number.
func (w *walker) scalar(dst reflect.Value, v any) {
	ok := false
	switch {
	case dst.Kind() == reflect.String:
		ok = setText(dst, v)
	case dst.Kind() == reflect.Bool:
		var b bool
		if b, ok = v.(bool); ok {
			dst.SetBool(b)
		}
	case dst.CanInt():
		ok = setInt(dst, v)
	case dst.CanUint():
		ok = setUint(dst, v)
	case dst.CanFloat():
		ok = setFloat(dst, v)
	default:
		w.fail(fmt.Errorf("%w: %v", ErrTarget, dst.Type()))
		return
	}
	if !ok {
		w.bad(v, wantOf(dst.Type(), w.key())+hint(dst, v))
		return
	}
	if own, is := dst.Interface().(checksItself); is {
		if found, want := own.Problem(); found != "" {
			w.problems = append(w.problems, w.tree.problem(w.path, cut(found), want))
		}
	}
}

func setText(dst reflect.Value, v any) bool {
	s, ok := v.(string)
	if ok {
		dst.SetString(s)
	}
	return ok
}

func setInt(dst reflect.Value, v any) bool {
	n, ok := v.(int64)
	if !ok || dst.OverflowInt(n) {
		return false
	}
	dst.SetInt(n)
	return true
}

func setUint(dst reflect.Value, v any) bool {
	n, ok := v.(int64)
	if !ok || n < 0 || dst.OverflowUint(uint64(n)) {
		return false
	}
	dst.SetUint(uint64(n))
	return true
}

// exact is the largest whole number up to which a float holds every one, and
// the library's limit too.
var exact = map[reflect.Kind]int64{reflect.Float32: 1<<24 - 1, reflect.Float64: 1<<53 - 1}

func setFloat(dst reflect.Value, v any) bool {
	switch n := v.(type) {
	case int64:
		limit := exact[dst.Kind()]
		if n < -limit || n > limit {
			return false
		}
		dst.SetFloat(float64(n))
		return true
	case float64:
		if dst.OverflowFloat(n) {
			return false
		}
		dst.SetFloat(n)
		return true
	}
	return false
}

// notNumber tells nan and the infinities, which are floats to the format.
func notNumber(v any) bool {
	f, ok := v.(float64)
	return ok && (math.IsNaN(f) || math.IsInf(f, 0))
}

// hint adds what people trip over: quote marks around what is no text, and
// numbers out of range.
func hint(dst reflect.Value, v any) string {
	switch v := v.(type) {
	case string:
		_, err := strconv.ParseFloat(strings.TrimSpace(v), 64)
		number := err == nil && (dst.CanInt() || dst.CanUint() || dst.CanFloat())
		truth := dst.Kind() == reflect.Bool && (v == "true" || v == "false")
		if number || truth {
			return ", without quote marks"
		}
	case int64:
		if low, high, ok := limits(dst.Kind()); ok {
			return fmt.Sprintf(" from %d to %d", low, high)
		}
	}
	return ""
}

// limits gives the whole numbers that a kind holds.
func limits(k reflect.Kind) (low int64, high uint64, ok bool) {
	bits := map[reflect.Kind]int{
		reflect.Int8: 8, reflect.Int16: 16, reflect.Int32: 32, reflect.Int: strconv.IntSize, reflect.Int64: 64,
		reflect.Uint8: 8, reflect.Uint16: 16, reflect.Uint32: 32, reflect.Uint: strconv.IntSize, reflect.Uint64: 64,
	}[k]
	switch {
	case bits == 0:
		n, isFloat := exact[k]
		return -n, uint64(n), isFloat
	case k >= reflect.Uint:
		return 0, math.MaxUint64 >> (64 - bits), true
	}
	return math.MinInt64 >> (64 - bits), math.MaxInt64 >> (64 - bits), true
}

// describe shows what was found.
func describe(v any) string {
	switch v := v.(type) {
	case nil:
		return "nothing"
	case string:
		return `"` + cut(v) + `"`
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
	return cut(fmt.Sprint(v)) // int64 and bool
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
