package catalog

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"
)

// published is one row of a table of outside figures; source and mark stand
// beside every value in the file.
type published struct{ kind, a, b, c, value, source, mark string }

func read(t testing.TB, path ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(append([]string{"..", ".."}, path...)...))
	require.NoError(t, err)
	return string(text)
}

// checks reads rows of one kind of codes.csv or climate-check.csv.
func checks(t testing.TB, file, kind string) []published {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(read(t, "testdata", "published", file))).ReadAll()
	require.NoError(t, err)
	var out []published
	for _, r := range rows[1:] {
		if r[0] != kind {
			continue
		}
		p := published{kind: r[0], a: r[1], b: r[2], value: r[len(r)-3], source: r[len(r)-2], mark: r[len(r)-1]}
		if len(r) == 7 {
			p.c = r[3]
		}
		require.NotEmpty(t, p.source)
		require.NotEmpty(t, p.mark)
		out = append(out, p)
	}
	require.NotEmpty(t, out, "%s has no rows of kind %s", file, kind)
	return out
}

func codes(t testing.TB) *CodeBook {
	t.Helper()
	b, err := ParseCodes(read(t, "data", "codes.toml"))
	require.NoError(t, err)
	return b
}

func climates(t testing.TB) []Climate {
	t.Helper()
	c, err := ParseClimates(read(t, "data", "climates.toml"))
	require.NoError(t, err)
	return c
}

var wholeCatalog = sync.OnceValues(func() (*Catalog, error) { return Load(os.DirFS("../../data"), nil) })

func counties(t testing.TB) *Counties {
	t.Helper()
	c, err := wholeCatalog()
	require.NoError(t, err)
	return c.Counties
}

// countiesOf are those of a state that have a zone, by name.
func countiesOf(t testing.TB, table *Counties, state string) []County {
	t.Helper()
	all, err := table.Search(state, "", 1000)
	require.NoError(t, err)
	return all
}

func climateByID(t testing.TB, all []Climate, id string) Climate {
	t.Helper()
	for _, c := range all {
		if c.ID == id {
			return c
		}
	}
	require.Fail(t, "no climate", id)
	return Climate{}
}

// Every source named in the place data must be in the list of sources, and
// every listed source must be used.
func TestPlaceSourcesAreListed(t *testing.T) {
	var list struct {
		Source []struct{ ID, Title, Where, Known string } `toml:"source"`
	}
	meta, err := toml.Decode(read(t, "data", "sources-places.toml"), &list)
	require.NoError(t, err)
	require.Empty(t, meta.Undecoded())
	unused := map[string]bool{}
	for _, s := range list.Source {
		require.False(t, unused[s.ID], "%s is there twice", s.ID)
		require.NotEmpty(t, s.Title)
		require.True(t, Known(s.Known).Valid(), s.ID)
		unused[s.ID] = true
	}
	listed := len(unused)
	seen := map[string]bool{}
	use := func(r Ref) {
		seen[r.Source] = true
		delete(unused, r.Source)
	}
	b, places := codes(t), counties(t)
	for _, m := range b.minimums {
		use(m.ref)
	}
	for _, r := range b.retarders {
		use(r.Ref)
	}
	for _, r := range b.retrofits {
		use(r.Ref)
	}
	for _, n := range b.notes {
		use(n.Ref)
	}
	for _, f := range b.fullHeight {
		use(f.Ref)
	}
	use(b.zoning.Ref)
	for _, s := range places.states {
		use(s.Ref)
	}
	all, err := places.all()
	require.NoError(t, err)
	for _, county := range all {
		use(county.Ref)
	}
	for _, c := range climates(t) {
		for _, r := range c.Refs() {
			use(r)
		}
	}
	require.Empty(t, unused, "listed but not used")
	require.Len(t, seen, listed, "used but not listed: %v", seen)
}
