package rules

// EffectKind is what a rule does when it fires, spelled as in rule files.
type EffectKind string

// The kinds of effect.
const (
	Exclude EffectKind = "exclude" // the candidate is out; every reason is shown
	Adjust  EffectKind = "adjust"  // moves the value of one criterion before weighting
	Require EffectKind = "require" // something must come with the candidate
	Safety  EffectKind = "safety"  // a caution; fires on unknown facts, cannot be silenced
	Install EffectKind = "install" // a note for the work
	For     EffectKind = "for"     // a reason for the candidate
	Against EffectKind = "against" // a reason against it
)

// NeedNoOption, as the Need of a require rule, says that no blanket is the
// answer. Coverage accepts it where every material is excluded.
const NeedNoOption = "no_option"

// Effect is what a rule does when it fires. Each kind uses its own fields:
//
//	adjust       Criterion, Delta (-1 to 1, not 0), Group
//	require      Need, NeedValue; a safety rule may name them too
//	safety       Severity (from 1, higher is worse), Stops, Call, Spreads, AsksFirst, SettleFirst
//	for, against Criterion, may be empty
//	exclude      Group, may be empty: names the subject, so that two excludes
//	             on different subjects are not taken for one
//
// Order sorts the hits of every kind but safety.
type Effect struct {
	Kind      EffectKind
	Criterion string
	Delta     float64
	Group     string // of all adjusts of a criterion in one group only the strongest counts
	Need      string // facing, retarder, ground_cover, baffle, ...
	NeedValue string
	Severity  int
	Stops     bool // a danger that leaves no plan for the place
	Spreads   bool // where it stops one place, a place that nobody looked at may have it too
	AsksFirst bool // something must be found out before the place is bought for or begun
	// SettleFirst: no reason to plan nothing, but put right, or answered while
	// nobody knows, before anybody begins at the place.
	SettleFirst bool
	Call        string // who must come when it stops the place, in words of the reason; empty when nobody licensed is needed
	Order       int
}

// Example is a case a rule carries with it; facts that are left out are unknown.
type Example struct {
	Facts map[string]Value
	Fires bool
}

// Rule fires when all of its atoms are true. Reason is for the builder and may
// name facts in braces, as in "wetted by {peak_g_m2}". Known says how the
// source is known (standard, secondary, practice, memory, invented).
//
// Overrides names rules that this one silences whenever its own condition
// holds; excludes and safety rules cannot be silenced.
type Rule struct {
	ID, Title string
	When      []Atom
	Effect    Effect
	Reason    string
	Source    string
	Known     string
	Overrides []string
	Examples  []Example
}
