package rules

import (
	"fmt"
	"math/rand/v2"
	"slices"
)

// A second engine, written the slow and plain way: it knows nothing of boxes,
// cells or bits, looks at facts by name and at every point one by one.

type point map[string]Value

// naiveAtom follows the words of the op on the value itself.
func naiveAtom(a Atom, p point) truth {
	v := p[a.Fact]
	if !v.Known() {
		return undecided
	}
	var ok bool
	n, _ := v.AsNumber()
	switch a.Op {
	case Eq, Ne:
		same := v == Bool(a.Bool) || v == Number(a.Num)
		if s, text := v.AsText(); text {
			same = s == a.Values[0]
		}
		ok = same == (a.Op == Eq)
	case In, NotIn:
		s, _ := v.AsText()
		ok = slices.Contains(a.Values, s) == (a.Op == In)
	case Lt:
		ok = n < a.Num
	case Le:
		ok = n <= a.Num
	case Gt:
		ok = n > a.Num
	case Ge:
		ok = n >= a.Num
	case Between:
		ok = a.Num <= n && n < a.Num2
	}
	if ok {
		return yes
	}
	return no
}

func naiveAll(when []Atom, p point) truth {
	state := yes
	for _, a := range when {
		switch naiveAtom(a, p) {
		case no:
			return no
		case undecided:
			state = undecided
		}
	}
	return state
}

func naiveFires(r Rule, p point) bool {
	state := naiveAll(r.When, p)
	return state == yes || state == undecided && r.Effect.Kind == Safety
}

func naiveSilenced(list []Rule, r Rule, p point) bool {
	for _, o := range list {
		if slices.Contains(o.Overrides, r.ID) && naiveFires(o, p) {
			return true
		}
	}
	return false
}

// naiveVerdict lists what is heard as "kind id", and the adjusts unclamped.
func naiveVerdict(list []Rule, p point) (said []string, sums map[string]float64) {
	best := map[string]Rule{}
	sums = map[string]float64{}
	for _, r := range list {
		state := naiveAll(r.When, p)
		if state == no || naiveSilenced(list, r, p) {
			continue
		}
		if state == undecided && r.Effect.Kind != Safety {
			said = append(said, "depends "+r.ID)
			continue
		}
		if r.Effect.Kind != Adjust {
			said = append(said, fmt.Sprintf("%s %s", r.Effect.Kind, r.ID))
			continue
		}
		key := r.Effect.Criterion + "/" + r.Effect.Group
		old, taken := best[key]
		d, od := r.Effect.Delta, old.Effect.Delta
		if !taken || max(d, -d) > max(od, -od) || max(d, -d) == max(od, -od) && (d < od || d == od && r.ID < old.ID) {
			best[key] = r
		}
	}
	for _, r := range best {
		said = append(said, "adjust "+r.ID)
		sums[r.Effect.Criterion] += r.Effect.Delta
	}
	slices.Sort(said)
	return said, sums
}

// smallFacts are few enough to visit every cell.
func smallFacts() []Fact {
	return []Fact{
		{Name: "place", Type: Enum, Values: []string{"p0", "p1", "p2"}, From: FromAnswer},
		{Name: "material", Type: Enum, Values: []string{"m0", "m1", "m2"}, From: FromMaterial},
		{Name: "burns", Type: Boolean, From: FromMaterial},
		{Name: "wet", Type: Boolean, From: FromAnswer},
		{Name: "depth", Type: Numeric, Min: 0, Max: 5, From: FromComputed},
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

func randomAtom(rng *rand.Rand) Atom {
	pick := func(prefix string) Atom {
		name := map[string]string{"p": "place", "m": "material"}[prefix]
		ops := []Op{Eq, Eq, Ne, In, NotIn}
		a := Atom{Fact: name, Op: ops[rng.IntN(len(ops))]}
		order := rng.Perm(3)
		n := 1
		if a.Op == In || a.Op == NotIn {
			n = 1 + rng.IntN(2)
		}
		for _, i := range order[:n] {
			a.Values = append(a.Values, fmt.Sprintf("%s%d", prefix, i))
		}
		return a
	}
	switch rng.IntN(6) {
	case 0:
		return pick("p")
	case 1:
		return pick("m")
	case 2:
		return Atom{Fact: "burns", Op: []Op{Eq, Ne}[rng.IntN(2)], Bool: rng.IntN(2) == 0}
	case 3:
		return Atom{Fact: "wet", Op: Eq, Bool: rng.IntN(2) == 0}
	}
	ops := []Op{Eq, Ne, Lt, Le, Gt, Ge, Between}
	a := Atom{Fact: "depth", Op: ops[rng.IntN(len(ops))], Num: float64(rng.IntN(6))}
	if a.Op == Between {
		a.Num = float64(rng.IntN(5))
		a.Num2 = a.Num + float64(1+rng.IntN(5-int(a.Num)))
	}
	return a
}

func randomAtoms(rng *rand.Rand, most int) []Atom {
	var out []Atom
	for range 1 + rng.IntN(most) {
		out = append(out, randomAtom(rng))
	}
	return out
}

func randomEffect(rng *rand.Rand) Effect {
	which := func(names ...string) string { return names[rng.IntN(len(names))] }
	switch rng.IntN(9) {
	case 0, 1:
		return Effect{Kind: Exclude, Order: rng.IntN(3)}
	case 2:
		deltas := []float64{-0.5, -0.25, 0.25, 0.5}
		return Effect{Kind: Adjust, Criterion: which("fire", "sound"), Group: which("g", "h"), Delta: deltas[rng.IntN(4)], Order: rng.IntN(3)}
	case 3:
		return Effect{Kind: Require, Need: which("facing", "retarder"), NeedValue: which("x", "y")}
	case 4:
		return Effect{Kind: Require, Need: NeedNoOption}
	case 5:
		return Effect{Kind: Safety, Severity: 1 + rng.IntN(2), Stops: rng.IntN(2) == 0}
	case 6:
		return Effect{Kind: Install, Order: rng.IntN(3)}
	case 7:
		return Effect{Kind: For}
	}
	return Effect{Kind: Against}
}

// randomRules makes rules that NewBook accepts: only later rules are
// overridden, so that there is no ring, and reasons repeat now and then.
func randomRules(rng *rand.Rand, n int) []Rule {
	out := make([]Rule, n)
	for i := range out {
		out[i] = rule(fmt.Sprintf("r%d", i), randomEffect(rng), randomAtoms(rng, 3)...)
		out[i].Reason = []string{"one", "two"}[rng.IntN(2)]
		if rng.IntN(5) == 0 && i > 0 {
			out[i].When = slices.Clone(out[rng.IntN(i)].When) // equal boxes
		}
	}
	for i := range out {
		for j := i + 1; j < n; j++ {
			k := out[j].Effect.Kind
			if k != Safety && k != Exclude && rng.IntN(8) == 0 {
				out[i].Overrides = append(out[i].Overrides, out[j].ID)
			}
		}
	}
	return out
}
