package house_test

import (
	"go/ast"
	"go/token"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"battwright/rules/house"
	"battwright/rules/inspect"
	"battwright/testdata/fixture"
)

// engine is where the program asks for answers by their keys.
var engine = []string{"../house", "../candidate", "../damp", "../plan", "../order", "../inspect", "../pages", "../../tui", "../../tui/ask", "../../tui/draw", "../../cmd/battwright"}

// literal is a text written in the program.
func literal(e ast.Expr) (string, bool) {
	l, ok := e.(*ast.BasicLit)
	if !ok || l.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(l.Value)
	return s, err == nil
}

// name is what an expression ends with: Answers of p.Answers.
func name(e ast.Expr) string {
	switch x := e.(type) {
	case *ast.SelectorExpr:
		return x.Sel.Name
	case *ast.Ident:
		return x.Name
	}
	return ""
}

// Every key that stands in the program is the key of a question: of a house, or of
// what is offered or found. What is asked for by Answered fails when it runs; this
// finds it where no test runs.
func TestKeysInTheProgramAreQuestions(t *testing.T) {
	known := map[string]bool{"price_usd": true, "note": true} // of a line of a bid
	c := fixture.Catalog(t)
	for _, q := range slices.Concat(fixture.List(t).Questions, inspect.FoundList(c).Questions) {
		known[q.Key], known[q.FullKey()] = true, true
	}
	for _, item := range c.Acceptance().Contract { // what a bid can say
		known[item.Key] = true
	}
	seen := 0
	for _, dir := range engine {
		fixture.GoFiles(t, dir, func(file string, text *ast.File) {
			ast.Inspect(text, func(n ast.Node) bool {
				var keys []ast.Expr
				switch x := n.(type) {
				case *ast.CallExpr:
					switch name(x.Fun) {
					case "Value", "Text", "Num", "Bool", "Answer", "Question", "Has", "said", "num", "text", "usual", "answerFact":
						if len(x.Args) > 0 {
							keys = x.Args[len(x.Args)-1:]
						}
						if n := name(x.Fun); n == "Text" && len(x.Args) == 1 || n == "text" && len(x.Args) > 1 { // house.Text("plan") is an answer
							return true
						}
					case "Set":
						if s, ok := x.Fun.(*ast.SelectorExpr); ok && name(s.X) == "Answers" {
							keys = x.Args[:1]
						}
					}
				case *ast.IndexExpr:
					if name(x.X) == "Answers" {
						keys = []ast.Expr{x.Index}
					}
				}
				for _, e := range keys {
					if key, ok := literal(e); ok {
						seen++
						assert.True(t, known[key], "%s: no question has the key %q", file, key)
					}
				}
				return true
			})
		})
	}
	require.Greater(t, seen, 150, "the keys are looked at")
}

// No kind of place is named in the program: it asks kinds for their traits. Two
// ids are words of answers and questions too; those are compared with no kind.
func TestProgramNamesNoKind(t *testing.T) {
	c := fixture.Catalog(t)
	isKind := func(e ast.Expr) (string, bool) {
		s, ok := literal(e)
		_, kind := c.Kind(s)
		return s, ok && kind
	}
	words := []string{"attic", "chimney"}
	for _, dir := range append([]string{"../catalog", "../heat", "../moisture", "../wetting", "../rank", "../takeoff", "../budget", "../../tui/chart"}, engine...) {
		fixture.GoFiles(t, dir, func(file string, text *ast.File) {
			ast.Inspect(text, func(n ast.Node) bool {
				switch x := n.(type) {
				case *ast.BasicLit:
					if s, ok := isKind(x); ok {
						require.Contains(t, words, s, file)
					}
				case *ast.BinaryExpr:
					if s, ok := isKind(x.Y); ok {
						require.NotContains(t, []string{"Kind", "ID", "Asked"}, name(x.X), "%s: a kind is compared with %q", file, s)
					}
				}
				return true
			})
		})
	}
}

// What a kind assumes is what its questions assume.
func TestUsualNumbersOfAKindAreTaken(t *testing.T) {
	l, n := fixture.List(t), 0
	for _, id := range l.PlaceKinds() {
		kind, _ := l.Catalog().Kind(id)
		a := house.Answered{List: l, House: house.New()}
		p := a.House.Add(id)
		for key, want := range kind.Usual {
			require.Equal(t, want, a.Num(house.PlaceScope, p, key), "%s %s", id, key)
			n++
		}
	}
	require.Greater(t, n, 5)
}
