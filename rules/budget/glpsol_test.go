package budget

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/rules/units"
)

// writeLP states the choice as an integer program in LP text. Coefficients
// carry their own sign: a reader may refuse "+ -1.2". Packs are whole numbers.
func writeLP(places []PooledPlace, packs []Pack, budget units.Cents) string {
	var goal, money, rows, names, whole strings.Builder
	used := make([]string, len(packs))
	for i, pl := range places {
		fmt.Fprintf(&rows, " c%d:", i)
		for j, o := range pl.Options {
			x := fmt.Sprintf("x%d_%d", i, j)
			fmt.Fprintf(&goal, " %+.17g %s\n", o.Value, x)
			fmt.Fprintf(&money, " %+d %s\n", int64(o.Cost), x)
			fmt.Fprintf(&rows, " +1 %s\n", x)
			fmt.Fprintf(&names, " %s\n", x)
			for _, u := range o.Uses {
				used[u.Pack] += fmt.Sprintf(" %+.17g %s\n", u.Qty, x)
			}
		}
		fmt.Fprintf(&rows, " = 1\n")
	}
	for k, p := range packs {
		fmt.Fprintf(&money, " %+d n%d\n", int64(p.Cost), k)
		fmt.Fprintf(&whole, " n%d\n", k)
		if used[k] != "" {
			fmt.Fprintf(&rows, " u%d:%s %+.17g n%d <= %.17g\n", k, used[k], -p.Holds, k, p.Holds*float64(p.Have))
		}
	}
	text := fmt.Sprintf("Maximize\n value:%sSubject To\n money:%s <= %d\n%sBinary\n%s", goal.String(), money.String(), int64(budget), rows.String(), names.String())
	if len(packs) > 0 {
		text += "General\n" + whole.String()
	}
	return text + "End\n"
}

// solveElsewhere gives the optimum found by the solver.
func solveElsewhere(t testing.TB, solver string, places []PooledPlace, packs []Pack, budget units.Cents) float64 {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "house.lp"), filepath.Join(dir, "answer.txt")
	require.NoError(t, os.WriteFile(in, []byte(writeLP(places, packs, budget)), 0o600))
	text, err := exec.Command(solver, "--lp", in, "--cuts", "--tmlim", "30", "--write", out).CombinedOutput()
	require.NoError(t, err, "%s", text)
	answer, err := os.Open(out)
	require.NoError(t, err)
	defer answer.Close()
	for lines := bufio.NewScanner(answer); lines.Scan(); {
		// "s mip <rows> <columns> o <value>": o for proven optimal.
		if f := strings.Fields(lines.Text()); len(f) == 6 && f[0] == "s" && f[4] == "o" {
			value, err := strconv.ParseFloat(f[5], 64)
			require.NoError(t, err)
			return value
		}
	}
	t.Fatalf("no proven optimum: %s", text)
	return 0
}

func TestAgainstAnotherSolver(t *testing.T) {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol is not installed")
	}
	r := rand.New(rand.NewPCG(61, 1))
	for range 12 {
		places := realHouse(r, 8, 20)
		cheapest, dearest := span(places)
		budget := cheapest + units.Cents(r.Int64N(int64(dearest-cheapest)+1))
		want := solveElsewhere(t, solver, pooledOf(places), nil, budget)
		require.InDelta(t, want, mustBest(t, places, budget).Set.Value, 1e-6)
	}
	for _, family := range []string{"unc", "weak", "house"} {
		places, budget := generate(99, family, 7, 40)
		want := solveElsewhere(t, solver, pooledOf(places), nil, budget)
		require.InDelta(t, want, mustBest(t, places, budget).Set.Value, 1e-6, family)
	}
}

// Packages bought whole for all places together, as the other solver counts them:
// small houses, some of whose packages are there already.
func TestPooledAgainstAnotherSolver(t *testing.T) {
	solver, err := exec.LookPath("glpsol")
	if err != nil {
		t.Skip("glpsol is not installed")
	}
	r := rand.New(rand.NewPCG(61, 2))
	tried := 0
	for range 20 {
		places, packs := randomPooled(r, 6, 8, 4)
		budget := units.Cents(150000 + r.IntN(250000))
		got, err := BestPooled(places, packs, budget)
		require.NoError(t, err)
		if got.Missing > 0 {
			continue
		}
		tried++
		require.True(t, got.Proved)
		require.InDelta(t, solveElsewhere(t, solver, places, packs, budget), got.Set.Value, 1e-6)
	}
	require.Greater(t, tried, 8)
}
