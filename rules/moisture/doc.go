// Package moisture works out whether water vapour collects inside a layered
// wall, floor or ceiling, month by month, and whether it leaves again within
// the year. The method is the monthly one of ISO 13788:2012 clause 6 (steps
// from memory, the string construction and the rates read in public course
// notes of DIN 4108-3).
//
// It takes numbers and returns numbers, in SI units named in the identifiers:
// C, Pa, m2K/W, sd in metres of still air (sd = thickness times the vapour
// resistance factor), g/m2. It reads nothing, keeps nothing between calls
// except the scratch arrays of a Workspace, and knows no material by name.
//
// What the method leaves out, and a caller has to say: air leaks (which carry
// far more water than vapour diffusion), rain, leaks, water rising in masonry,
// sun, and the water that fibers and wood can hold. A result without build-up
// is therefore no proof that the place stays dry.
package moisture
