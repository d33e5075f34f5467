package rules

import (
	"fmt"
	"math/rand/v2"
	"slices"
)

// A second engine, written the slow and plain way: it knows nothing of boxes,
// cells or bits, looks at facts by name and at every point one by one.

type point map[string]Value

// naiveAsk follows the words of a condition on the value itself.
func naiveAsk(asked any, v Value) truth {
	if !v.Known() {
		return undecided
	}
	is := func(x any) bool { w, _ := valueOf(x); return w == v }
	ok := false
	switch asked := asked.(type) {
	case []any:
		ok = slices.ContainsFunc(asked, is)
	case map[string]any:
		ok = true
		for key, x := range asked {
			limit, _ := x.(float64)
			switch key {
			case "not":
				ok = ok && !is(x)
			case "none_of":
				ok = ok && naiveAsk(x, v) == no
			case "below":
				ok = ok && v.num < limit
			case "at_most":
				ok = ok && v.num <= limit
			case "above":
				ok = ok && v.num > limit
			case "at_least":
				ok = ok && v.num >= limit
			}
		}
	default:
		ok = is(asked)
	}
	if ok {
		return yes
	}
	return no
}

func naiveAll(where Where, p point) truth {
	state := yes
	for name, asked := range where {
		state = min(state, naiveAsk(asked, p[name]))
	}
	return state
}

// naiveVerdict lists what is heard as "kind id", and the adjusts unclamped.
func naiveVerdict(list []Rule, p point) (said []string, sums map[string]float64) {
	sums = map[string]float64{}
	for _, r := range list {
		kind := r.Effect.Kind
		switch naiveAll(r.Where, p) {
		case no:
			continue
		case undecided:
			if kind != Safety {
				kind = "depends"
			}
		}
		if kind == Adjust {
			sums[r.Effect.Criterion] += r.Effect.Delta
		}
		said = append(said, fmt.Sprintf("%s %s", kind, r.ID))
	}
	slices.Sort(said)
	return said, sums
}

// smallFacts are few enough to visit every cell.
func smallFacts() []Fact {
	return []Fact{
		{Name: "place", Type: Enum, Values: []string{"p0", "p1", "p2"}, From: "answer"},
		{Name: "material", Type: Enum, Values: []string{"m0", "m1", "m2"}, From: FromMaterial},
		{Name: "burns", Type: Boolean, From: FromMaterial},
		{Name: "wet", Type: Boolean, From: "answer"},
		{Name: "depth", Type: Numeric, Min: 0, Max: 5, From: "computed"},
	}
}

// allPoints visits every value of the small facts that a threshold at a whole
// number can tell apart: the whole numbers and one point between each two.
func allPoints() []point {
	var out []point
	for _, p := range []string{"p0", "p1", "p2"} {
		for _, m := range []string{"m0", "m1", "m2"} {
			for bits := range 4 {
				for half := range 11 {
					out = append(out, point{
						"place": Text(p), "material": Text(m), "burns": Bool(bits&1 != 0),
						"wet": Bool(bits&2 != 0), "depth": Number(float64(half) / 2),
					})
				}
			}
		}
	}
	return out
}

// randomAsk asks something of a small fact that some value meets.
func randomAsk(rng *rand.Rand, f Fact) any {
	switch f.Type {
	case Boolean:
		return rng.IntN(2) == 0
	case Enum:
		var some []any
		for _, i := range rng.Perm(3)[:1+rng.IntN(2)] {
			some = append(some, f.Values[i])
		}
		return []any{some[0], some, map[string]any{"not": some[0]}, map[string]any{"none_of": some}}[rng.IntN(4)]
	}
	lo := float64(rng.IntN(5))
	hi := lo + float64(1+rng.IntN(5-int(lo)))
	return []any{
		lo,
		map[string]any{"below": hi},
		map[string]any{"at_most": lo},
		map[string]any{"above": lo},
		map[string]any{"at_least": lo},
		map[string]any{"at_least": lo, "below": hi},
		map[string]any{"above": lo, "at_most": hi},
	}[rng.IntN(7)]
}

// randomWhere asks something of one fact to as many as given; numbers are asked
// as often as two others.
func randomWhere(rng *rand.Rand, most int) Where {
	facts := smallFacts()
	out := Where{}
	for range 1 + rng.IntN(most) {
		f := facts[min(rng.IntN(6), 4)]
		out[f.Name] = randomAsk(rng, f)
	}
	return out
}

func randomEffect(rng *rand.Rand) Effect {
	which := func(names ...string) string { return names[rng.IntN(len(names))] }
	switch rng.IntN(8) {
	case 0, 1:
		return Effect{Kind: Exclude, Order: rng.IntN(3)}
	case 2:
		deltas := []float64{-0.5, -0.25, 0.25, 0.5}
		return Effect{Kind: Adjust, Criterion: which("fire", "sound"), Group: which("g", "h"), Delta: deltas[rng.IntN(4)], Order: rng.IntN(3)}
	case 3:
		return Effect{Kind: Require, Need: which("facing", "retarder"), NeedValue: which("x", "y")}
	case 4:
		return Effect{Kind: Safety, Severity: 1 + rng.IntN(2), Stops: rng.IntN(2) == 0}
	case 5:
		return Effect{Kind: Install, Order: rng.IntN(3)}
	case 6:
		return Effect{Kind: For}
	}
	return Effect{Kind: Against}
}

// randomRules makes rules that NewBook accepts; reasons repeat now and then.
func randomRules(rng *rand.Rand, n int) []Rule {
	out := make([]Rule, n)
	for i := range out {
		out[i] = rule(fmt.Sprintf("r%d", i), randomEffect(rng), randomWhere(rng, 3))
		out[i].Reason = []string{"one", "two"}[rng.IntN(2)]
		if rng.IntN(5) == 0 && i > 0 {
			out[i].Where = out[rng.IntN(i)].Where // equal boxes
		}
	}
	return out
}
