package catalog

import (
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
