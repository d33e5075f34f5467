package strict

import (
	"reflect"

	"github.com/pelletier/go-toml/v2"
)

// Decode reads TOML text into the struct that v points to and reports every
// mistake at once: what Parse refuses, keys the struct does not have (the case
// of letters counts), values of a wrong type or beyond the range of the
// field, lists of a wrong length, required keys that are absent.
//
// A field is filled by the key in its tag, `toml:"key"`, without a tag by the
// key that is its Go name; `toml:"key,required"` must be present, `toml:"-"`
// is never filled. Fields of embedded structs without a tag belong to the
// struct around them. Fields may be texts, bools, ints and float64s, structs,
// slices, arrays, maps with text keys, pointers to these, and any (filled with
// the values Tree.Get describes). A text of a type with a method Problem()
// (found, want string) is asked whether it is right. A whole number may be
// given for a float, but no fraction for an int.
//
// The error is nil or Problems in the order of the lines, and then v is as it
// was; so is what absent keys would fill. The tree knows the lines of the file
// whenever it is TOML.
func Decode(file, text string, v any) (*Tree, error) {
	tree, problems := Parse(file, text)
	if tree.values != nil {
		c := &checker{tree: tree, fields: map[reflect.Type][]field{}}
		c.table(reflect.TypeOf(v).Elem(), tree.values)
		problems = append(problems, c.problems...).tidy()
	}
	if len(problems) > 0 {
		return tree, problems
	}
	return tree, DecodePlain(text, v)
}

// DecodePlain fills v from text that was read strictly before, here or, as the
// embedded data is, in the tests. Of the two libraries this takes the quicker;
// agree_test.go holds them to the same values.
func DecodePlain(text string, v any) error {
	return toml.Unmarshal([]byte(plainText(text)), v)
}
