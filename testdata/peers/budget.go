package main

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"

	"battwright/rules/budget"
	"battwright/rules/units"
)

// compareBudget fits houses into a budget with ours and with the GNU linear
// programming kit, and checks that both find the same best value. The other
// is a program of its own: the time it says it used is given beside the whole.
func compareBudget() error {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		fmt.Println("glpsol is not installed: nothing to compare with")
		return nil
	}
	dir, err := os.MkdirTemp("", "peers-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	idle := medianOf(5, func() error { return exec.Command(solver, "--version").Run() })
	for _, size := range []struct{ places, options int }{{8, 20}, {30, 40}, {100, 40}} {
		places, money := market(size.places, size.options)
		in := filepath.Join(dir, "house.lp")
		if err := os.WriteFile(in, []byte(program(places, money)), 0o600); err != nil {
			return err
		}
		best, err := budget.BestPooled(places, nil, money)
		if err != nil {
			return err
		}
		ours := perRun(func() {
			if _, err := budget.BestPooled(places, nil, money); err != nil {
				panic(err)
			}
		})
		value := 0.0
		theirs := medianOf(3, func() error {
			out := filepath.Join(dir, "answer")
			if text, err := exec.Command(solver, "--lp", in, "--cuts", "--tmlim", "60", "--write", out).CombinedOutput(); err != nil {
				return fmt.Errorf("%w: %s", err, text)
			}
			text, err := os.ReadFile(out)
			if m := answer.FindSubmatch(text); m != nil {
				value, _ = strconv.ParseFloat(string(m[1]), 64)
			}
			return err
		})
		same := "the same value"
		if math.Abs(value-best.Set.Value) > 1e-6 {
			same = fmt.Sprintf("DIFFERENT values %.6f and %.6f (proved: %t)", best.Set.Value, value, best.Proved)
		}
		work := max(0, theirs-idle)
		fmt.Printf("%d places of %d options: ours %v, glpsol %v (%v without its start): %.0f and %.0f times; %s\n",
			size.places, size.options, ours, theirs, work, theirs.Seconds()/ours.Seconds(), work.Seconds()/ours.Seconds(), same)
	}
	return nil
}

var answer = regexp.MustCompile(`(?m)^s mip \d+ \d+ o (\S+)$`)

// market is an invented house: dearer stacks fit better, with some chance.
func market(places, options int) ([]budget.PooledPlace, units.Cents) {
	random := rand.New(rand.NewPCG(uint64(places), 1))
	out := make([]budget.PooledPlace, places)
	total := units.Cents(0)
	for i := range out {
		out[i].ID = fmt.Sprintf("p%03d", i)
		for j := range options {
			cost := units.Cents(2000 + random.IntN(58001))
			out[i].Options = append(out[i].Options, budget.PooledOption{Option: budget.Option{ID: fmt.Sprintf("o%02d", j), Cost: cost, Value: 100*math.Sqrt(float64(cost)/60000) + 12*(random.Float64()-0.5)}})
		}
		total += 30000
	}
	return out, total
}

// program is the same choice as an integer program.
func program(places []budget.PooledPlace, money units.Cents) string {
	var value, cost, one, names strings.Builder
	for i, p := range places {
		fmt.Fprintf(&one, " c%d:", i)
		for j, o := range p.Options {
			x := fmt.Sprintf("x%d_%d", i, j)
			fmt.Fprintf(&value, " %+.17g %s\n", o.Value, x)
			fmt.Fprintf(&cost, " %+d %s\n", int64(o.Cost), x)
			fmt.Fprintf(&one, " +1 %s\n", x)
			fmt.Fprintf(&names, " %s\n", x)
		}
		one.WriteString(" = 1\n")
	}
	return fmt.Sprintf("Maximize\n value:%sSubject To\n money:%s <= %d\n%sBinary\n%sEnd\n", value.String(), cost.String(), int64(money), one.String(), names.String())
}

func medianOf(n int, work func() error) time.Duration {
	var all []time.Duration
	for range n {
		began := time.Now()
		if err := work(); err != nil {
			fmt.Println("failed:", err)
			return 0
		}
		all = append(all, time.Since(began))
	}
	return share(all, 0.5)
}
