// Package rank turns what each option is worth under each priority into an
// order, and says how firm that order is. Numbers go in and numbers come out:
// no files, no clock, no wording beyond the strength word; the one draw, of
// weightings, begins with the same seed every time.
//
// The method is the additive value model (Goodwin & Wright, Decision Analysis
// for Management Judgment, ch. 3): an option's score is 100 times the sum of
// weight times value, with every value measured on a fixed scale. Fixed
// scales, rather than the best and worst of today's options, are what keeps an
// option that never wins from turning the order of the others.
//
// The additive form fails where one priority's worth depends on another's
// level, and it would let a low price buy back a danger. Both belong to the
// rules that run before this package: an excluded option is never scored.
//
// Conventions shared by everything here: a priority is named by its place in
// the weights (0 first); values run from 0 (worst) to 1 (best); weights are
// not negative and add up to 1; scores and their parts are in points of 100;
// shares run from 0 to 1.
package rank
