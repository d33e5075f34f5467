// Package strict reads every TOML file of the program: the house files people
// write, the overlays they lay over the data, and the data itself.
//
// The TOML library stops at the first value of a wrong type, names the last
// element of an array whichever was wrong, and takes AREA for area. A person
// who mends a file wants every mistake at once, each with its own line. So the
// library turns the text into plain maps, a scan of our own notes the line of
// every key, and a walk compares the maps with the struct that is wanted.
//
// The package also owns the one definition of a character that may not reach a
// terminal, since the text in these files is shown on one.
//
// Nothing here reads or writes a file, and nothing panics on bad text.
package strict
