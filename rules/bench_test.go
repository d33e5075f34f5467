package rules

import (
	"math/rand/v2"
	"testing"
)

// benchBook has as many rules as the real one, with and without facts in the
// reason.
func benchBook(b *testing.B) (*Book, []*Facts) {
	b.Helper()
	rng := rand.New(rand.NewPCG(17, 18))
	list := randomRules(rng, 100)
	for i := range list {
		if i%10 == 0 {
			list[i].Reason = "about {depth} deep"
		}
	}
	book := newBook(b, smallFacts(), list)
	var candidates []*Facts
	for range 28 {
		candidates = append(candidates, factsOf(b, book, randomPoint(rng)))
	}
	return book, candidates
}

// 100 rules on 28 candidates: one keystroke's worth.
func BenchmarkEval(b *testing.B) {
	book, candidates := benchBook(b)
	b.ReportAllocs()
	for b.Loop() {
		for _, f := range candidates {
			book.Eval(f)
		}
	}
}

func BenchmarkEvalInto(b *testing.B) {
	book, candidates := benchBook(b)
	verdicts := make([]Verdict, len(candidates))
	b.ReportAllocs()
	for b.Loop() {
		for i, f := range candidates {
			book.EvalInto(f, &verdicts[i])
		}
	}
}

func BenchmarkClone(b *testing.B) {
	_, candidates := benchBook(b)
	b.ReportAllocs()
	for b.Loop() {
		candidates[0].Clone()
	}
}

func BenchmarkProve(b *testing.B) {
	book, _ := benchBook(b)
	b.ReportAllocs()
	for b.Loop() {
		book.Prove()
	}
}
