package strict

import (
	"fmt"
	"reflect"
	"strings"
)

// unitNames puts the unit at the end of a key into words: it follows "a
// number". The longer ending stands first where one ends in another.
var unitNames = []struct{ ending, unit string }{
	{"_usd_ft2", " of dollars per square foot"},
	{"_kg_m3", " of kilograms per cubic meter"},
	{"_kg_m2", " of kilograms per square meter"},
	{"_g_m2", " of grams per square meter"},
	{"_mj_m2", " of megajoules per square meter"},
	{"_mj_kg", " of megajoules per kilogram"},
	{"_r_per_in", " of R per inch"},
	{"_ft2", " of square feet"},
	{"_ft", " of feet"},
	{"_per_in", ""},
	{"_in", " of inches"},
	{"_mm", " of millimeters"},
	{"_usd", " of dollars"},
	{"_cents", " of cents"},
	{"_lb", " of pounds"},
	{"_kg", " of kilograms"},
	{"_pa", " of pascals"},
	{"_c", " of degrees Celsius"},
	{"_f", " of degrees Fahrenheit"},
	{"_r", " (an R-value)"},
}

// numberOf says which number a key wants: a number of square feet.
func numberOf(key, number string) string {
	for _, u := range unitNames {
		if strings.HasSuffix(key, u.ending) {
			return number + u.unit
		}
	}
	return number
}

// wantOf says what a field accepts.
func wantOf(t reflect.Type, key string) string {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch k := t.Kind(); {
	case k == reflect.String:
		return "text between quote marks"
	case k == reflect.Bool:
		return "true or false"
	case k == reflect.Int:
		return numberOf(key, "a whole number")
	case k == reflect.Float64:
		return numberOf(key, "a number")
	case k == reflect.Slice || k == reflect.Array:
		return wantList(t, key)
	case k == reflect.Struct || k == reflect.Map:
		return fmt.Sprintf("a table: %s = { ... } or a line [%s]", partText(key), partText(key))
	}
	return "a value"
}

func wantList(t reflect.Type, key string) string {
	element := t.Elem()
	switch k := element.Kind(); {
	case k == reflect.Struct || k == reflect.Map:
		return fmt.Sprintf("tables: a line [[%s]] for each", partText(key))
	case k == reflect.Slice || k == reflect.Array:
		return "a list of lists: [ [ ... ], [ ... ] ]"
	case k == reflect.String:
		return `a list of texts: [ "...", "..." ]`
	case k == reflect.Interface:
		return "a list: [ ... ]"
	case t.Kind() == reflect.Array:
		return fmt.Sprintf("a list [ ... ] of %d values, each %s", t.Len(), wantOf(element, key))
	}
	return "a list [ ... ], each value " + wantOf(element, key)
}

// oneOf says which keys there are instead of an unknown one.
func oneOf(key string, names []string) string {
	const most = 12 // more than a person picks from
	if near := Nearest(key, names); near != "" {
		return "did you mean " + near + "?"
	}
	switch {
	case len(names) == 0:
		return "no keys here"
	case len(names) > most:
		return fmt.Sprintf("one of %s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return "one of " + strings.Join(names, ", ")
}
