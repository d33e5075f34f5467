// Package rules is the rule engine: declared facts, rules whose conditions ask
// something of single facts, a verdict for one set of facts, and proofs about
// all sets of facts at once.
//
// Because a condition asks each fact by itself and all of it must hold, the
// facts for which a rule fires form a box: one set of values per fact.
// Containment, overlap and "these boxes cover that one" can be decided exactly
// for boxes, which is why there is no expression language and no "or": write
// two rules.
//
// Unknown is one more value. A test on an unknown fact is undecided, and a
// rule with no false test and at least one undecided test does nothing except
// say what it depends on; a safety rule speaks up instead, because silence
// about a danger nobody ruled out is the worse mistake. A conjunction with
// unknowns follows Kleene's strong three-valued logic.
//
// The package does no input or output, holds no state and never panics on bad
// input; a Book does not change after NewBook and may be shared by goroutines.
package rules
