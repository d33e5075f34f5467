package strict

import (
	"errors"
	"fmt"
	"reflect"

	"github.com/BurntSushi/toml"
)

// ErrTarget is wrapped when what is to be filled is nothing a file can fill: a
// mistake in the program, not in the file.
var ErrTarget = errors.New("strict: cannot decode into this")

// fromTOML is a type that reads its own value. The text of the error is the
// Want of the problem: say what would be right.
type fromTOML interface{ FromTOML(v any) error }

// Decode reads TOML text into the struct that v points to and reports every
// mistake at once: what Parse refuses, keys the struct does not have (the case
// of letters counts), values of a wrong type or beyond the range of the
// field, lists of a wrong length, required keys that are absent.
//
// A field is filled by the key in its tag, `toml:"key"`, without a tag by the
// key that is its Go name; `toml:"key,required"` must be present, `toml:"-"`
// is never filled. Fields of embedded structs without a tag belong to the
// struct around them. Fields may be strings, bools, ints and floats of any
// size, time.Time, structs, slices, arrays, maps with string keys, pointers to
// these, any (filled with the values Tree.Get describes), and types with a
// method FromTOML(any) error. A text, number or truth of a type with a method
// Problem() (found, want string) is asked whether it is right. A whole number
// may be given for a float, but no fraction for an int.
//
// The error is nil, Problems in the order of the lines, or, for a v that no
// file could fill, ErrTarget. After an error what v holds is of no use; keys
// that are absent leave it as it was. Lines holds the lines of the file
// whenever it is TOML.
func Decode(file, text string, v any) (Lines, error) {
	target, err := structOf(v)
	if err != nil {
		return Lines{}, err
	}
	tree, problems := Parse(file, text)
	if tree.values == nil {
		return Lines{tree}, problems.orNil()
	}
	w := &walker{tree: tree, plans: map[reflect.Type][]field{}}
	w.table(target, tree.values)
	if w.target != nil {
		return Lines{tree}, w.target
	}
	return Lines{tree}, append(problems, w.problems...).tidy().orNil()
}

// DecodePlain reads text that the tests have already read strictly, such as
// the embedded data: into the same values, without the scan and the walk, and
// with the library's own idea of errors.
func DecodePlain(text string, v any) error {
	if target, err := structOf(v); err != nil {
		return err
	} else if readsItself(target.Type(), map[reflect.Type]bool{}) {
		_, err := Decode("data", text, v) // the library knows no FromTOML
		return err
	}
	_, err := toml.Decode(plainText(text), v)
	return err
}

func structOf(v any) (reflect.Value, error) {
	p := reflect.ValueOf(v)
	if p.Kind() != reflect.Pointer || p.IsNil() || p.Elem().Kind() != reflect.Struct {
		return reflect.Value{}, fmt.Errorf("%w: want a pointer to a struct, have %T", ErrTarget, v)
	}
	return p.Elem(), nil
}

var fromTOMLType = reflect.TypeFor[fromTOML]()

// readsItself reports whether a value of the type is or holds one with its own
// FromTOML.
func readsItself(t reflect.Type, seen map[reflect.Type]bool) bool {
	if seen[t] {
		return false
	}
	seen[t] = true
	if t.Implements(fromTOMLType) || reflect.PointerTo(t).Implements(fromTOMLType) {
		return true
	}
	switch t.Kind() {
	case reflect.Pointer, reflect.Slice, reflect.Array, reflect.Map:
		return readsItself(t.Elem(), seen)
	case reflect.Struct:
		for i := range t.NumField() {
			if readsItself(t.Field(i).Type, seen) {
				return true
			}
		}
	}
	return false
}
