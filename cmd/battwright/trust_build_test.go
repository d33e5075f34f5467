package main

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// builtIn is the built program with folders of its own and nothing of this
// environment.
func builtIn(t *testing.T, folders map[string]string, args ...string) *exec.Cmd {
	t.Helper()
	cmd := exec.Command(binary(t), args...)
	cmd.Dir = folders["work"]
	cmd.Env = []string{"HOME=" + folders["home"], "TMPDIR=" + folders["tmp"], "PATH=" + os.Getenv("PATH")}
	return cmd
}

// releaseFlags are how the program is built to be given away.
var releaseFlags = []string{"build", "-trimpath", "-buildvcs=false", "-ldflags=-buildid="}

// The same source in another folder gives the same program, byte for byte.
func TestReproducibleBuild(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program twice")
	}
	t.Parallel()
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	copied := filepath.Join(t.TempDir(), "another", "name")
	require.NoError(t, copySource(root, copied))
	var sums []string
	for _, dir := range []string{root, copied} {
		out := filepath.Join(t.TempDir(), "program")
		cmd := exec.Command("go", append(slices.Clone(releaseFlags), "-o", out, "./cmd/battwright")...)
		cmd.Dir = dir
		cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOFLAGS=-mod=readonly")
		text, err := cmd.CombinedOutput()
		require.NoError(t, err, string(text))
		f, err := os.Open(out)
		require.NoError(t, err)
		sum := sha256.New()
		_, err = io.Copy(sum, f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		sums = append(sums, fmt.Sprintf("%x", sum.Sum(nil)))
	}
	require.Equal(t, sums[0], sums[1])
	t.Log("SHA-256", sums[0])
}

// copySource copies what a build reads.
func copySource(from, to string) error {
	return filepath.WalkDir(from, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(from, path)
		if err != nil {
			return err
		}
		if d.IsDir() {
			if rel != "." && strings.HasPrefix(d.Name(), ".") {
				return filepath.SkipDir
			}
			return os.MkdirAll(filepath.Join(to, rel), 0o755)
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(to, rel), b, 0o644)
	})
}

// listed is a package of the program as the go command tells it.
type listed struct {
	ImportPath string
	Standard   bool
	Imports    []string
	Module     *struct{ Path string }
}

func dependencies(t *testing.T) map[string]listed {
	t.Helper()
	cmd := exec.Command("go", "list", "-deps", "-json=ImportPath,Standard,Imports,Module", ".")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS=linux")
	out, err := cmd.Output()
	require.NoError(t, err)
	deps := map[string]listed{}
	for d := json.NewDecoder(strings.NewReader(string(out))); d.More(); {
		var p listed
		require.NoError(t, d.Decode(&p))
		deps[p.ImportPath] = p
	}
	require.Greater(t, len(deps), 50)
	return deps
}

// plainNet are packages under net that only take addresses apart: a template
// of help texts and the width of linked text bring them in.
var plainNet = []string{"net/netip", "net/url"}

// No package that can open a socket is linked in: net, what builds on it, and
// what would load other programs' code.
func TestNoNetwork(t *testing.T) {
	deps := dependencies(t)
	for path := range deps {
		root, _, _ := strings.Cut(path, "/")
		if !slices.Contains(plainNet, path) {
			require.NotEqual(t, "net", root, "%s is linked in", path)
		}
		require.NotContains(t, []string{"plugin", "crypto/tls", "golang.org/x/net", "vendor/golang.org/x/net"}, path)
	}
	require.Contains(t, deps, "battwright/tui", "the list is that of the program")
	sockets := []string{"syscall.Socket(", "unix.Socket(", "syscall.Connect(", "unix.Connect("}
	for path := range deps {
		if !strings.HasPrefix(path, "battwright/") {
			continue
		}
		files, err := filepath.Glob(filepath.Join("..", "..", strings.TrimPrefix(path, "battwright/"), "*.go"))
		require.NoError(t, err)
		for _, file := range files {
			if strings.HasSuffix(file, "_test.go") {
				continue
			}
			text := readFile(t, file)
			for _, s := range sockets {
				require.NotContains(t, text, s, file)
			}
		}
	}
}

// Each module that is linked in is named, with its reason, where those who
// work on the program look for it; modules that come along with one are not.
func TestEveryDependencyHasAReason(t *testing.T) {
	text := readFile(t, "../../DEVELOPERS.md")
	_, table, found := strings.Cut(text, "## Dependencies")
	require.True(t, found)
	direct := map[string]bool{}
	for _, p := range dependencies(t) {
		if p.Module != nil && p.Module.Path == "battwright" {
			for _, path := range p.Imports {
				direct[path] = true
			}
		}
	}
	seen := 0
	for path, p := range dependencies(t) {
		if !direct[path] || p.Module == nil || p.Module.Path == "battwright" {
			continue
		}
		name := p.Module.Path[strings.LastIndex(p.Module.Path, "/")+1:]
		require.Contains(t, table, name, "%s is used without a reason", p.Module.Path)
		seen++
	}
	require.Greater(t, seen, 3)
}
