package catalog

import (
	"errors"
	"fmt"

	"battwright/rules"
	"battwright/rules/units"
)

// FactRecord declares a fact that rules may ask about.
type FactRecord struct {
	Name   string   `toml:"name,required"`
	Type   string   `toml:"type,required"`
	Unit   string   `toml:"unit"`
	Values []string `toml:"values"`
	Min    float64  `toml:"min"`
	Max    float64  `toml:"max"`
	From   string   `toml:"from,required"`
}

// AtomRecord is one condition on one fact.
type AtomRecord struct {
	Fact  string `toml:"fact,required"`
	Op    string `toml:"op,required"`
	Value any    `toml:"value,required"`
}

// EffectRecord is what a rule does when it fires.
type EffectRecord struct {
	Kind        string      `toml:"kind,required"`
	Criterion   string      `toml:"criterion"`
	Delta       float64     `toml:"delta"`
	Group       string      `toml:"group"`
	Need        string      `toml:"need"`
	NeedValue   units.Prose `toml:"need_value"`
	Severity    int         `toml:"severity"`
	Stops       bool        `toml:"stops"`
	Spreads     bool        `toml:"spreads"`
	AsksFirst   bool        `toml:"asks_first"`
	SettleFirst bool        `toml:"settle_first"`
	Call        string      `toml:"call"`
	Order       int         `toml:"order"`
}

// ExampleRecord is a case a rule carries with it.
type ExampleRecord struct {
	Facts map[string]any `toml:"facts,required"`
	Fires bool           `toml:"fires"`
}

// Reason is why a rule fires. Like a units.Prose it may hold figures in braces,
// which begin with a digit or R-, and the names of facts.
type Reason string

// Problem looks at the figures; the book looks at the facts.
func (r Reason) Problem() (found, want string) {
	for _, body := range rules.FiguresIn(string(r)) {
		if want := units.FigureProblem(body); want != "" {
			return "{" + body + "}", want
		}
	}
	return "", ""
}

// RuleRecord is one rule as written in data/.
type RuleRecord struct {
	ID        string          `toml:"id,required"`
	Title     string          `toml:"title,required"`
	Remove    bool            `toml:"remove"`
	When      []AtomRecord    `toml:"when,required"`
	Effect    EffectRecord    `toml:"effect,required"`
	Reason    Reason          `toml:"reason,required"`
	IfUnknown units.Prose     `toml:"if_unknown"` // what a caution says while its facts are unknown
	Overrides []string        `toml:"overrides"`
	Examples  []ExampleRecord `toml:"example"`
	Ref
}

// ObligationRecord is something the book must always do in a region.
type ObligationRecord struct {
	ID     string       `toml:"id,required"`
	Remove bool         `toml:"remove"`
	When   []AtomRecord `toml:"when,required"`
	Effect string       `toml:"effect,required"`
	Rule   string       `toml:"rule"` // id or the beginning of one; empty means any
}

func (r RuleRecord) safety() bool { return r.Effect.Kind == "safety" || r.Effect.Kind == "exclude" }

func (f FactRecord) fact() (rules.Fact, error) {
	out := rules.Fact{Name: f.Name, Unit: f.Unit, Values: f.Values, Min: f.Min, Max: f.Max, From: f.From}
	switch f.Type {
	case "enum":
		out.Type = rules.Enum
	case "bool":
		out.Type = rules.Boolean
	case "number":
		out.Type = rules.Numeric
	default:
		return out, fmt.Errorf("fact %s: type %q; want enum, bool or number", f.Name, f.Type)
	}
	return out, nil
}

func (a AtomRecord) atom() (rules.Atom, error) {
	out := rules.Atom{Fact: a.Fact, Op: rules.Op(a.Op)}
	bad := func() (rules.Atom, error) {
		return out, fmt.Errorf("condition on %s: op %q does not go with %v", a.Fact, a.Op, a.Value)
	}
	switch v := a.Value.(type) {
	case string:
		out.Values = []string{v}
	case bool:
		out.Bool = v
	case int64:
		out.Num = float64(v)
	case float64:
		out.Num = v
	case []any:
		return listAtom(out, v, bad)
	default:
		return bad()
	}
	return out, nil
}

func listAtom(out rules.Atom, list []any, bad func() (rules.Atom, error)) (rules.Atom, error) {
	var nums []float64
	for _, e := range list {
		switch v := e.(type) {
		case string:
			out.Values = append(out.Values, v)
		case int64:
			nums = append(nums, float64(v))
		case float64:
			nums = append(nums, v)
		default:
			return bad()
		}
	}
	switch {
	case len(nums) == 2 && len(out.Values) == 0:
		out.Num, out.Num2 = nums[0], nums[1]
	case len(nums) != 0:
		return bad()
	}
	return out, nil
}

func atoms(records []AtomRecord) ([]rules.Atom, error) {
	var out []rules.Atom
	var errs []error
	for _, r := range records {
		a, err := r.atom()
		errs = append(errs, err)
		out = append(out, a)
	}
	return out, errors.Join(errs...)
}

func factValue(v any) rules.Value {
	switch v := v.(type) {
	case string:
		if v == "unknown" {
			return rules.Unknown()
		}
		return rules.Text(v)
	case bool:
		return rules.Bool(v)
	case int64:
		return rules.Number(float64(v))
	case float64:
		return rules.Number(v)
	}
	return rules.Unknown()
}

func (r RuleRecord) rule() (rules.Rule, error) {
	when, err := atoms(r.When)
	if err != nil {
		return rules.Rule{}, fmt.Errorf("rule %s: %w", r.ID, err)
	}
	if found, want := r.Reason.Problem(); found != "" {
		return rules.Rule{}, fmt.Errorf("rule %s: reason: found %s; want %s", r.ID, found, want)
	}
	e := r.Effect
	out := rules.Rule{
		ID: r.ID, Title: r.Title, When: when, Reason: string(r.Reason), Source: r.Source, Known: string(r.Known), Overrides: r.Overrides,
		Effect: rules.Effect{
			Kind: rules.EffectKind(e.Kind), Criterion: e.Criterion, Delta: e.Delta, Group: e.Group,
			Need: e.Need, NeedValue: string(e.NeedValue), Severity: e.Severity, Stops: e.Stops, Spreads: e.Spreads, AsksFirst: e.AsksFirst, SettleFirst: e.SettleFirst, Call: e.Call, Order: e.Order,
		},
	}
	for _, x := range r.Examples {
		facts := map[string]rules.Value{}
		for k, v := range x.Facts {
			facts[k] = factValue(v)
		}
		out.Examples = append(out.Examples, rules.Example{Facts: facts, Fires: x.Fires})
	}
	return out, nil
}

// buildBook turns the records into the engine's book with every problem found.
func buildBook(r *records) (*rules.Book, []rules.Obligation, error) {
	var errs []error
	var facts []rules.Fact
	for _, f := range r.Facts {
		fact, err := f.fact()
		errs = append(errs, err)
		facts = append(facts, fact)
	}
	var rs []rules.Rule
	for _, record := range r.Rules {
		rule, err := record.rule()
		if err != nil {
			errs = append(errs, err)
			continue
		}
		rs = append(rs, rule)
	}
	var duties []rules.Obligation
	for _, o := range r.Obligations {
		when, err := atoms(o.When)
		if err != nil {
			errs = append(errs, fmt.Errorf("obligation %s: %w", o.ID, err))
			continue
		}
		duties = append(duties, rules.Obligation{ID: o.ID, When: when, NeedEffect: rules.EffectKind(o.Effect), NeedRule: o.Rule})
	}
	book, err := rules.NewBook(facts, rs, profiles(r)...)
	return book, duties, errors.Join(append(errs, err)...)
}

// profiles tell the proofs which facts go with which material.
func profiles(r *records) []rules.Option {
	var out []rules.Option
	for _, m := range r.Materials {
		out = append(out, rules.Profile("material", m.ID, map[string]rules.Value{
			"combustible": rules.Bool(!m.Noncombust), "absorbent": rules.Bool(m.Absorbent), "mineral_fiber": rules.Bool(m.MineralFiber),
			"natural": rules.Bool(m.Natural), "hard_to_find": rules.Bool(m.HardToFind),
		}))
	}
	return out
}
