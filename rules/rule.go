package rules

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// EffectKind is what a rule does when it fires, spelled as in rule files.
type EffectKind string

// The kinds of effect.
const (
	Exclude EffectKind = "exclude" // the candidate is out; every reason is shown
	Adjust  EffectKind = "adjust"  // moves the value of one criterion before weighting
	Require EffectKind = "require" // something must come with the candidate
	Safety  EffectKind = "safety"  // a caution; fires on unknown facts
	Install EffectKind = "install" // a note for the work
	For     EffectKind = "for"     // a reason for the candidate
	Against EffectKind = "against" // a reason against it
)

// Effect is what a rule does when it fires. Each kind uses its own fields.
// Order sorts the hits of every kind but safety.
type Effect struct {
	Kind EffectKind `toml:"kind,required"`
	// Criterion of an adjust; of a reason for or against it may be empty.
	Criterion string  `toml:"criterion"`
	Delta     float64 `toml:"delta"` // of an adjust, -1 to 1, not 0
	// Group is the cause of an adjust: two of one criterion that share it are
	// never heard together, which is proved. Of an exclude it names the subject,
	// so that two excludes on different subjects are not taken for one.
	Group string `toml:"group"`
	// Need and NeedValue are what a require asks for: facing, baffle, ...; a
	// safety rule may name them too.
	Need      string `toml:"need"`
	NeedValue string `toml:"need_value"`
	Severity  int    `toml:"severity"`   // of safety, from 1, higher is worse
	Stops     bool   `toml:"stops"`      // of safety: a danger that leaves no plan for the place
	Spreads   bool   `toml:"spreads"`    // where it stops one place, a place that nobody looked at may have it too
	AsksFirst bool   `toml:"asks_first"` // of safety: something must be found out before the place is bought for or begun
	// SettleFirst, of safety: no reason to plan nothing, but put right, or
	// answered while nobody knows, before anybody begins at the place.
	SettleFirst bool `toml:"settle_first"`
	// Mind, of safety or require: it in a sentence that holds whether its facts are
	// known or not, for every paper that does not say it in full.
	Mind string `toml:"mind"`
	// HoldsStopped, of safety: it holds for whoever opens a place that is stopped.
	HoldsStopped bool   `toml:"holds_stopped"`
	Call         string `toml:"call"` // who must come when it stops the place, in words of the reason; empty when nobody licensed is needed
	Order        int    `toml:"order"`
}

// Rule fires when all of Where holds. Reason is for the builder and may name
// facts in braces, as in "wetted by {peak_g_m2}". Known says how the source is
// known (standard, secondary, practice, memory, invented). FiresOn and SilentOn
// are examples: cases in which it fires and in which it does not.
type Rule struct {
	ID       string `toml:"id,required"`
	Title    string `toml:"title,required"`
	Where    Where  `toml:"where,required"`
	Effect   Effect `toml:"effect,required"`
	Reason   string `toml:"reason,required"`
	Source   string `toml:"source"`
	Known    string `toml:"known"`
	FiresOn  []Case `toml:"fires_on"`
	SilentOn []Case `toml:"silent_on"`
}

// ready is a rule made ready for Eval.
type ready struct {
	tests  []test
	text   template
	safety bool
}

// prepare checks one rule on its own and makes it ready.
func (b *Book) prepare(r *Rule) (ready, Problems) {
	out := ready{safety: r.Effect.Kind == Safety}
	var all, some Problems
	out.tests, some = b.tests(r.Where)
	all.under(some, "where")
	if len(r.Where) == 0 {
		all.add("no condition", "one: a rule that always fires can have no example that stays silent", "where")
	}
	all.under(r.Effect.problems(), "effect")
	var found, want string
	if out.text, found, want = b.parse(r.Reason); found != "" {
		all.add(found, want, "reason")
	}
	if !strings.Contains(r.Reason, r.Effect.Call) {
		all.add("words that the reason does not say", "who to call as the reason says it", "effect", "call")
	}
	all.under(r.groundProblems())
	all.under(b.caseProblems(r.FiresOn), "fires_on")
	all.under(b.caseProblems(r.SilentOn), "silent_on")
	return out, all
}

// problems refuses parts that belong to another kind, because they would be
// dropped without a word.
func (e Effect) problems() Problems {
	var out Problems
	kinds := []EffectKind{Exclude, Adjust, Require, Safety, Install, For, Against}
	if !slices.Contains(kinds, e.Kind) {
		out.add(strconv.Quote(string(e.Kind)), "one of "+joined(kinds, func(k EffectKind) string { return strconv.Quote(string(k)) }), "kind")
		return out
	}
	is := func(kinds ...EffectKind) bool { return slices.Contains(kinds, e.Kind) }
	bad := func(wrong bool, key, found, want string) {
		if wrong {
			out.add(found, want, key)
		}
	}
	stray := func(given bool, key, want string) {
		bad(given, key, "it beside "+string(e.Kind), want)
	}
	bad(is(Adjust) && e.Criterion == "", "criterion", "none", "the criterion to adjust")
	bad(is(Adjust) && e.Group == "", "group", "none", "a name for the cause, which must not count twice")
	bad(is(Adjust) && (!finite(e.Delta) || math.Abs(e.Delta) > 1 || e.Delta == 0), "delta", fmt.Sprint(e.Delta), "-1 to 1 and not 0")
	bad(is(Require) && e.Need == "", "need", "none", "what is required")
	bad(is(Safety) && e.Severity < 1, "severity", fmt.Sprint(e.Severity), "1 or more")
	stray(e.Delta != 0 && !is(Adjust), "delta", "it with adjust only")
	stray(e.Group != "" && !is(Adjust, Exclude), "group", "it with adjust or exclude")
	stray(e.Criterion != "" && !is(Adjust, For, Against), "criterion", "it with adjust, for or against")
	stray(e.Need != "" && !is(Require, Safety, Install), "need", "it with require, safety or install")
	stray(e.NeedValue != "" && !is(Require, Safety), "need_value", "it with require or safety")
	stray(e.Severity != 0 && !is(Safety), "severity", "it with safety only")
	stray(e.Stops && !is(Safety), "stops", "it with safety only")
	stray(e.AsksFirst && !is(Safety), "asks_first", "it with safety only")
	bad(e.AsksFirst && e.Stops, "asks_first", "it beside stops", "one of the two: what stops a place asks first anyway")
	stray(e.SettleFirst && !is(Safety), "settle_first", "it with safety only")
	bad(e.SettleFirst && (e.Stops || e.AsksFirst), "settle_first", "it beside stops or asks_first", "one of the three")
	bad(e.Spreads && !e.Stops, "spreads", "it without stops", "it with what stops a place")
	stray(e.Mind != "" && !is(Safety, Require), "mind", "it with safety or require")
	bad(e.Mind != "" && (e.Stops || e.AsksFirst || e.SettleFirst), "mind", "it beside stops, asks_first or settle_first", "none: every paper says such a caution in full")
	stray(e.HoldsStopped && !is(Safety), "holds_stopped", "it with safety only")
	bad(e.Call != "" && !e.Stops, "call", "it without stops", "it with what stops a place")
	return out
}

// groundProblems asks for what the rule rests on, and for enough of it: what
// takes a choice away or warns of danger must not rest on memory alone.
func (r *Rule) groundProblems() Problems {
	var out Problems
	need := func(given bool, key, want string) {
		if !given {
			out.add("none", want, key)
		}
	}
	need(strings.TrimSpace(r.Source) != "", "source", "the id of a source")
	need(r.Known != "", "known", "how well it is known")
	need(len(r.FiresOn) > 0, "fires_on", `a case in which it fires, like { place = "attic" }`)
	need(len(r.SilentOn) > 0, "silent_on", `a case in which it stays silent, like { place = "attic" }`)
	hard := r.Effect.Kind == Exclude || r.Effect.Kind == Safety
	if hard && (r.Known == "memory" || r.Known == "invented") {
		out.add(strconv.Quote(r.Known)+" for what takes a choice away or warns", "a published ground, or practice", "known")
	}
	return out
}

// caseProblems checks that examples can be run; whether they come out as they
// say is proved.
func (b *Book) caseProblems(list []Case) Problems {
	var out Problems
	for i, x := range list {
		out.under(b.undeclared(x), i)
		for _, f := range b.facts {
			given, ok := x[f.Name]
			if !ok {
				continue
			}
			v, ok := valueOf(given)
			if _, fits := f.pack(v); !ok || !fits {
				out.add(Show(given), f.takes(), i, f.Name)
			}
		}
	}
	return out
}

// facts of an example; NewBook has checked that they fit.
func (x Case) facts(b *Book) *Facts {
	out := b.NewFacts()
	for name, given := range x {
		v, _ := valueOf(given)
		_ = out.Set(name, v)
	}
	return out
}
