// Package budget chooses one option for every place of a house within an
// amount of money, where much is bought by the package for all places together, and
// gives the odds that rough prices hold.
//
// Numbers in, numbers out: no files, no clock, no randomness. Costs are whole
// cents; values are points on any scale the caller likes, counted to nine
// decimals. Both are added as whole numbers inside, so an answer never hangs
// on the order of an addition: the same places give the same answer, and
// putting the places in another order gives the same cost and value.
//
// The choice is the multiple-choice knapsack problem (Kellerer, Pferschy and
// Pisinger, Knapsack Problems, 2004, ch. 11; from memory). It is solved
// exactly: place by place, keeping every set that no cheaper set matches in
// value. Where that would take too much, costs are counted in whole dollars.
// Packages bought whole make it more than that: BestPooled searches from its
// answer, with its bound.
//
// Ties are settled the same way everywhere: more value, then less money, then
// the option ids in the order of the places, compared as text.
package budget
