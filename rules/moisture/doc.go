// Package moisture tells the water vapor in air: what saturated air holds, and
// the air of rooms that are kept in one way or another (ISO 13788:2012, Annexes
// A and E).
//
// It takes numbers and returns numbers, in SI units named in the identifiers:
// C, Pa, g/m3, humidity as a share. It reads nothing and keeps nothing.
package moisture
