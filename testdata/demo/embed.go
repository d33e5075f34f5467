// Package demo carries the demo houses. They are invented, as are their names
// and prices; they are the houses the program shows and the tests plan.
package demo

import "embed"

//go:embed *.toml
var files embed.FS

// Default is the house that is planned when none is named.
const Default = "house-in-the-snow.toml"

// Names are all demo houses.
func Names() []string { return []string{Default, "house-on-stilts.toml", "house-by-the-water.toml"} }

// Text gives a demo house file, empty when there is none of that name.
func Text(name string) string {
	b, err := files.ReadFile(name)
	if err != nil {
		return ""
	}
	return string(b)
}
