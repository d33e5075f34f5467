package main

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"

	"battwright/rules"
	"battwright/rules/plan"
)

// compareRules runs the rule book on every candidate of the demo house, once
// with our engine and once with each rule's conditions compiled to an
// expression. Ours also explains, ranks and asks about what is unknown; the
// expressions only say which rules hold.
func compareRules() error {
	a, err := demoOf(8)
	if err != nil {
		return err
	}
	book := a.List.Catalog().Book()
	var facts []*rules.Facts
	for _, p := range plan.Assess(a).Places {
		for _, c := range p.Candidates {
			facts = append(facts, c.Facts)
		}
	}
	types := map[string]rules.Fact{}
	for _, f := range book.Facts() {
		types[f.Name] = f
	}
	var envs []map[string]any
	for _, f := range facts {
		envs = append(envs, environment(f, types))
	}
	programs := map[string]*vm.Program{}
	var list []*vm.Program
	for _, r := range book.Rules() {
		p, err := expr.Compile(expression(r, types), expr.Env(envs[0]), expr.AsBool())
		if err != nil {
			return fmt.Errorf("%s: %w", r.ID, err)
		}
		programs[r.ID], list = p, append(list, p)
	}
	if err := agree(book, facts, envs, programs); err != nil {
		return err
	}
	bare, own, err := conditionsOnly(book, facts)
	if err != nil {
		return err
	}
	verdicts := make([]rules.Verdict, len(facts))
	evaluate := func(book *rules.Book, facts []*rules.Facts) time.Duration {
		return perRun(func() {
			for i, f := range facts {
				book.EvalInto(f, &verdicts[i])
			}
		})
	}
	conditions, whole := evaluate(bare, own), evaluate(book, facts)
	var machine vm.VM
	kept := perRun(func() {
		for _, env := range envs {
			for _, p := range list {
				if _, err := machine.Run(p, env); err != nil {
					panic(err)
				}
			}
		}
	})
	usual := perRun(func() {
		for _, env := range envs {
			for _, p := range list {
				if _, err := expr.Run(p, env); err != nil {
					panic(err)
				}
			}
		}
	})
	fmt.Printf("%d rules on %d candidates: ours, which rules hold %v; with reasons, needs, unknowns and order %v; expressions, which rules hold, as usual %v, with one machine kept %v\n",
		len(list), len(facts), conditions, whole, usual, kept)
	fmt.Printf("the same work (which rules hold): %.1f times as usual, %.1f with one machine kept; our whole verdict against their conditions: %.1f and %.1f\n",
		usual.Seconds()/conditions.Seconds(), kept.Seconds()/conditions.Seconds(), usual.Seconds()/whole.Seconds(), kept.Seconds()/whole.Seconds())
	return nil
}

// conditionsOnly is the same book as far as its conditions go: no words, no
// effects, nothing that silences. It finds which rules hold and no more.
func conditionsOnly(book *rules.Book, facts []*rules.Facts) (*rules.Book, []*rules.Facts, error) {
	var list []rules.Rule
	for _, r := range book.Rules() {
		list = append(list, rules.Rule{ID: r.ID, Title: r.ID, Where: r.Where, Effect: rules.Effect{Kind: rules.Install}, Reason: ".", Source: r.Source, Known: r.Known, FiresOn: r.FiresOn, SilentOn: r.SilentOn})
	}
	bare, err := rules.NewBook(book.Facts(), list)
	if err != nil {
		return nil, nil, err
	}
	var own []*rules.Facts
	for _, f := range facts {
		g := bare.NewFacts()
		for _, fact := range book.Facts() {
			if err := g.Set(fact.Name, f.Get(fact.Name)); err != nil {
				return nil, nil, err
			}
		}
		own = append(own, g)
	}
	return bare, own, nil
}

// environment is what the expressions see; what is unknown has no value that
// any condition but "is not" can meet.
func environment(f *rules.Facts, types map[string]rules.Fact) map[string]any {
	out := map[string]any{}
	for name, fact := range types {
		v := f.Get(name)
		switch fact.Type {
		case rules.Enum:
			out[name] = ""
			if v.Known() {
				out[name] = v.String()
			}
		case rules.Boolean:
			out[name] = v.Known() && v == rules.Bool(true)
		default:
			out[name] = math.NaN()
			if v.Known() {
				out[name], _ = strconv.ParseFloat(v.String(), 64)
			}
		}
	}
	return out
}

func expression(r *rules.Rule, types map[string]rules.Fact) string {
	var parts []string
	for _, name := range slices.Sorted(maps.Keys(r.Where)) {
		parts = append(parts, condition(types[name], r.Where[name]))
	}
	return strings.Join(parts, " && ")
}

func condition(f rules.Fact, asked any) string {
	switch asked := asked.(type) {
	case bool:
		if asked {
			return f.Name
		}
		return "!" + f.Name
	case []any:
		return f.Name + " in " + literal(asked)
	case map[string]any:
		signs := map[string]string{"below": "<", "at_most": "<=", "above": ">", "at_least": ">=", "not": "!=", "none_of": "not in"}
		var parts []string
		for _, key := range slices.Sorted(maps.Keys(asked)) {
			parts = append(parts, f.Name+" "+signs[key]+" "+literal(asked[key]))
		}
		return strings.Join(parts, " && ")
	}
	return f.Name + " == " + literal(asked)
}

func literal(v any) string {
	switch v := v.(type) {
	case string:
		return strconv.Quote(v)
	case []any:
		quoted := make([]string, len(v))
		for i, x := range v {
			quoted[i] = literal(x)
		}
		return "[" + strings.Join(quoted, ", ") + "]"
	}
	return fmt.Sprint(v)
}

// agree checks that both mean the same: every rule that ours says holds on
// known facts holds as an expression too.
func agree(book *rules.Book, facts []*rules.Facts, envs []map[string]any, programs map[string]*vm.Program) error {
	hits := 0
	for i, f := range facts {
		v := book.Eval(f)
		for _, list := range [][]rules.Hit{v.Excluded, v.Safety, v.Install, v.For, v.Against} {
			for _, h := range list {
				if len(h.Unknown) > 0 {
					continue
				}
				held, err := expr.Run(programs[h.Rule.ID], envs[i])
				if err != nil {
					return err
				}
				if held != true {
					return fmt.Errorf("rule %s holds with us and not as an expression", h.Rule.ID)
				}
				hits++
			}
		}
	}
	if hits < 100 {
		return fmt.Errorf("only %d rules held: too few to compare", hits)
	}
	return nil
}
