// Package wetting follows heat and moisture through a wall, floor or roof hour
// by hour: how wet wood gets, whether mold grows at a plane, and whether it all
// dries again, with storage, liquid water, sun and night sky, vented cavities,
// leaking air, soil, attics, layers whose permeance follows humidity.
//
// Numbers in, numbers out, in SI units named in the identifiers. It reads
// nothing, keeps nothing between runs, and knows no material by name. Steps
// allocate nothing.
//
// The balance (EN 15026, from memory; it agrees with the inputs of its
// benchmark as read):
//
//	dw/dt = d/dx(delta dp/dx + Dw dw/dx) + S                      kg/(m3 s)
//	(rho c + w cw) dT/dt = d/dx(lambda dT/dx) + Lv (dw/dt - liquid) + Q   W/m3
//
// Unknowns of each cell are the temperature and u = RH + water/ref (table.go).
// A step is backward Euler, both unknowns of all cells at once by Newton's
// method with tables of straight pieces (step.go). What a step leaves unsettled
// is carried into the next, so water and heat are kept to rounding.
//
// A verdict calls Run with the empty Course: the typical year twice, the first
// time in steps of 3 hours, the second, in steps of an hour, judged; the mold
// index counts through both. Everything it rests on that is not physics is in
// data/damp.toml and was frozen, with the films below, on the 29th of November
// 2026 before any wall, roof or attic with a known outcome was run; since then
// only cells and numerics were changed, and how tests describe a case. Cases
// that miss are printed as misses by the tests.
//
// A leak brings vapor to one plane, where it only wets: moving air inside the
// fiber is not followed. A vented attic is a layer of air whose leak goes both
// ways. A wall below grade meets Soil. Each surface of a house is a run of its
// own; share the hours of a face between them.
//
// What it leaves out, and a caller has to say: rain, leaks of water, the salt
// and the age of materials, air that moves inside a layer, a second dimension
// (studs, plates, corners), the heat of freezing. Above saturation over ice no
// vapor pressure is possible here, although sensors and weather stations tell
// humidity over water.
package wetting
