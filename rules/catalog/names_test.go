package catalog_test

import (
	"embed"
	"fmt"
	"go/ast"
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/testdata/fixture"
)

// A name that names nothing is refused, wherever it stands in our own data, with
// what would be right where something is near.
func TestNamesThatNameNothingAreRefused(t *testing.T) {
	for _, x := range []struct{ file, key, name, wrong, want string }{
		{"rules-placement.toml", "need", "ground-cover", "ground-covr", "ground-cover"},
		{"codes.toml", "elements", "floor", "flor", "want one of ceiling"},
		{"codes.toml", "source", "iecc-minimum-r", "iecc-minimum", "is not in the list of sources"},
		{"acceptance.toml", "needs", "burner-air", "burner-airs", "want burner-air"},
		{"handover.toml", "settled_by", "non_ic_lights", "non_ic_light", "want non_ic_lights"},
		{"handover.toml", "danger", "recessed-lights", "recessed-light", ""},
		{"handover.toml", "kinds", "exterior-wall", "exterior-wal", "want exterior-wall"},
	} {
		base := fstest.MapFS{}
		entries, err := fs.ReadDir(data.Files, ".")
		require.NoError(t, err)
		changed := false
		for _, e := range entries {
			if e.IsDir() {
				continue
			}
			b, err := fs.ReadFile(data.Files, e.Name())
			require.NoError(t, err)
			text := string(b)
			if x.key != "need" && e.Name() == x.file || x.key == "need" && strings.HasPrefix(e.Name(), "rules-") {
				at := regexp.MustCompile(`(\b` + x.key + ` = [^\n]*?)"` + x.name + `"`)
				if to := at.FindStringSubmatchIndex(text); to != nil && !changed {
					changed = true
					text = text[:to[3]] + strconv.Quote(x.wrong) + text[to[1]:]
				}
			}
			base[e.Name()] = &fstest.MapFile{Data: []byte(text)}
		}
		what := fmt.Sprint(x.file, " ", x.key, " ", x.wrong)
		require.True(t, changed, what)
		_, err = catalog.Load(base, embed.FS{})
		require.ErrorContains(t, err, x.wrong, what)
		require.ErrorContains(t, err, x.want, what)
	}
}

// Every fact that a rule may ask for is set by the program: one that never is would
// be unknown for ever, and a rule that reads it would ask for ever.
func TestEveryFactIsSetByTheProgram(t *testing.T) {
	set := map[string]bool{}
	fixture.GoFiles(t, "../candidate", func(_ string, text *ast.File) {
		ast.Inspect(text, func(n ast.Node) bool {
			var list []ast.Expr
			switch x := n.(type) {
			case *ast.CallExpr:
				if f, ok := x.Fun.(*ast.Ident); ok && f.Name == "set" {
					list = x.Args
				}
			case *ast.CompositeLit:
				list = x.Elts
			}
			if len(list) > 0 {
				if l, ok := list[0].(*ast.BasicLit); ok {
					name, _ := strconv.Unquote(l.Value)
					set[name] = true
				}
			}
			return true
		})
	})
	for _, f := range fixture.Catalog(t).Book().Facts() {
		require.True(t, set[f.Name], "%s in facts.toml is set nowhere in rules/candidate", f.Name)
	}
}

// heardElsewhere are words of bags, labels, drawings and building sites that we
// explain though our own texts say them otherwise, if at all.
var heardElsewhere = strings.Split("density,R of the finished wall,U-factor,compression,void,thermal bridge,continuous insulation,marine,lumber size,soffit,ridge vent,house wrap,"+
	"cladding,vented cladding,friction fit,water vapor,vapor barrier,class I,class II,class III,relative humidity,dew point,drying,air sealing,weatherstrip,code edition,IC light,"+
	"above grade,STC,decoupling,payback,ready to order,house table,condensation", ",")

// A word of the glossary is explained because something says it, or it is told here
// where it is heard: a misspelled one is neither.
func TestEveryExplainedWordIsSaid(t *testing.T) {
	c := fixture.Catalog(t)
	texts := everyText(t, c)
	var idle []string
words:
	for _, w := range c.Words() {
		for _, x := range texts {
			if said(x.words, w.Term) {
				continue words
			}
		}
		if !slices.Contains(heardElsewhere, w.Term) {
			idle = append(idle, w.Term)
		}
	}
	require.Empty(t, idle)
}

// All wood of a place that the hourly check of damp judges has a name of the trade.
func TestWoodHasAName(t *testing.T) {
	c := fixture.Catalog(t)
	l := c.DampLayers()
	var all []catalog.DampLayer
	for _, k := range c.Kinds {
		for _, x := range k.Layers {
			all = append(all, x.Damp...)
		}
	}
	for _, s := range c.Sheathings {
		all = append(all, s.Damp...)
	}
	for _, s := range c.DampSections {
		all = append(all, s.Outside...)
	}
	for _, x := range all {
		if l.Wood(x.Of) {
			require.NotEmpty(t, x.Called, x.Of)
		}
	}
}
