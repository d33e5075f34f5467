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
// carry their own sign: a reader may refuse "+ -1.2".
func writeLP(places []Place, budget units.Cents) string {
	var goal, money, one, names strings.Builder
	for i, pl := range places {
		fmt.Fprintf(&one, " c%d:", i)
		for j, o := range pl.Options {
			x := fmt.Sprintf("x%d_%d", i, j)
			fmt.Fprintf(&goal, " %+.17g %s\n", o.Value, x)
			fmt.Fprintf(&money, " %+d %s\n", int64(o.Cost), x)
			fmt.Fprintf(&one, " +1 %s\n", x)
			fmt.Fprintf(&names, " %s\n", x)
		}
		fmt.Fprintf(&one, " = 1\n")
	}
	return fmt.Sprintf("Maximize\n value:%sSubject To\n money:%s <= %d\n%sBinary\n%sEnd\n",
		goal.String(), money.String(), int64(budget), one.String(), names.String())
}

// solveElsewhere gives the optimum found by the solver.
func solveElsewhere(t testing.TB, solver string, places []Place, budget units.Cents) float64 {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "house.lp"), filepath.Join(dir, "answer.txt")
	require.NoError(t, os.WriteFile(in, []byte(writeLP(places, budget)), 0o600))
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
		want := solveElsewhere(t, solver, places, budget)
		require.InDelta(t, want, mustBest(t, places, budget).Set.Value, 1e-6)
	}
	for _, family := range []string{"unc", "weak", "house"} {
		places, budget := generate(99, family, 7, 40)
		want := solveElsewhere(t, solver, places, budget)
		require.InDelta(t, want, mustBest(t, places, budget).Set.Value, 1e-6, family)
	}
}
