package strict

import (
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	other "github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"
)

// Lines come from one library and values from another: this holds only while
// both read the same keys and values out of a text.

func TestBothDecodersAgreeOnAllFiles(t *testing.T) {
	files, keys := 0, 0
	check := func(name string, text []byte) {
		if tree, problems := Parse(name, string(text)); len(problems) == 0 {
			files++
			keys += requireAgree(t, tree)
		}
	}
	for _, dir := range []string{"../../data", "../../testdata"} {
		require.NoError(t, filepath.WalkDir(dir, func(path string, _ fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			text, err := os.ReadFile(path)
			switch filepath.Ext(path) {
			case ".toml":
				check(path, text)
			case ".txtar": // of these many are wrong in what they mean alone
				for _, f := range txtar.Parse(text).Files {
					check(f.Name, f.Data)
				}
			default:
				return nil
			}
			return err
		}))
	}
	t.Logf("%d files, %d keys and elements", files, keys)
	require.Greater(t, files, 100)
	require.Greater(t, keys, 10_000)
}

// requireAgree compares the values of a tree with those of the other library
// and with its lines, and counts its keys and elements.
func requireAgree(t *testing.T, tree *Tree) int {
	t.Helper()
	var theirs map[string]any
	require.NoError(t, other.Unmarshal([]byte(tree.text), &theirs), "%s\n%s", tree.File, tree.text)
	require.Equal(t, alike(theirs), alike(tree.values), tree.File)
	n := countPaths(tree.values)
	require.Equal(t, n, countNodes(tree.root), tree.File)
	return n
}

func countNodes(n *node) (count int) {
	for _, k := range n.kids {
		count += 1 + countNodes(k)
	}
	for _, k := range n.items {
		count += 1 + countNodes(k)
	}
	return count
}

// alike makes one type of what the libraries have two for: tables in a list,
// and times.
func alike(v any) any {
	switch v := v.(type) {
	case map[string]any:
		all := map[string]any{}
		for k, e := range v {
			all[k] = alike(e)
		}
		return all
	case time.Time:
		layout := map[string]string{
			"datetime-local": "2006-01-02T15:04:05.999999999", "date-local": time.DateOnly, "time-local": "15:04:05.999999999",
		}[v.Location().String()]
		if layout == "" {
			return v.UTC().Format(time.RFC3339Nano)
		}
		return v.Format(layout)
	case other.LocalDateTime:
		return v.AsTime(time.UTC).Format("2006-01-02T15:04:05.999999999")
	case other.LocalDate:
		return v.String()
	case other.LocalTime:
		return other.LocalDateTime{LocalDate: other.LocalDate{Year: 1, Month: 1, Day: 1}, LocalTime: v}.AsTime(time.UTC).Format("15:04:05.999999999")
	}
	list := reflect.ValueOf(v)
	if list.Kind() != reflect.Slice {
		return v
	}
	all := make([]any, list.Len())
	for i := range all {
		all[i] = alike(list.Index(i).Interface())
	}
	return all
}

func FuzzGenerated(f *testing.F) {
	for seed := range uint64(20) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed uint64) {
		checkGenerated(t, rand.New(rand.NewPCG(seed, 2)))
	})
}
