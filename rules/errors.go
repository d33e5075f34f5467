package rules

import "errors"

// Sentinel errors; each is wrapped with the rule, the fact and the value that
// caused it. NewBook joins all of them.
var (
	// ErrDeclaration: a fact is declared badly (no name, twice, no values, no range).
	ErrDeclaration = errors.New("fact declared badly")
	// ErrUnknownFact: a name that is not a declared fact.
	ErrUnknownFact = errors.New("no such fact")
	// ErrValue: a value of the wrong type, not among the listed ones, or out of range.
	ErrValue = errors.New("value does not fit the fact")
	// ErrCondition: an operator that does not go with the type of the fact, or none at all.
	ErrCondition = errors.New("condition does not fit the fact")
	// ErrEffect: an effect that lacks a part, has a part of another kind, or is out of range.
	ErrEffect = errors.New("effect not accepted")
	// ErrID: an id that is empty or used twice.
	ErrID = errors.New("id not accepted")
	// ErrGround: a rule without a source, or one too weak for what the rule does.
	ErrGround = errors.New("ground not accepted")
	// ErrReason: no reason, or one that names a fact that is not declared.
	ErrReason = errors.New("reason not accepted")
	// ErrExample: a rule without an example that fires or one that does not.
	ErrExample = errors.New("examples not accepted")
	// ErrOverride: a rule overrides one that does not exist, must not be silenced, or overrides it back.
	ErrOverride = errors.New("override not accepted")
)
