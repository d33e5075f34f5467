// Package strict reads every TOML file of the program: the house files people
// write, the overlays they lay over the data, and the data itself.
//
// The library that decodes stops at the first value of a wrong type, names the
// last element of an array whichever was wrong, and takes AREA for area. A
// person who mends a file wants every mistake at once, each with its own line.
// So one library reads the text into plain maps, the parser of another notes
// where every key stands, and a check compares the maps with the struct that
// is wanted, before the first library fills it. agree_test.go holds the two to
// the same keys and values.
//
// The package also owns the one definition of a character that may not reach a
// terminal, since the text in these files is shown on one.
//
// Nothing here reads or writes a file, and nothing panics on bad text.
package strict
