package catalog

import (
	"embed"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
)

func TestEmbeddedDataLoads(t *testing.T) {
	c, err := Load(data.Files, nil)
	require.NoError(t, err)
	require.Len(t, c.Materials, 4)
	require.NoError(t, CheckStrict(data.Files))
	for _, f := range c.Prove() {
		t.Error(f)
	}
}

// What is read when it is first asked for is all that any file holds of it.
func TestPartsAreWhole(t *testing.T) {
	parted, err := Load(data.Files, nil)
	require.NoError(t, err)
	whole, err := Load(data.Files, embed.FS{})
	require.NoError(t, err)
	for _, f := range reflect.VisibleFields(reflect.TypeFor[records]()) {
		holds := 0
		for p := range parts {
			if r, err := parted.parts[p](); !reflect.ValueOf(r).Elem().FieldByIndex(f.Index).IsZero() {
				require.NoError(t, err)
				holds++
			}
		}
		require.Equal(t, 1, holds, "%s: its records stand in files of %d parts", f.Name, holds)
	}
	require.Equal(t, whole.Materials, parted.Materials)
	require.Equal(t, whole.sources, parted.sources)
	require.Equal(t, whole.prices, parted.prices)
	require.Equal(t, whole.Words(), parted.Words())
	require.Equal(t, whole.Helps(), parted.Helps())
	require.Equal(t, whole.Acceptance(), parted.Acceptance())
	require.Equal(t, whole.Obligations(), parted.Obligations())
	require.Equal(t, whole.Book().Rules(), parted.Book().Rules())
	require.Equal(t, whole.marks(), parted.marks())
}
