package rules

// Hit is a rule that has something to say about the facts.
type Hit struct {
	Rule *Rule
	Text string // the reason with the facts filled in
	// Unknown names the facts that left the rule undecided: in Depends always,
	// in Safety when the rule fired because nobody ruled the danger out.
	Unknown []string
}

// AsksFirst reports whether something must be found out before anybody buys for
// the place or begins there: a danger that would stop it and that nobody has
// ruled out, or a doubt that holds it, known or not.
func (h Hit) AsksFirst() bool {
	return h.Rule.Effect.Stops && len(h.Unknown) > 0 || h.Rule.Effect.AsksFirst
}

// Need is something that must come with the candidate, and why.
type Need struct {
	Need, Value string
	Hit         Hit // the first rule that asks for it
}

// Verdict is what the rules say about one set of facts. Safety is ordered by
// severity, worst first, then id; everything else by Order, then id.
type Verdict struct {
	Excluded []Hit
	Safety   []Hit
	Install  []Hit
	For      []Hit // with the adjusts that raise a value and count
	Against  []Hit // with the adjusts that lower a value and count
	Depends  []Hit // rules that could fire, once the facts in Unknown are known
	// Adjust is the sum of the adjusts of each criterion, -1 to 1; nil or empty when none fired.
	Adjust  map[string]float64
	Require []Need // each need and value once
	// Stopped: a safety rule that stops the place's plan holds on known facts.
	Stopped bool
	// MayStop: such a rule fired, but only because facts are unknown.
	MayStop bool
}

// reset empties the verdict and keeps its memory.
func (v *Verdict) reset() {
	v.Excluded, v.Safety, v.Install = v.Excluded[:0], v.Safety[:0], v.Install[:0]
	v.For, v.Against, v.Depends = v.For[:0], v.Against[:0], v.Depends[:0]
	v.Require = v.Require[:0]
	clear(v.Adjust)
	v.Stopped, v.MayStop = false, false
}
