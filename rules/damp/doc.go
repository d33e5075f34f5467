// Package damp joins a place of a house with the hourly check of damp (package
// wetting): from a complete build-up and the house around it to the sections to
// run, and from what came out to a verdict with a name.
//
// It knows no kind of place and no material by name. A kind names the sections
// it is judged by, its layers what they are there (data/places.toml); sections,
// boards and covers stand in data/damp-places.toml, thresholds in data/damp.toml.
// What nobody said (board, cover, pitch) is tried in every way that is usual, and
// the worst counts.
//
// Judged are the sheathing's moisture (the skin that looks at the blanket) and
// the mold index at each plane of wood, paper or fiber from the room to the
// first face beyond the blanket that is not fiber. What lies farther out meets
// outdoor air whatever the blanket is, and is not judged.
//
// Not in it: rain, leaks of water, wet brick, what package wetting leaves out.
// A verdict is about damp from air alone.
package damp
