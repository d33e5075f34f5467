package rules

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// A verdict that is revised for facts of which some changed is the verdict on these
// facts, texts and all, and the one before is left as it was.
func TestReviseIsEval(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	kept := 0
	for range 300 {
		list := randomRules(rng, 3+rng.IntN(12))
		for i := range list {
			if rng.IntN(3) == 0 {
				list[i].Reason = "with {" + smallFacts()[rng.IntN(len(smallFacts()))].Name + "}"
			}
		}
		b := newBook(t, smallFacts(), list)
		mark := func(h *Hit) { h.Text += "!" }
		for range 25 {
			p := randomPoint(rng)
			was, now := factsOf(t, b, p), factsOf(t, b, p)
			other := randomPoint(rng)
			for _, f := range smallFacts()[:1+rng.IntN(3)] {
				require.NoError(t, now.Set(f.Name, other[f.Name]))
			}
			before, again := b.EvalWith(was, mark), b.EvalWith(was, mark)
			require.Equal(t, b.EvalWith(now, mark), b.Revise(before, was, now, mark), "%v from %v to %v", list, p, now)
			require.Equal(t, again, before)
			said := 0
			b.Revise(before, was, now, func(*Hit) { said++ })
			if len(before.Safety) > 0 && said == 0 {
				kept++
			}
		}
	}
	require.Positive(t, kept, "what does not change is not said anew")
}
