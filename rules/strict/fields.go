package strict

import (
	"reflect"
	"strings"
)

// field is one key of a struct.
type field struct {
	key      string
	of       reflect.Type
	required bool
}

// fieldsOf lists the keys of a struct type in the order of its fields, those
// of embedded structs included.
func fieldsOf(t reflect.Type) (fields []field) {
	for _, f := range reflect.VisibleFields(t) {
		name, options, _ := strings.Cut(f.Tag.Get("toml"), ",")
		if f.Anonymous && name == "" || !f.IsExported() || name == "-" {
			continue
		}
		if name == "" {
			name = f.Name
		}
		fields = append(fields, field{name, f.Type, options == "required"})
	}
	return fields
}
