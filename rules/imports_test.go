package rules

import (
	"bufio"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const module = "battwright/"

// allowed is what each package of the engine may import of the project. The
// order is the way data runs: a package names only what lies before it.
var allowed = map[string][]string{
	"rules":           {},
	"rules/strict":    {},
	"rules/units":     {},
	"rules/heat":      {},
	"rules/moisture":  {},
	"rules/wetting":   {"rules/moisture"},
	"rules/rank":      {},
	"rules/takeoff":   {"rules/units"},
	"rules/budget":    {"rules/units"},
	"rules/catalog":   {"rules", "rules/strict", "rules/units", "rules/wetting"},
	"rules/damp":      {"rules/catalog", "rules/moisture", "rules/wetting"},
	"rules/house":     {"rules/catalog", "rules/strict", "rules/units"},
	"rules/candidate": {"rules", "rules/damp", "rules/catalog", "rules/house", "rules/heat", "rules/moisture", "rules/takeoff", "rules/rank", "rules/units"},
	"rules/bill":      {"rules/budget", "rules/candidate", "rules/catalog", "rules/house", "rules/takeoff", "rules/units"},
	"rules/plan":      {"rules", "rules/damp", "rules/bill", "rules/candidate", "rules/catalog", "rules/house", "rules/rank", "rules/budget", "rules/units"},
	"rules/order":     {"rules/plan", "rules/bill", "rules/candidate", "rules/house"},
	"rules/inspect":   {"rules", "rules/damp", "rules/plan", "rules/order", "rules/candidate", "rules/catalog", "rules/house", "rules/heat", "rules/takeoff", "rules/strict", "rules/units"},
	"rules/page":      {},
	"rules/print":     {"rules/page", "rules/strict"},
	"rules/pages":     {"rules/bill", "rules/page", "rules/damp", "rules/print", "rules", "rules/plan", "rules/order", "rules/inspect", "rules/candidate", "rules/catalog", "rules/house", "rules/heat", "rules/rank", "rules/budget", "rules/takeoff", "rules/strict", "rules/units"},
	"data":            {},
	"tui/background":  {},
	"tui/style":       {},
	"tui/chart":       {"rules/print"},
}

// sourceFile is one Go file of the project and what it imports.
type sourceFile struct {
	path    string // slashes, below the top of the project
	dir     string
	test    bool
	lines   int
	imports []string
}

// sources reads every Go file of the project, of all systems and build tags.
func sources(t *testing.T) []sourceFile {
	t.Helper()
	var out []sourceFile
	top := ".."
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != top && strings.HasPrefix(d.Name(), ".") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(path, ".go") {
			return nil
		}
		f, err := readSource(top, path)
		out = append(out, f)
		return err
	})
	require.NoError(t, err)
	require.Greater(t, len(out), 100, "the files were not found")
	return out
}

func readSource(top, path string) (sourceFile, error) {
	rel, err := filepath.Rel(top, path)
	if err != nil {
		return sourceFile{}, err
	}
	rel = filepath.ToSlash(rel)
	f := sourceFile{path: rel, dir: filepath.ToSlash(filepath.Dir(rel)), test: strings.HasSuffix(rel, "_test.go")}
	parsed, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.ImportsOnly)
	if err != nil {
		return f, err
	}
	for _, i := range parsed.Imports {
		name, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			return f, err
		}
		f.imports = append(f.imports, name)
	}
	r, err := os.Open(path)
	if err != nil {
		return f, err
	}
	defer r.Close()
	scan := bufio.NewScanner(r)
	scan.Buffer(nil, 1<<20)
	for scan.Scan() {
		f.lines++
	}
	return f, scan.Err()
}

func TestWhoMayImportWhom(t *testing.T) {
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		may, ruled := allowed[f.dir]
		for _, name := range f.imports {
			ours, isOurs := strings.CutPrefix(name, module)
			if isOurs && strings.HasPrefix(f.dir, "rules") {
				require.True(t, ruled, "%s: a package under rules without a line in this test", f.path)
			}
			if isOurs && ruled {
				require.True(t, slices.Contains(may, ours), "%s imports %s", f.path, ours)
			}
		}
	}
}

// What tests share stays out of the program.
func TestOnlyTestsUseFixtures(t *testing.T) {
	const shared = "testdata/fixture"
	used := 0
	for _, f := range sources(t) {
		for _, name := range f.imports {
			if strings.HasPrefix(name, module+shared) {
				used++
				require.True(t, f.test || strings.HasPrefix(f.dir, shared), "%s imports %s", f.path, name)
			}
		}
	}
	require.Positive(t, used)
}

// terminal are the libraries that draw on a terminal or ask one.
func terminal(name string) bool {
	return strings.HasPrefix(name, "github.com/charmbracelet/") || strings.HasPrefix(name, "github.com/muesli/") ||
		strings.HasPrefix(name, "github.com/mattn/") || strings.HasPrefix(name, "golang.org/x/term")
}

func TestTheEngineKnowsNoTerminal(t *testing.T) {
	for _, f := range sources(t) {
		engine := strings.HasPrefix(f.dir, "rules") || strings.HasPrefix(f.dir, "data") || f.dir == "tui/ask" || f.dir == "tui/chart" || f.dir == "tui/session"
		if !engine || f.test {
			continue
		}
		for _, name := range f.imports {
			require.False(t, terminal(name), "%s imports %s", f.path, name)
			if strings.HasPrefix(f.dir, "rules") {
				require.False(t, strings.HasPrefix(name, module+"tui") || strings.HasPrefix(name, module+"cmd"), "%s imports %s", f.path, name)
			}
		}
	}
}

// Colour belongs to one package, and so does telling the terminal library
// about the background before it asks.
func TestWhoMayColour(t *testing.T) {
	for _, f := range sources(t) {
		if f.test || f.dir == "tui/style" || f.dir == "tui/background" {
			continue
		}
		require.NotContains(t, f.imports, "github.com/charmbracelet/lipgloss", f.path)
	}
}

// The background package works only because nothing but lipgloss comes before
// it and its path sorts before that of the terminal library.
func TestBackgroundComesFirst(t *testing.T) {
	require.Less(t, module+"tui/background", "github.com/charmbracelet/bubbletea")
	var mainToo, tuiToo bool
	for _, f := range sources(t) {
		if f.test {
			continue
		}
		if f.dir == "tui/background" {
			require.Equal(t, []string{"github.com/charmbracelet/lipgloss"}, f.imports, f.path)
		}
		names := slices.Contains(f.imports, module+"tui/background")
		mainToo = mainToo || f.dir == "cmd/battwright" && names
		tuiToo = tuiToo || f.dir == "tui" && names
	}
	require.True(t, mainToo, "the command does not import tui/background")
	require.True(t, tuiToo, "tui does not import tui/background")
}

// Every file that people write is read by one package and written by one.
func TestWhoMayReadTOML(t *testing.T) {
	for _, f := range sources(t) {
		if f.test || f.dir == "rules/strict" || f.path == "rules/house/write.go" {
			continue
		}
		for _, name := range f.imports {
			require.False(t, strings.Contains(strings.ToLower(name), "toml"), "%s imports %s", f.path, name)
		}
	}
}

// The engine works on what it is given: no network, no clock, no chance, no
// other programs. Files reach it as fs.FS.
func TestTheEngineIsPure(t *testing.T) {
	banned := []string{"os", "os/exec", "net", "net/http", "math/rand", "crypto/rand", "syscall", "unsafe", "log", "plugin", "C"}
	for _, f := range sources(t) {
		if f.test || !strings.HasPrefix(f.dir, "rules") {
			continue
		}
		for _, name := range f.imports {
			require.False(t, slices.Contains(banned, name), "%s imports %s", f.path, name)
		}
	}
	for _, f := range sources(t) {
		if !f.test && strings.HasPrefix(f.dir, "rules") {
			requireNoClock(t, f)
		}
		for _, name := range f.imports {
			require.False(t, !f.test && (name == "net" || strings.HasPrefix(name, "net/")), "%s imports %s: nothing is sent anywhere", f.path, name)
		}
	}
}

// clocks are the parts of package time that ask the clock; dates in a file are
// no clock.
var clocks = []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "NewTimer", "NewTicker", "Tick", "Local", "LoadLocation"}

// seeded are the parts of package rand that throw no dice of their own: the
// same seed gives the same draw.
var seeded = []string{"Rand", "New", "NewPCG"}

// requireNoClock refuses the clock, and dice that no caller has seeded.
func requireNoClock(t *testing.T, f sourceFile) {
	t.Helper()
	if !slices.Contains(f.imports, "time") && !slices.Contains(f.imports, "math/rand/v2") {
		return
	}
	parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", filepath.FromSlash(f.path)), nil, 0)
	require.NoError(t, err)
	ast.Inspect(parsed, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if pkg, ok := sel.X.(*ast.Ident); ok && pkg.Obj == nil {
				clock := pkg.Name == "time" && slices.Contains(clocks, sel.Sel.Name)
				dice := pkg.Name == "rand" && !slices.Contains(seeded, sel.Sel.Name)
				require.False(t, clock || dice, "%s uses %s.%s", f.path, pkg.Name, sel.Sel.Name)
			}
		}
		return true
	})
}

func TestDataHoldsNoProgram(t *testing.T) {
	for _, f := range sources(t) {
		if strings.HasPrefix(f.dir, "data") {
			require.Equal(t, "data/embed.go", f.path)
		}
	}
}

func TestNoLongFiles(t *testing.T) {
	const most = 500
	for _, f := range sources(t) {
		require.LessOrEqual(t, f.lines, most, "%s is too long to read at once", f.path)
	}
}

func TestTopOfTheProject(t *testing.T) {
	known := []string{"cmd", "tui", "rules", "data", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	entries, err := os.ReadDir("..")
	require.NoError(t, err)
	for _, e := range entries {
		require.True(t, strings.HasPrefix(e.Name(), ".") || slices.Contains(known, e.Name()), "%s does not belong at the top", e.Name())
	}
}
