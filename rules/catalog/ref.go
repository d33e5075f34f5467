// Package catalog holds the typed records of data/: what the trade knows, with
// where each figure is from. It knows no house.
package catalog

// Known says how well a figure is known. One vocabulary for every data file.
type Known string

// The marks of data/, from best to weakest.
const (
	Standard  Known = "standard"  // published and read
	Secondary Known = "secondary" // read in a weaker page
	Practice  Known = "practice"  // common practice, no source
	Memory    Known = "memory"    // from memory, not yet checked
	Invented  Known = "invented"  // demonstration data
)

// Valid reports whether k is one of the marks.
func (k Known) Valid() bool {
	switch k {
	case Standard, Secondary, Practice, Memory, Invented:
		return true
	}
	return false
}

// Ref says where a record's figures are from: the id of a source in
// sources.toml and how well they are known.
type Ref struct {
	Source string `toml:"source"`
	Known  Known  `toml:"known"`
}
